#include "tests/ground/check_air.h"

#include "tests/ground/check_trials.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace vh::ground
{

namespace
{

constexpr int kRate = kVoiceRateHz;
constexpr std::size_t kFrame = kRate / 100;
constexpr double kWhisperUnderDb = 15;
constexpr double kMonitorDb = -26;

double gainOf(double db)
{
    return std::pow(10.0, db / 20);
}

bool whispers(Kind kind)
{
    return kind == Kind::whisper || kind == Kind::espeakWhisper;
}

} // namespace

const char* nameOf(Wire wire)
{
    constexpr std::array kNames{"the person's microphone", "the computer's own output", "a microphone elsewhere",
                                "an input with nothing in it", "a dead line"};
    return kNames[static_cast<std::size_t>(wire)];
}

CheckAir::CheckAir(const CheckRoom& room, const CheckSetting& setting, Random& random)
    : m_room(room), m_setting(setting), m_random(random),
      m_reader(room.readers(setting.kind)[random.below(room.readers(setting.kind).size())]),
      m_voiceDb(random.between(-46, -30) - (whispers(setting.kind) ? kWhisperUnderDb : 0)),
      m_roomDb(m_voiceDb - random.between(whispers(setting.kind) ? 14 : 18, 38)),
      m_lowCut(butterworthHighPass(15 * std::pow(10, random.between(0, 1)), kRate))
{
    const auto begin = [&](Stream& stream, const Samples& samples, double db) {
        stream = {&samples, random.below(samples.size()), gainOf(db)};
    };
    begin(m_tone, room.room(), std::max(m_roomDb, -86.0));
    if (setting.noise)
        begin(m_noise, room.noise(*setting.noise, random), m_voiceDb - random.between(12, 24));
    if (random.chance(0.5))
        begin(m_street, room.street(), m_roomDb + random.between(-10, 10));
    begin(m_own, room.hiss(), random.between(-100, -84));
    if (random.chance(0.25))
        m_blowDb = random.between(1, 25);
}

Samples CheckAir::silence(double seconds) const
{
    return Samples(samplesOf(seconds, kRate) / kFrame * kFrame);
}

Samples CheckAir::spoken(const Samples& said, double moreDb)
{
    Samples sound((said.size() + kFrame - 1) / kFrame * kFrame);
    if (m_setting.wire != Wire::person)
        return sound;
    mixInto(sound, said, 0, gainOf(m_voiceDb + moreDb));
    if (m_blowDb > 0)
        blow(sound, gainOf(m_roomDb + m_blowDb));
    return sound;
}

/// Low rushing where the voice sounds.
void CheckAir::blow(Samples& sound, double gain)
{
    constexpr double kTake = 1.0 / (0.03 * kRate);
    const double least = 0.1 * gainOf(m_voiceDb);
    std::size_t at = m_random.below(m_room.street().size());
    double size = 0;
    double open = 0;
    for (float& sample : sound) {
        size += kTake * (std::abs(static_cast<double>(sample)) - size);
        open += kTake * ((size > least ? 1 : 0) - open);
        sample += static_cast<float>(open * gain) * m_room.street()[at];
        at = at + 1 < m_room.street().size() ? at + 1 : 0;
    }
}

Samples CheckAir::played(std::size_t frames, std::size_t lead)
{
    Samples sound(kFrame * frames);
    const bool isMonitor = m_setting.wire == Wire::monitor;
    const double delay = isMonitor ? 0 : m_random.between(0.04, 0.14);
    const double db = isMonitor ? kMonitorDb : m_voiceDb + m_random.between(-12, 15);
    const Samples& arrives = m_room.played()[m_random.below(m_room.played().size())];
    if (isMonitor || (m_setting.wire == Wire::person && !m_setting.headphones))
        mixInto(sound, arrives, lead * kFrame + samplesOf(delay, kRate), gainOf(db));
    return sound;
}

void CheckAir::lay(Stream& stream, Samples& sound)
{
    if (stream.samples == nullptr)
        return;
    const auto gain = static_cast<float>(stream.gain);
    for (std::size_t done = 0; done < sound.size();) { // in stretches, so that the loop has nothing else to ask
        const std::size_t count = std::min(sound.size() - done, stream.samples->size() - stream.at);
        const float* from = stream.samples->data() + stream.at;
        float* to = sound.data() + done;
        for (std::size_t i = 0; i < count; ++i)
            to[i] += gain * from[i];
        done += count;
        stream.at = (stream.at + count) % stream.samples->size();
    }
}

void CheckAir::addRoom(Samples& sound)
{
    if (m_setting.wire == Wire::dead || m_setting.wire == Wire::monitor)
        return;
    for (Stream* each : {&m_tone, &m_noise, &m_street})
        lay(*each, sound);
    for (float& sample : sound)
        sample = static_cast<float>(m_lowCut.push(static_cast<double>(sample)));
    lay(m_own, sound);
}

} // namespace vh::ground
