// Sound frames as strangers might send them, at any time, in any order: a player never falls over, never plays what is
// no number, never goes back within a stream, and always fills what it is given.
// Input: steps. A byte n: bit 7 render (n % 128 + 1) * 8 samples; else a frame: one byte of payload length, one of
// stream (bits 0-1: both set is the next one) and way of counting (bits 2-4), two of count, then the payload.
#include "common/sound/voice_player.h"

#include <cmath>
#include <cstdlib>

using namespace vh;

namespace
{
void mustHold(bool right)
{
    if (!right)
        std::abort();
}

class Bytes
{
public:
    explicit Bytes(std::span<const std::uint8_t> bytes) : m_bytes(bytes) {}
    [[nodiscard]] bool empty() const { return m_bytes.empty(); }
    std::uint8_t one()
    {
        if (m_bytes.empty())
            return 0;
        const std::uint8_t byte = m_bytes.front();
        m_bytes = m_bytes.subspan(1);
        return byte;
    }
    std::span<const std::uint8_t> some(std::size_t count)
    {
        const auto taken = m_bytes.first(std::min(count, m_bytes.size()));
        m_bytes = m_bytes.subspan(taken.size());
        return taken;
    }

private:
    std::span<const std::uint8_t> m_bytes;
};

void play(VoicePlayer& player, std::size_t count, HeardUpTo& before)
{
    std::array<float, 1024> out;
    out.fill(NAN);
    const auto piece = std::span(out).first(count);
    player.render(piece);
    for (const float sample : piece)
        mustHold(std::isfinite(sample));
    const HeardUpTo heard = player.heardUpTo();
    mustHold(heard.stream != before.stream || before.sample == 0 ||
             static_cast<std::int64_t>(heard.sample - before.sample) >= 0);
    before = heard;
}
} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    Bytes bytes({data, size});
    VoicePlayer player;
    HeardUpTo before;
    std::uint64_t count = 0;
    std::uint32_t stream = 1;
    int rendered = 0;
    while (!bytes.empty() && rendered < 400) {
        const std::uint8_t step = bytes.one();
        if (step >= 128) {
            play(player, static_cast<std::size_t>(step % 128 + 1) * 8, before);
            ++rendered;
            continue;
        }
        const std::uint8_t how = bytes.one();
        const std::uint64_t number = static_cast<std::uint64_t>(bytes.one()) << 8U | bytes.one();
        constexpr std::uint64_t kScales[] = {1, 960, 0x1'0000, 0x0001'0000'0000'0000};
        count = how & 16U ? number * kScales[how >> 2U & 3U] : count + number * kScales[how >> 2U & 3U];
        stream += (how & 3U) == 3 ? 1 : 0;
        player.arrive({stream, count}, bytes.some(step * 2U), Instant{});
    }
    return 0;
}
