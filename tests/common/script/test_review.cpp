// Each rule of the review finds what it is for, says where, and its mend mends it; a good class has no finding. The
// rules are the trade's (docs/reviewing.md names the source of each).
#include "common/script/reader.h"
#include "common/script/review.h"

#include <QtTest>

using namespace vh;

namespace
{

constexpr const char* kCautions = R"(      - text: |
          Stop if anything hurts, if you feel dizzy or short of breath, or hoarse.
          Follow your own swallowing plan.
          Your own clinician comes first.
        seconds: 20
)";

/// A class of one minute: an opening with the cautions, then `sections`.
ClassScript classOf(const std::string& sections, const std::string& opening = kCautions)
{
    const std::string file = "title: A test\ntheme: Test\nlanguage: en\nminutes: 1\nsections:\n"
                             "  - kind: opening\n    title: Hello\n    steps:\n" +
                             opening + sections;
    auto script = readClassScript(file, "test");
    if (!script) {
        qWarning("%s", script.error().front().message.c_str());
        return {};
    }
    // Not what these tests are about, but for one of them.
    script->plannedMinutes = static_cast<int>(std::chrono::round<std::chrono::minutes>(planOf(*script).total).count());
    return *script;
}

std::string section(const char* kind, const char* steps)
{
    return std::string("  - kind: ") + kind + "\n    title: " + kind + "\n    steps:\n" + steps;
}

ReviewRules english()
{
    return rulesFor("en-GB");
}

std::vector<Finding> findingsOf(const ClassScript& script, const ReviewRules& rules = english())
{
    return review(script, rules).findings;
}

} // namespace

class TestReview : public QObject
{
    Q_OBJECT

    /// One finding, of this kind; mended, there is none.
    static void oneFinding(const ClassScript& script, FindingKind kind, const ReviewRules& rules = english(),
                           bool mends = true)
    {
        const auto findings = findingsOf(script, rules);
        for (const Finding& finding : findings)
            if (findings.size() != 1)
                qWarning("%s: %s", std::string(nameOf(finding.kind)).c_str(), finding.why.c_str());
        QCOMPARE(findings.size(), std::size_t(1));
        QCOMPARE(QString::fromStdString(std::string(nameOf(findings.front().kind))),
                 QString::fromStdString(std::string(nameOf(kind))));
        QVERIFY(!findings.front().why.empty());
        QCOMPARE(findings.front().mend.has_value(), mends);
        if (mends)
            QVERIFY(findingsOf(withMend(script, findings.front()), rules).empty());
        else
            QVERIFY(withMend(script, findings.front()) == script);
    }

private slots:
    void aGoodClassHasNoFinding()
    {
        QVERIFY(findingsOf(classOf(section("phrases", "      - text: The b<oa>t is home.\n"
                                                      "        rounds: [{turns: [listen 3, ready, yours 4]}]\n")))
                    .empty());
    }

    void oneBreath()
    {
        const auto script = classOf(
            section("phrases",
                    "      - text: The <o>ld boat lies behind the shed and nobody has rowed it since the rain came.\n"
                    "        rounds: [{turns: [ready, yours 9]}]\n"));
        oneFinding(script, FindingKind::tooLongForOneBreath, english(), false);
        const auto parted = classOf(section("phrases", "      - text: |\n          The <o>ld boat lies behind the "
                                                       "shed.\n          Nobody has rowed it since the rain came.\n"
                                                       "        rounds: [{turns: [ready, yours 9]}]\n"));
        QVERIFY(findingsOf(parted).empty());
    }

    void hardToRead()
    {
        const auto script = classOf(section(
            "passage",
            "      - text: |\n          Horticultural associations occasionally\n          recommend supplementary\n"
            "          irrigation arrangements in\n          exceptionally unfavourable summers everywhere.\n"
            "        rounds: [{turns: [ready, yours 20]}]\n"));
        const auto findings = findingsOf(script);
        QVERIFY(std::any_of(findings.begin(), findings.end(),
                            [](const auto& f) { return f.kind == FindingKind::hardToRead; }));
        QVERIFY(std::any_of(findings.begin(), findings.end(),
                            [](const auto& f) { return f.kind == FindingKind::wordToExplain; }));
    }

