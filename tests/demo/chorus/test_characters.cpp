#include "common/live/place.h"
#include "demo/chorus/canned.h"
#include "demo/chorus/first_names.h"
#include "demo/chorus/home.h"
#include "demo/chorus/seeded.h"
#include "tests/demo/chorus/short_class.h"

#include <QtTest>

#include <cmath>
#include <set>

using namespace vh;
using namespace vh::chorus;
using namespace std::chrono_literals;

Q_DECLARE_METATYPE(vh::chorus::Character)

namespace
{

constexpr std::uint64_t kSeeds = 200;

/// Half an hour of a plausible class: every kind of section twice, each of two rounds.
ClassScript longClass()
{
    ClassScript script;
    using enum SectionKind;
    for (const SectionKind kind : {opening, warmUp, sustainedVowel, pitchGlide, counting, phrases, pause, passage,
                                   categoryNaming, backOfTongue, openTalk, closing}) {
        Step step;
        step.rounds = {
            {false, {{TurnKind::listen, 3s}, {TurnKind::ready, 2s}, {TurnKind::withMe, 5s}, {TurnKind::yours, 6s}}},
            {true, {{TurnKind::withMe, 5s}, {TurnKind::yours, 6s}}}};
        script.sections.push_back({kind, "Section", {step, step}});
    }
    return script;
}

struct Judged {
    SectionKind section;
    Standing standing;
};

/// All that a home's turns come to in this class, by the function that home and hall use.
std::vector<Judged> walk(const ClassScript& script, Character character, std::uint64_t seed)
{
    std::vector<Judged> judged;
    JudgeState state;
    std::uint32_t serial = 1;
    for (std::optional<Place> place = Place{}; place; place = nextTurn(script, *place), ++serial) {
        const TurnAt at = *turnAt(script, *place);
        if (!isVoiced(at.section->kind, at.turn->kind))
            continue;
        const double share = static_cast<double>(place->section) /
                             static_cast<double>(std::max<std::size_t>(script.sections.size() - 1, 1));
        const Moment moment{at.section->kind, at.turn->kind,    at.round->moreVoice, share,
                            serial,           at.turn->planned, at.turn->planned};
        state = judge(state, {{cannedReading(character, moment, seed), cannedSurroundings(character, moment, seed)},
                              at.turn->kind,
                              at.section->kind,
                              at.turn->planned,
                              0});
        judged.push_back({at.section->kind, state.standing});
    }
    return judged;
}

Moment aTurn(Millis elapsed)
{
    return {SectionKind::phrases, TurnKind::yours, false, 0.5, 7, elapsed, 6s};
}

} // namespace

class TestCharacters : public QObject
{
    Q_OBJECT
private slots:
    void everybodyEndsAsMeant_data()
    {
        QTest::addColumn<Character>("character");
        for (const Character character : kCharacters)
            if (const auto meant = meantStanding(character);
                meant && *meant != Standing::resting && *meant != Standing::private_)
                QTest::newRow(nameOf(character).data()) << character;
    }
    void everybodyEndsAsMeant()
    {
        QFETCH(Character, character);
        for (const ClassScript& script : {longClass(), vh::testing::shortClass()})
            for (std::uint64_t seed = 1; seed <= kSeeds; ++seed)
                QCOMPARE(walk(script, character, seed).back().standing, *meantStanding(character));
    }

    void steadyIsInBandInEveryTurn()
    {
        for (const Character character : {Character::steady, Character::dropsLine, Character::callsForHelp,
                                          Character::farFromMicrophone, Character::couple})
            for (std::uint64_t seed = 1; seed <= kSeeds; ++seed)
                for (const Judged& each : walk(longClass(), character, seed))
                    QVERIFY(each.standing == Standing::inBand || each.standing == Standing::notYet);
    }

