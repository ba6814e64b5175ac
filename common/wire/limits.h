#pragma once
// Every limit of the protocol, in one place. Sizes in bytes of a whole message unless said otherwise.
#include <algorithm>
#include <chrono>
#include <cstddef>

namespace vh::wire
{

inline constexpr int kVersion = 1; ///< of the protocol; subprotocol name "voicehall.1"
inline constexpr const char* kSubprotocol = "voicehall.1";
inline constexpr const char* kPath = "/hall";

inline constexpr std::size_t kFirstMessage = 4 * 1024;    ///< before somebody is in
inline constexpr std::size_t kHomeMessage = 8 * 1024;     ///< participants and helpers
inline constexpr std::size_t kLeaderMessage = 256 * 1024; ///< leaders publish parts
inline constexpr std::size_t kPartBytes = 192 * 1024; ///< one content-hashed part: the script's JSON, or one picture
/// What fits into one partPut: base64 takes 4 characters for 3 bytes, and the rest of the message has room.
inline constexpr std::size_t kPartPutBytes = std::min(kPartBytes, (kLeaderMessage - 1024) / 4 * 3);
inline constexpr std::size_t kPartsPerClass = 64;
inline constexpr std::size_t kHandoutBytes = 4 * 1024 * 1024; ///< a whole handout
inline constexpr std::size_t kHandoutParts = (kHandoutBytes + kPartPutBytes - 1) / kPartPutBytes;
inline constexpr std::size_t kPictureBytes = 2 * 1024 * 1024; ///< of a picture as it is sent
inline constexpr std::size_t kPicturePieceBytes = 32 * 1024;
inline constexpr std::size_t kPicturePieces = kPictureBytes / kPicturePieceBytes;
inline constexpr std::size_t kPicturePieceText = (kPicturePieceBytes + 2) / 3 * 4; ///< in base64
inline constexpr std::size_t kPictureMessage = 64 * 1024;                          ///< a piece, and the longest caption
inline constexpr std::size_t kPictureShownBytes = 480 * 1024; ///< as it is shown: one message to a client
inline constexpr std::size_t kToClient = 512 * 1024;          ///< the largest message a relay sends

// Texts, in code points.
inline constexpr std::size_t kNameLength = 40;
inline constexpr std::size_t kChatLength = 500;
inline constexpr std::size_t kWrittenLength = 2000; ///< as it arrives: what is over kChatLength is refused in words
inline constexpr std::size_t kReasonLength = 200;
inline constexpr std::size_t kNoticeLength = 500;
inline constexpr std::size_t kWhereLength = 200;
inline constexpr std::size_t kTitleLength = 120;
inline constexpr std::size_t kLabelLength = 60;
inline constexpr std::size_t kWordLength = 120; ///< a private word

inline constexpr std::size_t kBoardTail = 50;      ///< items in a snapshot
inline constexpr std::size_t kDeskItems = 1000;    ///< in one message
inline constexpr std::size_t kQuestionsAtMost = 3; ///< on the leader's screen
inline constexpr std::size_t kPeoplePerHall = 5000;
inline constexpr std::size_t kPeopleNamed = 300; ///< of those in class, to one another
inline constexpr std::size_t kDoorWaiting = 200;
inline constexpr std::size_t kSoundBytes = 1275; ///< one Opus frame (RFC 6716 section 3.2.1)

/// Sound frames of one sender that are carried: so many a second for long, and so many at once after its line stood
/// still (frames are 20 ms, so 50 a second come; the burst is five seconds of them).
inline constexpr double kSoundFramesPerSecond = 75;
inline constexpr double kSoundFramesAtOnce = 250;

/// What was let through can be taken back for so long before it is on the board.
inline constexpr std::chrono::milliseconds kGoesUpAfter{3000};
/// Somebody who was asked for quiet "for a while"; and the longest that a rest for the class lasts.
inline constexpr std::chrono::minutes kQuietFor{10};
inline constexpr std::chrono::hours kRestsAtMost{6};

/// A line that breaks off counts as lost once it has been away for so long; most come back sooner by themselves.
inline constexpr std::chrono::seconds kLineLostAfter{10};
/// Whoever took a call and has been away for so long has it no more: others may take it.
inline constexpr std::chrono::seconds kTakerAwayFor{30};

/// The leader's app says it is there this often.
inline constexpr std::chrono::milliseconds kLeadingEvery{1000};
/// Readings go up at most this often in voiced turns, and so do roster frames come down.
inline constexpr std::chrono::milliseconds kReadingEvery{250};

} // namespace vh::wire