    void whatDoesNotFitTheScreen()
    {
        std::string lines;
        for (int i = 0; i < 10; ++i)
            lines += "          Line " + std::to_string(i) + " of it.\n";
        oneFinding(classOf(section("passage", ("      - text: |\n" + lines + "        seconds: 40\n").c_str())),
                   FindingKind::doesNotFitScreen, english(), false);
    }

    void aPhraseWithoutAVowelMarkedGetsOne()
    {
        const auto script = classOf(section("phrases", "      - text: The boat is home.\n"
                                                       "        rounds: [{turns: [ready, yours 4]}]\n"));
        oneFinding(script, FindingKind::noVowelMarked);
        const Step mended = withMend(script, findingsOf(script).front()).sections[1].steps[0];
        QCOMPARE(mended.text.substr(mended.stretches[0].begin, mended.stretches[0].end - mended.stretches[0].begin),
                 std::string("oa"));
    }

    void backOfTongueLinesHaveSuchSounds()
    {
        oneFinding(classOf(section("back-of-tongue", "      - text: Peas in a row.\n"
                                                     "        rounds: [{turns: [ready, yours 4]}]\n")),
                   FindingKind::noBackOfTongueSounds, english(), false);
        QVERIFY(findingsOf(classOf(section("back-of-tongue", "      - text: Gate, keg, king.\n"
                                                             "        rounds: [{turns: [ready, yours 4]}]\n")))
                    .empty());
    }

    void waterIsOwedBetweenDemandingExercises()
    {
        const char* vowel =
            "      - text: <Ah>\n        rounds: [{turns: [ready, yours 8], times: 21}]\n"; // 3.5 minutes
        const auto script = classOf(section("sustained-vowel", vowel) + section("sustained-vowel", vowel));
        oneFinding(script, FindingKind::noWaterPause);
        QVERIFY(findingsOf(withMend(script, findingsOf(script).front())).empty());
    }

    void aWaterPauseAsksNothing()
    {
        oneFinding(classOf(section("pause", "      - text: Who would like tea?\n        seconds: 20\n")),
                   FindingKind::pauseAsks);
    }

    void orderIsAskedForOnly()
    {
        const auto script =
            classOf(section("phrases", "      - text: The b<oa>t is home.\n"
                                       "        rounds: [{turns: [ready, yours 4]}]\n") +
                    section("sustained-vowel", "      - text: <Ah>\n        rounds: [{turns: [ready, yours 8]}]\n"));
        QVERIFY(findingsOf(script).empty());
        auto rules = english();
        rules.order = true;
        oneFinding(script, FindingKind::orderNotFromSimple, rules, false);
    }

    void drillsArePacedSlowly()
    {
        oneFinding(classOf(section("back-of-tongue", "      - text: Kig gack gung, kig gack gung, kig gack gung.\n"
                                                     "        rounds: [{turns: [ready, yours 2]}]\n")),
                   FindingKind::drillTooFast);
        oneFinding(
            classOf(section("counting", "      - text: One, two, three, four, f<i>ve, six, seven, eight, n<i>ne, ten.\n"
                                        "        rounds: [{turns: [ready, yours 4]}]\n")),
            FindingKind::drillTooFast);
    }

    void peopleBreatheBeforeTheySpeak()
    {
        oneFinding(classOf(section("phrases", "      - text: The b<oa>t is home.\n"
                                              "        rounds: [{turns: [listen 3, yours 4]}]\n")),
                   FindingKind::noReadyTurn);
    }

