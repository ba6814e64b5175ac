#pragma once
// One simulated home: a person of the table in characters.h on a real line. Comes in by the group's code, answers the
// agreements, checks its microphone, says how the voice is today, fetches the class script, follows the place, speaks
// in its turns, sends four readings a second of them and each turn's result when it is over, hears the leader, and does
// the few other things that its character does. Where the numbers come from is the business of turns.h. Sends no more
// than its agreements allow, and judges its own turns with the function that the hall uses. Thread: the loop's.
#include "common/live/judge.h"
#include "common/wire/binary.h"
#include "demo/chorus/characters.h"
#include "demo/chorus/invited.h"
#include "demo/chorus/line.h"
#include "demo/chorus/turns.h"

namespace vh::chorus
{

/// Who is in a home. A pure function of its number and the chorus's seed.
struct HomePlan {
    std::uint32_t index = 0;
    std::uint64_t seed = 0; ///< this home's own
    std::string name;
    Character character = Character::steady;
    Agreements agreements;
    wire::VoiceToday voice = wire::VoiceToday::fine;
};
HomePlan planOf(std::uint32_t index, std::uint64_t chorusSeed);

class Home final : public Line
{
public:
    Home(std::shared_ptr<Setting> setting, HomePlan plan, std::string code);

    [[nodiscard]] const HomePlan& plan() const { return m_plan; }
    /// As this home judges itself; the hall's judging must agree.
    [[nodiscard]] const JudgeState& judged() const { return m_judge; }
    /// `yours` turns that were judged and whose result went up.
    [[nodiscard]] std::uint32_t turnsToldJudged() const { return m_turnsToldJudged; }
    [[nodiscard]] std::uint32_t resultsMade() const { return m_resultsMade; }
    [[nodiscard]] const std::optional<wire::PlaceNow>& place() const { return m_place; }
    [[nodiscard]] bool hasScript() const { return m_script != nullptr; }
    [[nodiscard]] const std::shared_ptr<const ClassScript>& script() const { return m_script; }
    /// How much of a turn the longest result that went up has heard.
    [[nodiscard]] Millis longestResult() const { return m_longestResult; }
    /// The mic check is done, if this home has one.
    [[nodiscard]] bool hasChecked() const { return m_turns->isReady(); }
    [[nodiscard]] bool isHeardByAll() const { return m_invited->isHeard(); }

private:
    void cameIn(const wire::Welcome& welcome) override;
    void heard(const wire::ToClient& message) override;
    void heardBinary(std::span<const std::uint8_t> frame) override;
    void done(const wire::Ack& ack) override;
    void refused(const wire::Refused& refused) override;
    void live(Instant at) override;

    void answerAgreements(const wire::Welcome& welcome);
    void classOpened(const wire::ClassOpen& open);
    void follow(const wire::PlaceNow& place);
    void beginTurn();
    void finishTurn(Millis spent);
    void turnIsOver(const TurnOver& turn);
    void actInCharacter();
    /// The turn at this place as this home would live it; nothing where it does not speak.
    [[nodiscard]] std::optional<TurnBegun> turnFor(const wire::PlaceNow& place) const;
    void expectNext();
    /// How much of the present turn has gone at this moment of the relay's clock.
    [[nodiscard]] Millis spentAt(Instant relayTime) const;

    HomePlan m_plan;
    float m_bandOffsetDb = 0;
    std::optional<ClassId> m_class;
    wire::Hash m_scriptHash{};
    std::shared_ptr<const ClassScript> m_script;
    std::optional<wire::PlaceNow> m_place;
    std::shared_ptr<Turns> m_turns;
    Hearing m_hearing;
    std::shared_ptr<Invited> m_invited;
    std::optional<std::uint32_t> m_turn; ///< serial of the voiced one that is on
    Instant m_nextReading{};
    JudgeState m_judge;
    std::uint32_t m_turnsToldJudged = 0;
    std::uint32_t m_resultsMade = 0;
    Millis m_longestResult{0};
    std::uint32_t m_turnsOver = 0;    ///< voiced ones, of this class
    std::vector<RequestId> m_results; ///< not yet acknowledged
    std::optional<RequestId> m_writing;
    std::optional<RequestId> m_calling;
    bool m_counted = false; ///< among those who came in
    bool m_hasDropped = false;
    bool m_hasCalled = false;
};

} // namespace vh::chorus
