#include "common/sound/opus_codec.h"

#include "common/wire/limits.h"

#include <algorithm>
#include <cassert>
#include <opus.h>
#include <stdexcept>
#include <string>

namespace vh
{

static_assert(wire::kSoundBytes == 1275, "the largest Opus frame, RFC 6716 section 3.2.1");

namespace
{
std::runtime_error cannotStart(int code)
{
    return std::runtime_error(std::string("Opus: ") + opus_strerror(code));
}
} // namespace

void VoiceEncoder::Closer::operator()(OpusEncoder* encoder) const
{
    opus_encoder_destroy(encoder);
}

VoiceEncoder::VoiceEncoder(const VoiceCoding& coding)
{
    int code = OPUS_OK;
    m_encoder.reset(opus_encoder_create(kSoundRateHz, 1, OPUS_APPLICATION_VOIP, &code));
    if (!m_encoder)
        throw cannotStart(code);
    for (const int result : {opus_encoder_ctl(m_encoder.get(), OPUS_SET_BITRATE(coding.bitsPerSecond)),
                             opus_encoder_ctl(m_encoder.get(), OPUS_SET_COMPLEXITY(coding.complexity)),
                             opus_encoder_ctl(m_encoder.get(), OPUS_SET_INBAND_FEC(coding.inBandFec ? 1 : 0)),
                             opus_encoder_ctl(m_encoder.get(), OPUS_SET_PACKET_LOSS_PERC(coding.expectedLossPercent)),
                             opus_encoder_ctl(m_encoder.get(), OPUS_SET_DTX(0))}) {
        if (result != OPUS_OK)
            throw cannotStart(result);
    }
}

std::span<const std::uint8_t> VoiceEncoder::encode(std::span<const float, kSoundFrame> frame)
{
    const auto size = opus_encode_float(m_encoder.get(), frame.data(), static_cast<int>(frame.size()), m_packet.data(),
                                        static_cast<opus_int32>(m_packet.size()));
    assert(size > 0 && "the arguments are constants");
    return std::span(m_packet).first(static_cast<std::size_t>(std::max<opus_int32>(size, 0)));
}

void VoiceEncoder::restart()
{
    opus_encoder_ctl(m_encoder.get(), OPUS_RESET_STATE);
}

int VoiceEncoder::lookahead() const
{
    opus_int32 samples = 0;
    opus_encoder_ctl(m_encoder.get(), OPUS_GET_LOOKAHEAD(&samples));
    return samples;
}

void VoiceDecoder::Closer::operator()(OpusDecoder* decoder) const
{
    opus_decoder_destroy(decoder);
}

VoiceDecoder::VoiceDecoder()
{
    int code = OPUS_OK;
    m_decoder.reset(opus_decoder_create(kSoundRateHz, 1, &code));
    if (!m_decoder)
        throw cannotStart(code);
}

bool VoiceDecoder::run(std::span<const std::uint8_t> packet, std::span<float, kSoundFrame> into, bool fec)
{
    const int count = opus_decode_float(m_decoder.get(), packet.empty() ? nullptr : packet.data(),
                                        static_cast<opus_int32>(packet.size()), into.data(),
                                        static_cast<int>(into.size()), fec ? 1 : 0);
    return count == static_cast<int>(into.size());
}

bool VoiceDecoder::decode(std::span<const std::uint8_t> packet, std::span<float, kSoundFrame> into)
{
    if (samplesIn(packet) == kSoundFrame && run(packet, into, false))
        return true;
    conceal(into);
    return false;
}

void VoiceDecoder::conceal(std::span<float, kSoundFrame> into)
{
    if (!run({}, into, false))
        std::ranges::fill(into, 0.0F);
}

void VoiceDecoder::recover(std::span<const std::uint8_t> next, std::span<float, kSoundFrame> into)
{
    if (samplesIn(next) != kSoundFrame || !run(next, into, true))
        conceal(into);
}

void VoiceDecoder::restart()
{
    opus_decoder_ctl(m_decoder.get(), OPUS_RESET_STATE);
}

std::optional<std::size_t> VoiceDecoder::samplesIn(std::span<const std::uint8_t> packet)
{
    if (packet.empty() || packet.size() > wire::kSoundBytes)
        return std::nullopt;
    const int count = opus_packet_get_nb_samples(packet.data(), static_cast<opus_int32>(packet.size()), kSoundRateHz);
    return count > 0 ? std::optional(static_cast<std::size_t>(count)) : std::nullopt;
}

} // namespace vh
