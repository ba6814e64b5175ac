#include "common/sound/voice_mix.h"

#include "common/sound/soft_limiter.h"

namespace vh
{

bool VoiceMix::render(std::span<float> out)
{
    bool plays = m_leader.render(out);
    while (!out.empty()) {
        const auto piece = out.first(std::min(out.size(), m_other.size()));
        const auto other = std::span(m_other).first(piece.size());
        if (m_invited.render(other)) {
            plays = true;
            for (std::size_t i = 0; i < piece.size(); ++i)
                piece[i] += other[i];
        }
        if (plays)
            softLimit(piece);
        out = out.subspan(piece.size());
    }
    return plays;
}

} // namespace vh