    void fadingBeginsWell()
    {
        for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
            const std::vector<Judged> judged = walk(longClass(), Character::fading, seed);
            QCOMPARE(judged[1].standing, Standing::inBand);
            QCOMPARE(judged.back().standing, Standing::below);
        }
    }

    void tooLoudIsStrainingFromTheSecondJudgedTurn()
    {
        for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
            const std::vector<Judged> judged = walk(longClass(), Character::tooLoud, seed);
            QVERIFY(judged[1].standing == Standing::above || judged[1].standing == Standing::straining);
            for (std::size_t i = 3; i < judged.size(); ++i)
                QCOMPARE(judged[i].standing, Standing::straining);
        }
    }

    void silentInOneSectionIsHeardInAllOthers()
    {
        for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
            const std::vector<Judged> judged = walk(longClass(), Character::silentInOneSection, seed);
            bool noVoice = false;
            for (const Judged& each : judged) {
                noVoice =
                    noVoice || (each.section == SectionKind::categoryNaming && each.standing == Standing::noVoice);
                if (each.section != SectionKind::categoryNaming && each.section != SectionKind::backOfTongue)
                    QVERIFY(each.standing == Standing::inBand || each.standing == Standing::notYet);
            }
            QVERIFY(noVoice);
            QCOMPARE(judged.back().standing, Standing::inBand);
        }
    }

    void noisyRoomIsNeverTakenForLowOrSilent()
    {
        for (std::uint64_t seed = 1; seed <= kSeeds; ++seed)
            for (const Judged& each : walk(longClass(), Character::noisyRoom, seed))
                QVERIFY(each.standing == Standing::cantTell || each.standing == Standing::notYet);
    }

    void readingsOfOneTurnGrow()
    {
        for (const Character character : kCharacters)
            for (std::uint64_t seed = 1; seed <= 20; ++seed) {
                Reading before;
                for (Millis elapsed{0}; elapsed <= 6s; elapsed += 50ms) {
                    const Reading now = cannedReading(character, aTurn(elapsed), seed);
                    QVERIFY(now.elapsedMs >= before.elapsedMs && now.heardMs >= before.heardMs &&
                            now.voicedMs >= before.voicedMs);
                    QVERIFY(now.voicedMs <= now.heardMs && now.heardMs <= now.elapsedMs);
                    QVERIFY((now.reason == Blank::none) == (now.trustPercent == 100));
                    before = now;
                }
            }
    }

    void levelsAreWhatTheWireCarries()
    {
        for (const Character character : kCharacters)
            for (std::uint64_t seed = 1; seed <= 20; ++seed)
                for (Millis elapsed{0}; elapsed <= 6s; elapsed += 170ms) {
                    const Reading reading = cannedReading(character, aTurn(elapsed), seed);
                    const std::string frame = wire::encodeReading(reading);
                    const auto back =
                        wire::decodeReading({reinterpret_cast<const std::uint8_t*>(frame.data()), frame.size()});
                    QVERIFY(back.has_value());
                    QCOMPARE(*back == reading, true);
                }
    }

    void theSameSeedGivesTheSamePeople()
    {
        for (std::uint32_t index = 0; index < 100; ++index) {
            const HomePlan once = planOf(index, 5);
            const HomePlan again = planOf(index, 5);
            QCOMPARE(once.name, again.name);
            QVERIFY(once.agreements == again.agreements);
            QCOMPARE(once.voice, again.voice);
            QVERIFY(cannedReading(once.character, aTurn(3s), once.seed) ==
                    cannedReading(again.character, aTurn(3s), again.seed));
        }
        QVERIFY(!(cannedReading(Character::steady, aTurn(3s), 1) == cannedReading(Character::steady, aTurn(3s), 2)));
    }

    void theFirstSixtyNamesDiffer()
    {
        for (std::uint64_t seed = 1; seed <= 20; ++seed) {
            std::set<std::string> names;
            for (std::uint32_t index = 0; index < 60; ++index)
                names.insert(firstName(index, seed));
            QCOMPARE(names.size(), std::size_t{60});
            names.insert(firstName(60, seed));
            QCOMPARE(names.size(), std::size_t{61});
        }
    }

    void allFifteenAreAmongTheFirstTwenty()
    {
        std::set<Character> seen;
        for (std::uint32_t index = 0; index < 20; ++index)
            seen.insert(characterOf(index));
        QCOMPARE(seen.size(), kCharacters.size());
    }

    void mostShareTheirLevelAndSomeKeepResults()
    {
        int shared = 0;
        int kept = 0;
        for (std::uint32_t index = 0; index < 1000; ++index) {
            const HomePlan plan = planOf(index, 3);
            shared += plan.agreements.levelVisible != LevelVisible::nobody;
            kept += plan.agreements.resultsKept;
            QCOMPARE(plan.agreements.levelVisible == LevelVisible::nobody, plan.character == Character::keepsPrivate);
            QCOMPARE(plan.voice == wire::VoiceToday::listening, plan.character == Character::resting);
        }
        QVERIFY(shared > 800 && shared < 1000);
        QVERIFY(kept > 300 && kept < 700);
    }

    // First numbers of the reference implementation for the seed 1234567, as Rosetta Code lists them ("Pseudo-random
    // numbers/Splitmix64").
    void splitMixGivesThePublishedNumbers()
    {
        std::uint64_t state = 1234567;
        for (const std::uint64_t number : {6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                           4593380528125082431U, 16408922859458223821U})
            QCOMPARE(nextNumber(state), number);
    }
};

QTEST_APPLESS_MAIN(TestCharacters)
#include "test_characters.moc"
