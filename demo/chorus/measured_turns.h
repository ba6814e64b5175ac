#pragma once
// Turns of a home that really speaks: its sound is made and metered by workers, a turn ahead where the class script
// says what comes, and the loop feeds the frames to the home's HomeMeter as the turn goes by. The mic check comes
// first. A home has one job at a time with the workers; where they are behind, results come late and none is lost.
// Thread: the loop's, but for the jobs, which share nothing that is not theirs alone.
#include "common/home/home_meter.h"
#include "demo/chorus/home_ears.h"
#include "demo/chorus/home_sound.h"
#include "demo/chorus/setting.h"
#include "demo/chorus/turns.h"

#include <deque>

namespace vh::chorus
{

class MeasuredTurns final : public Turns, public std::enable_shared_from_this<MeasuredTurns>
{
public:
    MeasuredTurns(std::shared_ptr<Setting> setting, Character character, std::uint64_t seed);
    /// The mic check begins. Once it is owned by a shared_ptr.
    void start() { work(); }

    [[nodiscard]] bool isReady() const override { return m_checked.has_value(); }
    /// What the mic check found; nothing while it is on.
    [[nodiscard]] const std::optional<HomeEars::Checked>& checked() const { return m_checked; }
    void expect(const TurnBegun& turn) override;
    void begin(const TurnBegun& turn) override;
    void isToLast(Millis length) override;
    std::optional<Reading> reading(Millis spent) override;
    void end(Millis spent) override;
    void forget() override;

private:
    using Samples = std::shared_ptr<const std::vector<float>>;
    struct Turn {
        std::uint64_t number = 0; ///< counted here
        TurnBegun begun;
        std::optional<Millis> ended;
        std::optional<std::vector<VoiceFrame>> frames; ///< lead-in and turn; empty where nothing is synthesised
        std::size_t fed = 0;
        Millis made{0}; ///< how long the sound is that was made for it; what a turn lasts beyond that is made after it
    };
    /// Sound that was made before its turn came.
    struct Prepared {
        Place place;
        std::shared_ptr<const ClassScript> script; ///< a corrected one says other words
        Millis length{0};
        Samples samples;
    };

    [[nodiscard]] bool isSpoken(TurnKind kind) const;
    void work();
    void checkMicrophone();
    void submit(std::function<std::function<void(MeasuredTurns&)>()> job);
    [[nodiscard]] TurnToSay toSay(const TurnBegun& turn) const;
    void makeTurn(const Turn& turn);
    void makeRest(const Turn& turn);
    void makeExpected();
    void heard(std::uint64_t number, std::vector<VoiceFrame> frames, Millis made);
    void startFeeding(Turn& turn);
    void followTurn(const Turn& turn);
    void feed(Turn& turn, Millis spent);
    void settle();

    std::shared_ptr<Setting> m_setting;
    std::uint64_t m_seed;
    Character m_character;
    std::shared_ptr<const HomeSound> m_sound; ///< built by the first job
    std::shared_ptr<HomeEars> m_ears;
    std::optional<HomeEars::Checked> m_checked;
    HomeMeter m_meter;
    bool m_busy = false;
    std::uint64_t m_turns = 0;
    std::deque<Turn> m_open; ///< begun; oldest first
    std::optional<TurnBegun> m_expected;
    std::optional<Prepared> m_prepared;
};

} // namespace vh::chorus
