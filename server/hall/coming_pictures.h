#pragma once
// Pictures that are on their way up, piece by piece, in memory: one of each line, so many bytes in a hall and in all
// halls together, each for two minutes after its last piece. Thread: the hall's loop; the room of all is counted from
// any.
#include "common/base/clock.h"
#include "common/base/result.h"
#include "common/wire/picture_messages.h"

#include <atomic>
#include <map>
#include <memory>

namespace vh::hall
{

class Session;

inline constexpr std::size_t kPictureRoomOfHall = std::size_t{12} << 20; ///< six of the largest
inline constexpr std::size_t kPictureRoomOfAll = std::size_t{32} << 20;
inline constexpr Millis kPieceKept = std::chrono::minutes{2};

/// Bytes that may be held; those of a part of it count in the whole, too.
class PictureRoom
{
public:
    explicit PictureRoom(std::size_t most, PictureRoom* whole = nullptr) : m_most(most), m_whole(whole) {}
    [[nodiscard]] bool take(std::size_t bytes);
    void give(std::size_t bytes);
    [[nodiscard]] std::size_t taken() const { return m_taken.load(std::memory_order_relaxed); }

private:
    std::size_t m_most;
    PictureRoom* m_whole;
    std::atomic<std::size_t> m_taken{0};
};

/// Bytes that are held, as long as this is.
class HeldRoom
{
public:
    explicit HeldRoom(std::shared_ptr<PictureRoom> room) : m_room(std::move(room)) {}
    ~HeldRoom() { m_room->give(m_bytes); }
    HeldRoom(const HeldRoom&) = delete;
    HeldRoom& operator=(const HeldRoom&) = delete;
    [[nodiscard]] bool more(std::size_t bytes);

private:
    std::shared_ptr<PictureRoom> m_room;
    std::size_t m_bytes = 0;
};

class ComingPictures
{
public:
    /// `all`: the relay's; null where no picture is ever taken.
    explicit ComingPictures(PictureRoom* all) : m_room(std::make_shared<PictureRoom>(kPictureRoomOfHall, all)) {}

    struct Whole {
        RequestId picture;
        std::string text;
        std::vector<std::uint8_t> bytes;
        std::shared_ptr<HeldRoom> room; ///< to be held as long as the bytes are
    };
    /// The whole picture when this was its last piece, else nothing. piece-unknown, picture-too-large, pictures-busy:
    /// then nothing of it is kept.
    Result<std::optional<Whole>> take(const Session* from, const wire::PicturePiece& piece, const std::string& text,
                                      std::vector<std::uint8_t> bytes, Instant now);
    void forget(const Session* from) { m_coming.erase(from); }
    /// If it is this one that comes from there.
    void forget(const Session* from, RequestId picture);
    /// Those whose time is over.
    void forget(Instant now);

private:
    struct Coming {
        Whole whole; ///< without its bytes yet: put together at the end, so that no more is held than has come
        std::uint32_t pieces = 0;
        std::vector<std::vector<std::uint8_t>> came;
        Instant last{};
    };
    std::shared_ptr<PictureRoom> m_room;
    std::map<const Session*, Coming> m_coming;
};

} // namespace vh::hall
