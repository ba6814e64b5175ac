#include "common/sound/piece_map.h"

#include <algorithm>
#include <cmath>

namespace vh
{

void PieceMap::add(double begin, std::size_t length, std::int64_t from, std::int64_t to)
{
    m_pieces[m_added++ % m_pieces.size()] = {begin, static_cast<double>(length), from, to};
}

std::int64_t PieceMap::positionAt(double given)
{
    for (std::size_t back = 1; back <= std::min(m_added, m_pieces.size()); ++back) {
        const Piece& piece = m_pieces[(m_added - back) % m_pieces.size()];
        if (given < piece.begin)
            continue;
        const double share = std::min((given - piece.begin) / piece.length, 1.0);
        m_said = std::max(m_said, piece.from + std::lround(share * static_cast<double>(piece.to - piece.from)));
        break;
    }
    return m_said;
}

} // namespace vh
