#include "tests/ground/check_trials.h"

#include "common/signal/meter.h"
#include "common/signal/weighting.h"

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
constexpr double kMostStageSeconds = 40;
constexpr double kNothing = 1e-12;
/// Of a voice that part counts for its level.
constexpr double kCountsWithinDb = 20;
constexpr double kOverRoomDb = 8;

double gainOf(double db)
{
    return std::pow(10.0, db / 20);
}

/// One home, from the air to the check.
class CheckHome
{
public:
    CheckHome(const CheckRoom& room, const CheckSetting& setting, Random& random)
        : m_room(room), m_setting(setting), m_random(random),
          m_reader(room.readers(setting.kind)[random.below(room.readers(setting.kind).size())]), m_meter(kRate),
          m_weighting(kRate)
    {
        const bool whispers = setting.kind == Kind::whisper || setting.kind == Kind::espeakWhisper;
        m_voiceDb = random.between(-46, -30) - (whispers ? kWhisperUnderDb : 0);
        m_roomDb = m_voiceDb - random.between(whispers ? 14 : 18, 38);
        m_roomGain = gainOf(std::max(m_roomDb, -86.0));
        m_roomAt = random.below(room.room().size());
        if (setting.noise) {
            m_noise = &room.noise(*setting.noise, random);
            m_noiseAt = random.below(m_noise->size());
            m_noiseGain = gainOf(m_voiceDb - random.between(12, 24));
        }
        m_check.setPlaybackBuffer(100);
        m_line = lineOf(setting.altering, m_voiceDb, m_roomDb, kRate, random);
    }

