#pragma once
// Opus (RFC 6716) by libopus, as Voicehall uses it: 48 kHz mono, frames of 20 ms, one frame a packet. Floats, full
// scale 1.0. Both allocate at construction only, which throws std::runtime_error when libopus cannot start. Thread: one
// each. The codec takes 0.2 to 0.7 dB off the level of speech: what is measured is measured before it.
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>

struct OpusEncoder;
struct OpusDecoder;

namespace vh
{

inline constexpr int kSoundRateHz = 48'000;
inline constexpr std::size_t kSoundFrame = 960; ///< samples: 20 ms

/// Losses are the transport's matter on TCP, so redundancy is off unless a datagram transport is being measured.
struct VoiceCoding {
    int bitsPerSecond = 28'000;
    int complexity = 5; ///< 0 to 10
    bool inBandFec = false;
    int expectedLossPercent = 0;
};

class VoiceEncoder
{
public:
    explicit VoiceEncoder(const VoiceCoding& coding = {});
    /// One packet, which lives until the next call; at most wire::kSoundBytes.
    std::span<const std::uint8_t> encode(std::span<const float, kSoundFrame> frame);
    /// Forgets what went before: sound begins anew after silence.
    void restart();
    /// By so many samples does the decoded sound lie behind what was put in.
    [[nodiscard]] int lookahead() const;

private:
    struct Closer {
        void operator()(OpusEncoder* encoder) const;
    };
    std::unique_ptr<OpusEncoder, Closer> m_encoder;
    std::array<std::uint8_t, 1275> m_packet{};
};

class VoiceDecoder
{
public:
    VoiceDecoder();
    /// False for what is not a packet of 20 ms: `into` is then a concealment.
    bool decode(std::span<const std::uint8_t> packet, std::span<float, kSoundFrame> into);
    /// Goes on from what was heard last, fading within some frames.
    void conceal(std::span<float, kSoundFrame> into);
    /// The frame before `next`, from what `next` says of it if it says anything, else a concealment.
    void recover(std::span<const std::uint8_t> next, std::span<float, kSoundFrame> into);
    void restart();

    /// How many samples at 48 kHz a packet holds, by its first bytes alone; nothing for what cannot be a packet.
    [[nodiscard]] static std::optional<std::size_t> samplesIn(std::span<const std::uint8_t> packet);

private:
    bool run(std::span<const std::uint8_t> packet, std::span<float, kSoundFrame> into, bool fec);

    struct Closer {
        void operator()(OpusDecoder* decoder) const;
    };
    std::unique_ptr<OpusDecoder, Closer> m_decoder;
};

} // namespace vh
