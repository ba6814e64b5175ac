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
constexpr double kMostStageSeconds = 20;
constexpr double kNothing = 1e-12;
constexpr double kClassStepDb = 6; ///< softer and louder, as from day to day (Brown, Morris & Murry 1996)
constexpr double kLostDb = 10;

double dbOf(double meanSquare)
{
    return 10 * std::log10(std::max(meanSquare, kNothing));
}

/// What came of a voice, over the frames in which it sounds (within 20 dB of its loudest).
struct Came {
    double gainDb = 0;           ///< of the whole, by energy
    std::vector<double> gainsDb; ///< of each frame
};

Came cameOf(const Samples& voice, const Samples& in, const Samples& out)
{
    const std::vector<double> clean = framesA(voice, kRate);
    const std::vector<double> before = framesA(in, kRate);
    const std::vector<double> after = framesA(out, kRate);
    const double least = *std::max_element(clean.begin(), clean.end()) / 100;
    Came came;
    double sumBefore = 0;
    double sumAfter = 0;
    for (std::size_t i = 0; i < clean.size(); ++i) {
        if (clean[i] < least)
            continue;
        sumBefore += before[i];
        sumAfter += after[i];
        came.gainsDb.push_back(dbOf(after[i]) - dbOf(before[i]));
    }
    came.gainDb = dbOf(sumAfter) - dbOf(sumBefore);
    return came;
}

/// One home, from the air to the check.
class CheckHome
{
public:
    CheckHome(const CheckRoom& room, const CheckSetting& setting, Random& random)
        : m_room(room), m_setting(setting), m_random(random), m_air(room, setting, random), m_meter(kRate)
    {
        m_check.setPlaybackBuffer(100);
        const std::uint64_t seed = random.next();
        begin(seed);
        if (setting.altering == Altering::nothing || setting.wire != Wire::person)
            return;
        m_outcome.harm = harm();
        begin(seed); // the same computer, before anybody has spoken to it
    }

    CheckOutcome run()
    {
        if (m_setting.harmfulOnly && !doesHarm(m_outcome.harm))
            return std::move(m_outcome);
        m_outcome.louderByDb = m_random.chance(0.25) ? m_random.between(-1, 2) : m_random.between(2, 9); // some cannot
        hear(m_air.silence(1.5)); // the microphone was open a little before
        m_started = true;
        while (m_check.stage() != Stage::done)
            answer(m_check.stage());
        m_outcome.facts = m_check.facts();
        m_outcome.finding = m_check.finding();
        return std::move(m_outcome);
    }

private:
    using Stage = FullCheck::Stage;

    void begin(std::uint64_t seed)
    {
        Random random(seed);
        m_line = lineOf(m_setting.altering, m_air.voiceDb(), m_air.roomDb(), kRate, random);
    }

    void answer(Stage stage)
    {
        const double began = m_outcome.soundSeconds;
        std::size_t line = m_random.below(m_air.reader().lines.size());
        while (m_check.stage() == stage && m_outcome.soundSeconds - began < kMostStageSeconds) {
            if (m_check.isSettling() || stage == Stage::room) {
                hear(m_air.silence(0.1));
                continue;
            }
            hear(m_air.silence(m_random.between(0.3, 0.8)));
            if (stage == Stage::usual)
                hear(m_air.spoken(lineAt(line++), 0), Stage::usual);
            else if (stage == Stage::vowel)
                hear(m_air.spoken(m_air.reader().vowel, 0), Stage::vowel);
            else if (stage == Stage::louder)
                hear(m_air.spoken(lineAt(line), m_outcome.louderByDb), Stage::louder);
            else if (stage == Stage::loudspeaker)
                playAndHear();
            else
                m_check.answerPeople(1);
            if (stage == Stage::vowel || stage == Stage::louder)
                hear(m_air.silence(1.2), stage);
        }
        if (m_check.stage() == stage)
            m_check.skip();
    }

    [[nodiscard]] const Samples& lineAt(std::size_t i) const
    {
        return m_air.reader().lines[i % m_air.reader().lines.size()];
    }