    CheckOutcome run()
    {
        CheckOutcome outcome;
        outcome.louderByDb = m_random.chance(0.25) ? m_random.between(-1, 2) : m_random.between(2, 9); // some cannot
        hear(silence(1.5)); // the microphone was open a little before
        m_started = true;
        using Stage = FullCheck::Stage;
        while (m_check.stage() != Stage::done) {
            const Stage stage = m_check.stage();
            const double began = m_seconds;
            std::size_t line = m_random.below(m_reader.lines.size());
            while (m_check.stage() == stage && m_seconds - began < kMostStageSeconds) {
                if (m_check.isSettling() || stage == Stage::room) {
                    hear(silence(0.1));
                    continue;
                }
                hear(silence(m_random.between(0.3, 0.8)));
                if (stage == Stage::usual)
                    hear(spoken(m_reader.lines[line++ % m_reader.lines.size()], 0), Stage::usual);
                else if (stage == Stage::vowel)
                    hear(spoken(m_reader.vowel, 0), Stage::vowel);
                else if (stage == Stage::louder)
                    hear(spoken(m_reader.lines[line], outcome.louderByDb), Stage::louder);
                else if (stage == Stage::loudspeaker)
                    playAndHear();
                else
                    m_check.answerPeople(1);
                if (stage == Stage::vowel || stage == Stage::louder)
                    hear(silence(1.2), stage);
            }
            if (m_check.stage() == stage)
                m_check.skip();
        }
        outcome.facts = m_check.facts();
        outcome.finding = m_check.finding();
        outcome.movedDb = movedDb();
        outcome.soundSeconds = m_seconds;
        return outcome;
    }

private:
    Samples silence(double seconds) { return Samples(samplesOf(seconds, kRate) / kFrame * kFrame); }
    Samples spoken(const Samples& said, double moreDb)
    {
        Samples sound((said.size() + kFrame - 1) / kFrame * kFrame);
        if (m_setting.wire == Wire::person)
            mixInto(sound, said, 0, gainOf(m_voiceDb + moreDb));
        return sound;
    }
    void addRoom(Samples& sound)
    {
        if (m_setting.wire == Wire::dead || m_setting.wire == Wire::monitor)
            return;
        const auto lay = [&sound](const Samples& from, std::size_t& at, double gain) {
            for (float& sample : sound) {
                sample += static_cast<float>(gain) * from[at];
                at = at + 1 < from.size() ? at + 1 : 0;
            }
        };
        lay(m_room.room(), m_roomAt, m_roomGain);
        if (m_noise != nullptr)
            lay(*m_noise, m_noiseAt, m_noiseGain);
    }
    /// `whole`: the rest is heard even where the stage changes meanwhile.
    void hear(Samples sound, std::optional<FullCheck::Stage> onlyIn = {}, std::span<const double> played = {})
    {
        addRoom(sound);
        Samples altered = sound;
        m_line->pass(altered);
        noteGains(sound, altered);
        sound = std::move(altered);
        for (std::size_t at = 0; at + kFrame <= sound.size(); at += kFrame) {
            const std::span<const float> frame(&sound[at], kFrame);
            double meanSquare = 0;
            for (const float sample : frame) {
                const double a = m_weighting.push(static_cast<double>(std::round(sample * 32768.0F) / 32768.0F)).a;
                meanSquare += a * a / kFrame;
            }
            std::array<float, kFrame> at16bit{};
            for (std::size_t i = 0; i < kFrame; ++i)
                at16bit[i] = std::clamp(std::round(frame[i] * 32768.0F), -32768.0F, 32767.0F) / 32768.0F;
            m_meter.push(at16bit, [&](const VoiceFrame& heard) {
                if (!m_started)
                    return;
                const std::size_t index = at / kFrame;
                if (m_check.isPlaying())
                    m_check.addPlayed(heard, static_cast<float>(meanSquare),
                                      index < played.size() ? static_cast<float>(played[index]) : 0.0F);
                else
                    m_check.add(heard);
            });
            m_seconds += 0.01;
            if (onlyIn && (m_check.stage() != *onlyIn ||
                           (m_check.isSettling() && *onlyIn == FullCheck::Stage::usual && m_random.chance(0.02))))
                break; // done with this question: the person stops, soon
        }
    }
    /// What the line made of each 10 ms of the person's voice.
    void noteGains(std::span<const float> before, std::span<const float> after)
    {
        using Stage = FullCheck::Stage;
        const Stage stage = m_check.stage();
        const bool speaks = stage == Stage::usual || stage == Stage::vowel || stage == Stage::louder;
        if (m_setting.altering == Altering::nothing || !speaks)
            return;
        for (std::size_t at = 0; at + kFrame <= before.size(); at += kFrame) {
            double in = 0;
            double out = 0;
            double weighed = 0;
            for (std::size_t i = at; i < at + kFrame; ++i) {
                const double a = m_before.push(before[i]).a;
                weighed += a * a / kFrame;
                in += static_cast<double>(before[i]) * static_cast<double>(before[i]);
                out += static_cast<double>(after[i]) * static_cast<double>(after[i]);
            }
            if (weighed > std::pow(10.0, std::max(m_voiceDb - kCountsWithinDb, m_roomDb + kOverRoomDb) / 10))
                m_gainsDb.push_back(10 * std::log10(std::max(out / in, kNothing)));
        }
    }
    [[nodiscard]] double movedDb()
    {
        if (m_gainsDb.empty())
            return 0;
        std::sort(m_gainsDb.begin(), m_gainsDb.end());
        const std::size_t edge = m_gainsDb.size() / 30;
        return m_gainsDb[m_gainsDb.size() - 1 - edge] - m_gainsDb[edge];
    }
    void playAndHear()
    {
        m_check.play(m_room.layout());
        const std::vector<double>& frames = m_room.playedFrames();
        const double delay = m_random.between(0.04, 0.14);
        const std::size_t lead = 120;
        std::vector<double> played(lead);
        played.insert(played.end(), frames.begin(), frames.end());
        Samples sound(kFrame * (played.size() + 300));
        const bool comes = m_setting.wire == Wire::monitor || (m_setting.wire == Wire::person && !m_setting.headphones);
        const Samples& arrives = m_room.played()[m_random.below(m_room.played().size())];
        if (comes)
            mixInto(sound, arrives, lead * kFrame + (m_setting.wire == Wire::monitor ? 0 : samplesOf(delay, kRate)),
                    gainOf(m_setting.wire == Wire::monitor ? -26 : m_voiceDb + m_random.between(-12, 15)));
        hear(std::move(sound), {}, played);
    }

    const CheckRoom& m_room;
    const CheckSetting& m_setting;
    Random& m_random;
    const Reader& m_reader;
    std::unique_ptr<Line> m_line;
    Meter m_meter;
    Weighting m_weighting;
    Weighting m_before{kRate};
    FullCheck m_check;
    bool m_started = false;
    double m_seconds = 0;
    double m_voiceDb = 0;
    double m_roomDb = 0;
    double m_roomGain = 0;
    std::size_t m_roomAt = 0;
    const Samples* m_noise = nullptr;
    std::size_t m_noiseAt = 0;
    double m_noiseGain = 0;
    std::vector<double> m_gainsDb;
};

} // namespace

const char* nameOf(Wire wire)
{
    constexpr std::array kNames{"the person's microphone", "the computer's own output", "a microphone elsewhere",
                                "an input with nothing in it", "a dead line"};
    return kNames[static_cast<std::size_t>(wire)];
}

CheckOutcome runCheck(const CheckRoom& room, const CheckSetting& setting, Random& random)
{
    return CheckHome(room, setting, random).run();
}

} // namespace vh::ground
