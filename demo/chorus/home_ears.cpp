#include "demo/chorus/home_ears.h"

#include <algorithm>
#include <cmath>

namespace vh::chorus
{

namespace
{

constexpr double kWantedDb = -38;  // mean square
constexpr double kSilenceDb = -58; // under this nothing moves
constexpr double kMostGainDb = 15;
constexpr std::size_t kBlock = 480; // 10 ms
constexpr double kDbPerBlock = 0.06;
constexpr double kTakePerBlock = 0.02;
constexpr int kMostRounds = 3; // of the mic check's lines

} // namespace

void GainRider::push(std::vector<float>& samples)
{
    for (std::size_t from = 0; from < samples.size(); from += kBlock) {
        const std::span block = std::span(samples).subspan(from, std::min(kBlock, samples.size() - from));
        double sum = 0;
        for (const float sample : block)
            sum += static_cast<double>(sample) * sample;
        const double meanSquare = sum / static_cast<double>(block.size());
        if (dbOfMeanSquare(meanSquare) > kSilenceDb) {
            m_meanSquare += kTakePerBlock * (meanSquare - m_meanSquare);
            const double miss = kWantedDb - dbOfMeanSquare(m_meanSquare) - m_gainDb;
            m_gainDb = std::clamp(m_gainDb + std::clamp(miss, -kDbPerBlock, kDbPerBlock), -kMostGainDb, kMostGainDb);
        }
        const auto gain = static_cast<float>(std::pow(10, m_gainDb / 20));
        for (float& sample : block)
            sample *= gain;
    }
}

std::vector<VoiceFrame> HomeEars::listen(std::vector<float> samples)
{
    if (m_rides)
        m_rider.push(samples);
    std::vector<VoiceFrame> frames;
    frames.reserve(samples.size() / kBlock + 1);
    m_meter.push(samples, [&](const VoiceFrame& frame) { frames.push_back(frame); });
    return frames;
}

HomeEars::Checked HomeEars::check(std::vector<float> samples)
{
    MicCheck check;
    for (int round = 0; round < kMostRounds && check.stage() != MicCheck::Stage::done; ++round)
        for (const VoiceFrame& frame : listen(samples))
            check.add(frame);
    return {check.finding(), check.usualDbfsA(), check.roomDbfsA()};
}

} // namespace vh::chorus
