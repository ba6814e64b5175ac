#include "server/hall/coming_pictures.h"

namespace vh::hall
{

bool PictureRoom::take(std::size_t bytes)
{
    std::size_t taken = m_taken.load(std::memory_order_relaxed);
    do {
        if (bytes > m_most - taken)
            return false;
    } while (!m_taken.compare_exchange_weak(taken, taken + bytes, std::memory_order_relaxed));
    if (!m_whole || m_whole->take(bytes))
        return true;
    m_taken.fetch_sub(bytes, std::memory_order_relaxed);
    return false;
}

void PictureRoom::give(std::size_t bytes)
{
    m_taken.fetch_sub(bytes, std::memory_order_relaxed);
    if (m_whole)
        m_whole->give(bytes);
}

bool HeldRoom::more(std::size_t bytes)
{
    if (!m_room->take(bytes))
        return false;
    m_bytes += bytes;
    return true;
}

Result<std::optional<ComingPictures::Whole>> ComingPictures::take(const Session* from, const wire::PicturePiece& piece,
                                                                  const std::string& text,
                                                                  std::vector<std::uint8_t> bytes, Instant now)
{
    if (piece.piece == 0)
        m_coming[from] = {{piece.picture, text, {}, std::make_shared<HeldRoom>(m_room)}, piece.pieces, {}, now};
    const auto found = m_coming.find(from);
    const auto refuse = [&](const char* code, const char* words) {
        m_coming.erase(from);
        return fail(code, words);
    };
    if (piece.pieces == 0 || piece.pieces > wire::kPicturePieces)
        return refuse("picture-too-large", "The picture is too large. Please send a smaller copy of it.");
    if (found == m_coming.end() || found->second.whole.picture != piece.picture ||
        found->second.came.size() != piece.piece || found->second.pieces != piece.pieces)
        return refuse("piece-unknown", "A part of the picture is missing. It has to be sent again.");
    Coming& coming = found->second;
    if (!coming.whole.room->more(bytes.size()))
        return refuse("pictures-busy", "Many pictures are coming in just now. Please send it again in a moment.");
    coming.came.push_back(std::move(bytes));
    coming.last = now;
    if (coming.came.size() < coming.pieces)
        return std::nullopt;
    std::optional<Whole> whole = std::move(coming.whole);
    whole->bytes.reserve(coming.came.size() * wire::kPicturePieceBytes);
    for (const auto& each : coming.came)
        whole->bytes.insert(whole->bytes.end(), each.begin(), each.end());
    m_coming.erase(found);
    return whole;
}

void ComingPictures::forget(const Session* from, RequestId picture)
{
    const auto found = m_coming.find(from);
    if (found != m_coming.end() && found->second.whole.picture == picture)
        m_coming.erase(found);
}

void ComingPictures::forget(Instant now)
{
    std::erase_if(m_coming, [&](const auto& each) { return each.second.last + kPieceKept < now; });
}

} // namespace vh::hall