    void aVowelIsNoLongerThanTheLeaderWants()
    {
        const auto script =
            classOf(section("sustained-vowel", "      - text: <Ah>\n        rounds: [{turns: [ready, yours 12]}]\n"));
        oneFinding(script, FindingKind::vowelTooLong);
        auto rules = english();
        rules.longestVowel = Millis{12'000};
        QVERIFY(findingsOf(script, rules).empty());
    }

    void thePlanIsWhatWasAskedFor()
    {
        auto script = classOf("");
        script.plannedMinutes = 5;
        oneFinding(script, FindingKind::shorterThanPlanned);
        script.sections[0].steps[0].rounds[0].turns[0].planned = std::chrono::minutes(8);
        oneFinding(script, FindingKind::longerThanPlanned);
    }

    void picturesAreDescribed()
    {
        auto script = classOf("");
        script.sections[0].steps[0].picture = Picture{"lake.svg", ""};
        oneFinding(script, FindingKind::pictureNotDescribed, english(), false);
    }

    void aSentenceComesOnce()
    {
        const char* steps =
            "      - text: The b<oa>t is home again.\n        rounds: [{turns: [ready, yours 4]}]\n"
            "      - text: Look! the b<oa>t is home again!\n        rounds: [{turns: [ready, yours 4]}]\n";
        const auto script = classOf(section("phrases", steps));
        oneFinding(script, FindingKind::repeatedSentence, english(), false);
        const Finding found = findingsOf(script).front();
        QCOMPARE(script.sections[1].steps[1].text.substr(found.begin, found.end - found.begin),
                 std::string(" the boat is home again!"));
    }

    void norWasItInAClassOfLate()
    {
        auto rules = english();
        rules.usedLately.insert(said("The boat, is home AGAIN"));
        oneFinding(classOf(section("phrases", "      - text: The b<oa>t is home again.\n"
                                              "        rounds: [{turns: [ready, yours 4]}]\n")),
                   FindingKind::usedLately, rules, false);
    }

    void whatIsSaidInAClassIsWhatShouldNotComeAgainSoon()
    {
        const char* const boats = "      - text: The boat is home again. Good morning. Who rows, and who sings?\n"
                                  "        rounds: [{turns: [ready, yours 9]}]\n"
                                  "      - text: This one the leader reads alone.\n        seconds: 9\n";
        const char* const numbers = "      - text: One and two and three and four.\n"
                                    "        rounds: [{turns: [ready, yours 9]}]\n";
        const auto script = classOf(section("phrases", boats) + section("counting", numbers));
        QCOMPARE(sentencesSaid(script),
                 (std::set<std::string>{said("The boat is home again"), said("Who rows, and who sings")}));
        auto rules = english();
        rules.usedLately = sentencesSaid(script);
        const auto findings = findingsOf(script, rules);
        QCOMPARE(std::count_if(findings.begin(), findings.end(),
                               [](const Finding& each) { return each.kind == FindingKind::usedLately; }),
                 2);
    }

    void wordsNobodyMayKnow()
    {
        const auto script = classOf(section("phrases", "      - text: The b<oa>t has a snerdle, a snerdle.\n"
                                                       "        rounds: [{turns: [ready, yours 4]}]\n"));
        oneFinding(script, FindingKind::wordToExplain, english(), false); // once, though it is said twice
    }

    void cautionsAreReadInEveryClass()
    {
        const auto script = classOf("", "      - text: Good morning.\n        seconds: 20\n");
        oneFinding(script, FindingKind::noCautions);
    }

    void withoutADictionaryRulesSayThatTheyAreOff()
    {
        auto script = classOf(section("phrases", "      - text: Der Schwerlastkahnverleih ist heute geschlossen.\n"
                                                 "        rounds: [{turns: [ready, yours 4]}]\n"));
        script.language = "de";
        const Review found = review(script, rulesFor(script.language));
        QCOMPARE(found.off.size(), std::size_t(7));
        QCOMPARE(found.findings.size(), std::size_t(1)); // no vowel is marked: that can be seen in any language
        QVERIFY(!found.findings.front().mend);
        QCOMPARE(review(classOf(""), english()).off.size(), std::size_t(1)); // the order, which nobody asked for
    }

    void aMendOfAnotherClassChangesNothing()
    {
        const auto small = classOf("");
        Finding finding;
        finding.section = 7;
        finding.step = 9;
        finding.round = 3;
        for (const auto kind : {Mend::Kind::markVowels, Mend::Kind::readyBefore, Mend::Kind::turnLength,
                                Mend::Kind::waterBefore, Mend::Kind::emptyPause, Mend::Kind::addCautions}) {
            finding.mend = Mend{kind, {{0, 90}}, 5, Millis{1000}};
            QVERIFY(withMend(small, finding) == small);
        }
    }
};

QTEST_APPLESS_MAIN(TestReview)
#include "test_review.moc"
