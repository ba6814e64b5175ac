// Worth a word: who is named, why, for how long, and who never is. The figures are working choices of the house
// (common/live/worth_a_word.h); 3 dB as the change that people rate as meaningful is McShefferty et al. 2016.
#include "common/live/worth_a_word.h"

#include <QtTest>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

constexpr Instant kStart{Millis{1'000'000}};

TurnSeen easy(float db = 5, bool more = false)
{
    return {2, more, true, Standing::inBand, db};
}
TurnSeen quiet(float db = 1, bool more = false)
{
    return {2, more, true, Standing::below, db};
}
TurnSeen silent(std::uint32_t section)
{
    return {section, false, false, Standing::noVoice, 0};
}
TurnSeen unknown()
{
    return {2, false, false, Standing::cantTell, 0};
}

VoiceStory storyOf(std::initializer_list<TurnSeen> turns)
{
    VoiceStory story;
    for (const TurnSeen& turn : turns)
        story.add(turn);
    return story;
}

struct Person {
    VoiceStory story;
    Agreements agreements;
    PersonId id = PersonId::random();
    [[nodiscard]] WorthCandidate candidate(std::uint32_t seat = 1) const
    {
        return {id, seat, &agreements, &story, true, false};
    }
};

Person agreed(VoiceStory story, Addressed addressed = Addressed::prompts)
{
    Person person{std::move(story), {}};
    person.agreements.levelVisible = LevelVisible::leader;
    person.agreements.addressed = addressed;
    return person;
}

VoiceStory firstTimeEasy()
{
    return storyOf({quiet(), quiet(), easy(), easy(), easy()});
}
VoiceStory lastlyQuiet()
{
    return storyOf({quiet(), quiet(), quiet()});
}

} // namespace

class TestWorthAWord : public QObject
{
    Q_OBJECT
private slots:
    void reasons_data()
    {
        QTest::addColumn<VoiceStory>("story");
        QTest::addColumn<int>("reason"); // -1: none
        const auto row = [](const char* name, const VoiceStory& story, std::optional<WorthReason> reason) {
            QTest::newRow(name) << story << (reason ? static_cast<int>(*reason) : -1);
        };
        row("two turns are not enough", storyOf({quiet(), quiet()}), {});
        row("turns that could not be told do not count", storyOf({quiet(), unknown(), quiet(), unknown()}), {});
        row("three quiet ones", lastlyQuiet(), WorthReason::aLittleMore);
        row("easy from the first turn on is no news", storyOf({easy(), easy(), easy(), easy()}), {});
        row("easy for the first time", firstTimeEasy(), WorthReason::easyForTheFirstTime);
        row("one easy turn among quiet ones is not yet", storyOf({quiet(), quiet(), easy(), easy()}), {});
        row("more voice worked", storyOf({quiet(0), easy(4, true), quiet(0), easy(4, true), quiet(0), easy(4, true)}),
            WorthReason::moreVoiceWorked);
        row("a little more voice is no news",
            storyOf({easy(4), easy(6, true), easy(4), easy(6, true), easy(4), easy(6, true)}), {});
        row("silent after having been heard", storyOf({easy(), easy(), easy(), silent(3), silent(4)}),
            WorthReason::noVoiceSince);
        row("silent all along: perhaps they only watch", storyOf({silent(1), silent(2), silent(3), silent(4)}), {});
        row("far above twice running", storyOf({easy(), easy(), {2, false, true, Standing::straining, 14}}),
            WorthReason::easeOff);
        row("fading, though still easy to hear", storyOf({easy(8), easy(8), easy(8), easy(4), easy(4), easy(4)}),
            WorthReason::fading);
        row("a little less is not fading", storyOf({easy(6), easy(6), easy(6), easy(4), easy(4), easy(4)}), {});
        row("the last turn could not be told: nothing now", storyOf({quiet(), quiet(), quiet(), unknown()}), {});
    }
    void reasons()
    {
        QFETCH(VoiceStory, story);
        QFETCH(int, reason);
        const auto found = reasonIn(story);
        QCOMPARE(found ? static_cast<int>(found->reason) : -1, reason);
    }