    /// `onlyIn`: the person stops where the stage changes meanwhile.
    void hear(Samples sound, std::optional<Stage> onlyIn = {}, std::span<const double> played = {})
    {
        m_air.addRoom(sound);
        m_line->pass(sound);
        for (std::size_t at = 0; at + kFrame <= sound.size(); at += kFrame) {
            std::array<float, kFrame> at16bit{};
            for (std::size_t i = 0; i < kFrame; ++i)
                at16bit[i] = static_cast<float>(std::lrint(std::clamp(sound[at + i] * 32768.0F, -32768.0F, 32767.0F))) /
                             32768.0F;
            if (m_check.isPlaying())
                giveProbe(at16bit, at / kFrame, played);
            else
                m_meter.push(at16bit, [&](const VoiceFrame& heard) { give(heard, 0, 0); });
            m_outcome.soundSeconds += 0.01;
            if (onlyIn && (m_check.stage() != *onlyIn ||
                           (m_check.isSettling() && *onlyIn == Stage::usual && m_random.chance(0.02))))
                break; // done with this question, or soon
        }
    }

    /// Who speaks is known then, and the meter is not asked: only what FullCheck::addPlayed takes is worked out.
    void giveProbe(std::span<const float> samples, std::size_t index, std::span<const double> played)
    {
        VoiceFrame heard;
        double audible = 0;
        double low = 0;
        for (const float sample : samples) {
            const double a = m_weighting.push(static_cast<double>(sample)).a;
            const double under = m_low.push(static_cast<double>(sample));
            audible += a * a / kFrame;
            low += under * under / kFrame;
        }
        heard.lowMeanSquare = static_cast<float>(low);
        give(heard, static_cast<float>(audible), index < played.size() ? static_cast<float>(played[index]) : 0.0F);
    }

    void give(const VoiceFrame& heard, float microphone, float played)
    {
        if (!m_started)
            return;
        if (m_check.isPlaying())
            m_check.addPlayed(heard, microphone, played);
        else
            m_check.add(heard);
    }

    void playAndHear()
    {
        constexpr std::size_t kLead = 120;
        m_check.play(m_room.layout());
        const std::vector<double>& frames = m_room.playedFrames();
        std::vector<double> played(kLead);
        played.insert(played.end(), frames.begin(), frames.end());
        hear(m_air.played(played.size() + 300, kLead), {}, played);
    }

    /// The same line goes on being spoken into: what is slow has the time that it needs.
    Came came(const Samples& said, double moreDb, int times)
    {
        Came last;
        for (int i = 0; i < times; ++i) {
            Samples pause = m_air.silence(1);
            m_air.addRoom(pause);
            m_line->pass(pause);
            const Samples voice = m_air.spoken(said, moreDb);
            Samples in = voice;
            m_air.addRoom(in);
            Samples out = in;
            m_line->pass(out);
            last = cameOf(voice, in, out);
        }
        return last;
    }

    Harm harm()
    {
        constexpr int kTimes = 3;
        Came usual = came(lineAt(0), 0, 2);
        auto& gains = usual.gainsDb;
        const auto open = gains.begin() + static_cast<std::ptrdiff_t>(gains.size() * 3 / 4);
        std::nth_element(gains.begin(), open, gains.end());
        Harm harm;
        for (const Came& each : {came(lineAt(1), -kClassStepDb, kTimes), came(m_air.reader().vowel, 0, 1),
                                 came(lineAt(2), kClassStepDb, kTimes)}) {
            harm.levelDb = std::max(harm.levelDb, std::abs(each.gainDb - usual.gainDb));
            const auto lost = std::count_if(each.gainsDb.begin(), each.gainsDb.end(),
                                            [&](double gain) { return gain < *open - kLostDb; });
            harm.lostShare =
                std::max(harm.lostShare, static_cast<double>(lost) / static_cast<double>(each.gainsDb.size()));
        }
        return harm;
    }

    const CheckRoom& m_room;
    const CheckSetting& m_setting;
    Random& m_random;
    CheckAir m_air;
    std::unique_ptr<Line> m_line;
    Meter m_meter;
    Weighting m_weighting{kRate};
    LowBand m_low{kRate};
    FullCheck m_check;
    bool m_started = false;
    CheckOutcome m_outcome;
};

} // namespace

CheckOutcome runCheck(const CheckRoom& room, const CheckSetting& setting, Random& random)
{
    return CheckHome(room, setting, random).run();
}

} // namespace vh::ground
