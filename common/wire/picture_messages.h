#pragma once
// Pictures that people send: their way up in pieces, what the desk does to them, who fetches them, and the one that is
// shown in the group's window. Both directions; part of board_messages.h, which includes it. What people are shown was
// made anew by the relay (docs/pictures.md): JPEG or PNG, at most kPictureShownBytes, told by its SHA-256.
#include "common/wire/leading_messages.h"

namespace vh::wire
{

/// A picture as it can be fetched (PictureAsk).
struct PictureAbout {
    Hash hash{};              ///< of its bytes
    std::uint32_t width = 0;  ///< px
    std::uint32_t height = 0; ///< px
    void fields(auto& visit) { visit("hash", hash), visit("width", width), visit("height", height); }
};

// --- to the relay --------------------------------------------------------------------------------------------------

/// One piece of a picture that somebody sends, in order, from 0. Each is acknowledged by its own id; an acknowledgement
/// with an `item` says that the whole picture is on disk, made anew, and to be read: nothing more of it need be sent.
/// After a broken line: again from piece 0 under the same `picture`, which is there once however often it is sent.
/// Refused: docs/pictures.md, not-agreed, quiet, many-held, text-too-long, pictures-off, pictures-busy, piece-unknown.
struct PicturePiece {
    static constexpr std::string_view kName = "picturePiece";
    RequestId id;
    RequestId picture;
    std::uint32_t piece = 0;
    std::uint32_t pieces = 1; ///< of the whole picture
    std::string text;         ///< caption; of the first piece, else empty
    std::string base64;       ///< at most kPicturePieceBytes
    void fields(auto& visit)
    {
        visit("id", id), visit("picture", picture), visit("piece", piece), visit("pieces", pieces);
        visit("text", text, atMost(kWrittenLength)), visit("base64", base64, atMost(kPicturePieceText));
    }
};

/// Asks for a picture that this person may see: on the board, their own, at the desk for those who work there, in the
/// group's window. The answer is a binary part; or refused, without id, part-unknown.
struct PictureAsk {
    static constexpr std::string_view kName = "pictureAsk";
    Hash hash{};
    void fields(auto& visit) { visit("hash", hash); }
};

/// From the desk: the picture as it is to be, seen at `change`. First cut (shares of its width and height, 0 to 1),
/// then turned clockwise; `text` is its caption. It keeps its item and its state, with a new change, and a new hash
/// where it was cut or turned; the bytes before it are gone with the acknowledgement. Refused: item-unknown,
/// item-changed, cut-impossible, text-too-long, pictures-off, pictures-busy, and those of docs/pictures.md.
struct EditPicture {
    static constexpr std::string_view kName = "editPicture";
    RequestId id;
    std::uint64_t item = 0;
    std::uint64_t change = 0;
    std::uint32_t quarterTurns = 0;
    double left = 0;
    double top = 0;
    double right = 1;
    double bottom = 1;
    std::string text;
    void fields(auto& visit)
    {
        visit("id", id), visit("item", item), visit("change", change), visit("quarterTurns", quarterTurns);
        visit("left", left), visit("top", top), visit("right", right), visit("bottom", bottom);
        visit("text", text, atMost(kWrittenLength));
    }
};

/// From a leader: this picture in the group's window, or (`on` false) no longer. One that is on the board, or with her
/// for that. It also ends by itself: with her next move, with the class, or when the picture is taken back or set
/// aside. Refused: item-unknown, picture-unread (nobody at the desk has let it through).
struct ShowPicture {
    static constexpr std::string_view kName = "showPicture";
    RequestId id;
    std::uint64_t item = 0;
    bool on = true;
    void fields(auto& visit) { visit("id", id), visit("item", item), visit("on", on); }
};

// --- to everybody --------------------------------------------------------------------------------------------------

/// What is in the group's window now; without a picture: nothing. At every change, and in the welcome while there is
/// one.
struct PictureNow {
    static constexpr std::string_view kName = "pictureNow";
    std::uint64_t seq = 0;
    std::uint64_t item = 0; ///< 0 without a picture
    std::optional<PictureAbout> picture;
    std::string name; ///< of whoever sent it, where they agreed to be seen; else empty
    std::string text; ///< caption
    void fields(auto& visit)
    {
        visit("seq", seq), visit("item", item), visit("picture", picture);
        visit("name", name, atMost(kNameLength)), visit("text", text, atMost(kChatLength));
    }
};

} // namespace vh::wire