    void silenceNamesTheSectionInWhichItBegan()
    {
        const auto found = reasonIn(storyOf({easy(), easy(), easy(), silent(3), silent(4)}));
        QCOMPARE(found->section, 3U);
        QCOMPARE(found->turns, 2U);
    }

    void nobodyIsNamedOutsideTheirAgreement()
    {
        const auto named = [](const Person& person) {
            const WorthCandidate candidate = person.candidate();
            return worthNow({}, {&candidate, 1}, kStart).lines.size();
        };
        QCOMPARE(named(agreed(lastlyQuiet(), Addressed::prompts)), 1U);
        QCOMPARE(named(agreed(lastlyQuiet(), Addressed::kind)), 0U);
        QCOMPARE(named(agreed(firstTimeEasy(), Addressed::kind)), 1U);
        QCOMPARE(named(agreed(firstTimeEasy(), Addressed::notAtAll)), 0U);
        Person hidden = agreed(firstTimeEasy());
        hidden.agreements.levelVisible = LevelVisible::nobody;
        QCOMPARE(named(hidden), 0U);
    }

    void whoeverIsAwayOrOnlyListensIsNotNamed()
    {
        const Person person = agreed(lastlyQuiet());
        WorthCandidate candidate = person.candidate();
        candidate.here = false;
        QVERIFY(worthNow({}, {&candidate, 1}, kStart).lines.empty());
        candidate.here = true;
        candidate.resting = true;
        QVERIFY(worthNow({}, {&candidate, 1}, kStart).lines.empty());
    }

    void kindNewsComesFirstAndThreeAtMost()
    {
        std::vector<Person> people;
        for (int i = 0; i < 4; ++i)
            people.push_back(agreed(lastlyQuiet()));
        people.push_back(agreed(firstTimeEasy()));
        std::vector<WorthCandidate> candidates;
        for (const Person& person : people)
            candidates.push_back(person.candidate());
        const Worth worth = worthNow({}, candidates, kStart);
        QCOMPARE(worth.lines.size(), kWorthAtMost);
        QCOMPARE(worth.lines.front().person, people.back().id);
    }

    void aNameComesUpOncePerClass()
    {
        const Person person = agreed(lastlyQuiet());
        const WorthCandidate candidate = person.candidate();
        Worth worth = worthNow({}, {&candidate, 1}, kStart);
        worth = worthNow(worth, {&candidate, 1}, kStart + kWorthStale);
        QVERIFY(worth.lines.empty());
        worth = worthNow(worth, {&candidate, 1}, kStart + kWorthStale + 1s);
        QVERIFY(worth.lines.empty());
    }

    void aLineStaysTenSecondsHoweverGoodTheNextOneIs()
    {
        std::vector<Person> people;
        for (int i = 0; i < 3; ++i)
            people.push_back(agreed(lastlyQuiet()));
        std::vector<WorthCandidate> candidates;
        for (const Person& person : people)
            candidates.push_back(person.candidate());
        const Worth first = worthNow({}, candidates, kStart);
        const Person news = agreed(firstTimeEasy());
        candidates.push_back(news.candidate());
        QCOMPARE(worthNow(first, candidates, kStart + kWorthKept - 1ms).lines, first.lines);
        const Worth later = worthNow(first, candidates, kStart + kWorthKept);
        QCOMPARE(later.lines.size(), kWorthAtMost);
        QCOMPARE(later.lines.front().person, news.id);
    }

    void anAgreementTakenBackTakesTheLineAwayAtOnce()
    {
        Person person = agreed(lastlyQuiet());
        const WorthCandidate candidate = person.candidate();
        const Worth worth = worthNow({}, {&candidate, 1}, kStart);
        QCOMPARE(worth.lines.size(), 1U);
        person.agreements.addressed = Addressed::kind;
        QVERIFY(worthNow(worth, {&candidate, 1}, kStart + 1s).lines.empty());
    }
};

QTEST_APPLESS_MAIN(TestWorthAWord)
#include "test_worth_a_word.moc"
