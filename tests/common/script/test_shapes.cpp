// A class laid out from a theme: valid, in time, reviewed without findings but for what is left to write.
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "common/script/review.h"
#include "common/script/shapes.h"
#include "common/script/spoken_pace.h"
#include "common/script/valid.h"
#include "common/script/writer.h"

#include <QFile>
#include <QtTest>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

using namespace vh;

class TestShapes : public QObject
{
    Q_OBJECT

    static Theme theme(int minutes = 20, std::uint64_t day = 1)
    {
        return {"Kites",
                {"kite", "string", "hill", "wind", "tail", "colour", "picnic", "kitchen", "cloud", "coat"},
                minutes,
                day,
                {}};
    }
    /// Of all sorts: without words, with one, with characters that mean something elsewhere, in other alphabets.
    static std::vector<Theme> themes()
    {
        return {theme(),
                {"Kings & queens", {"king", "crown", "gong", "Keswick", "quick"}, 20, 1, {}},
                {"Soup", {}, 20, 1, {}},
                {"a <b> \\ \"c\"", {"<x>", "\\", "\"", "a b c"}, 20, 1, {}},
                {"Éclairs", {"crème", "brûlée", "café"}, 20, 1, {}},
                {"Чай", {"чай", "茶"}, 20, 1, {}},
                {"Letters", {"letter"}, 20, 1, {}}};
    }

    static QString complaint(const ClassScript& script, const Finding& finding)
    {
        const Step* step =
            finding.section && finding.step ? &script.sections[*finding.section].steps[*finding.step] : nullptr;
        return QString::fromStdString(std::string(nameOf(finding.kind)) + ": " + finding.why + " (" +
                                      (step ? step->text : std::string()) + ")");
    }
    static bool isFixed(SectionKind kind)
    {
        return kind == SectionKind::opening || kind == SectionKind::warmUp || kind == SectionKind::sustainedVowel ||
               kind == SectionKind::pitchGlide || kind == SectionKind::counting || kind == SectionKind::closing;
    }
    static std::vector<std::string> textsOf(const ClassScript& script, SectionKind kind)
    {
        std::vector<std::string> texts;
        for (const Section& section : script.sections)
            if (section.kind == kind)
                for (const Step& step : section.steps)
                    texts.push_back(step.text);
        return texts;
    }
    static ClassScript shipped(const char* name)
    {
        QFile file(QString(VH_SOURCE_DIR "/content/classes/%1").arg(name));
        if (!file.open(QIODevice::ReadOnly))
            return {};
        return readClassScript(file.readAll().toStdString(), name, plannedAsSpoken).value_or(ClassScript{});
    }

private slots:
    void everyShapeIsAClassInTime()
    {
        for (int shape = 0; shape < kShapes; ++shape)
            for (int minutes = kLeastLaidOut; minutes <= kMostLaidOut; ++minutes)
                for (const std::uint64_t day : {0ULL, 3ULL, 20'000ULL}) {
                    const ClassScript script = laidOut(static_cast<ClassShape>(shape), theme(minutes, day));
                    const auto fault = faultOf(script);
                    QVERIFY2(!fault, fault ? (fault->where + ": " + fault->message).c_str() : "");
                    const auto gap = std::chrono::abs(planOf(script).total - std::chrono::minutes(minutes));
                    QVERIFY2(gap <= std::chrono::minutes(1),
                             qPrintable(QString("%1 %2: %3").arg(shape).arg(minutes).arg(gap.count())));
                }
    }

    void whatIsFixedNeedsNoMendingWhateverTheThemeAndTheDay()
    {
        for (int shape = 0; shape < kShapes; ++shape)
            for (std::uint64_t day = 0; day < 63; ++day) { // every bank of words has come round
                const auto all = themes();
                Theme today = all[(day + static_cast<std::uint64_t>(shape)) % all.size()];
                today.day = day;
                today.minutes = kLeastLaidOut + static_cast<int>(day) % (kMostLaidOut - kLeastLaidOut + 1);
                const ClassScript script = laidOut(static_cast<ClassShape>(shape), today);
                QVERIFY(!faultOf(script));
                for (const Finding& finding : review(script, rulesFor("en")).findings)
                    QVERIFY2(finding.kind == FindingKind::leftToWrite, qPrintable(complaint(script, finding)));
            }
    }

    void whatIsLeftToWriteIsSaidToBe()
    {
        const ClassScript script = laidOut(ClassShape::steadyClimb, theme());
        std::size_t open = 0;
        for (const Section& section : script.sections)
            for (const Step& step : section.steps)
                open += isToWrite(step);
        const auto findings = review(script, rulesFor("en")).findings;
        QCOMPARE(findings.size(), open);
        QVERIFY(open >= 12);
    }

    void eachNoteSaysWhatWouldMakeItGoodAndNamesAWordOfTheTheme()
    {
        for (int shape = 0; shape < kShapes; ++shape) {
            const ClassScript script = laidOut(static_cast<ClassShape>(shape), theme());
            std::set<std::string> notes;
            for (const Section& section : script.sections)
                for (const Step& step : section.steps) {
                    if (!isToWrite(step))
                        continue;
                    QVERIFY2(notes.insert(step.note).second, step.note.c_str()); // no two alike
                    const bool names = std::ranges::any_of(theme().words, [&](const std::string& word) {
                        return QString::fromStdString(step.note).contains(QString::fromStdString(word));
                    });
                    QVERIFY2(names, step.note.c_str());
                }
        }
        QVERIFY(writeClassScript(laidOut(ClassShape::steadyClimb, theme())).find("can be held") != std::string::npos);
    }

    void neighbouringDaysHaveOtherWords()
    {
        ClassScript next = laidOut(ClassShape::steadyClimb, theme(20, 0));
        for (std::uint64_t day = 0; day < 40; ++day) {
            const ClassScript now = std::exchange(next, laidOut(ClassShape::steadyClimb, theme(20, day + 1)));
            for (const SectionKind kind : {SectionKind::warmUp, SectionKind::sustainedVowel, SectionKind::pitchGlide,
                                           SectionKind::counting, SectionKind::closing}) {
                const auto today = textsOf(now, kind);
                const auto tomorrow = textsOf(next, kind);
                for (const std::string& text : tomorrow)
                    QVERIFY2(std::ranges::find(today, text) == today.end(), text.c_str());
            }
        }
        QVERIFY(laidOut(ClassShape::talkingDay, theme(20, 1)) == laidOut(ClassShape::talkingDay, theme(20, 1)));
    }

    void backOfTongueLinesStayAwayForAMonth()
    {
        std::map<std::string, std::uint64_t> last;
        for (std::uint64_t day = 0; day < 130; ++day)
            for (const std::string& line :
                 textsOf(laidOut(static_cast<ClassShape>(day % kShapes), {"Soup", {}, 30, day, {}}),
                         SectionKind::backOfTongue)) {
                if (line.find(',') == std::string::npos || line.find("tongue") != std::string::npos)
                    continue; // the leader's line before it
                const auto before = last.find(line);
                QVERIFY2(before == last.end() || day - before->second > 30, line.c_str());
                last[line] = day;
            }
        QVERIFY(last.size() > 65);
    }

    void aSlowerLeaderHasLessToWriteAndEndsInTime()
    {
        PaceSample slow;
        for (std::size_t kind = 0; kind < kSectionKinds; ++kind)
            slow.add(static_cast<SectionKind>(kind), PacePart::shown, Millis{100'000}, Millis{140'000});
        const std::vector<PaceSample> classes(9, slow);
        Theme hers = theme(25);
        hers.pace = OwnPace(classes);
        const ClassScript script = laidOut(ClassShape::thereAndBack, hers);
        QVERIFY(planOf(script).total < planOf(laidOut(ClassShape::thereAndBack, theme(25))).total);
        ReviewRules rules = rulesFor("en");
        rules.pace = hers.pace;
        for (const Finding& finding : review(script, rules).findings)
            QVERIFY2(finding.kind == FindingKind::leftToWrite, qPrintable(complaint(script, finding)));
        QVERIFY(std::ranges::any_of(review(script, rulesFor("en")).findings, [](const Finding& finding) {
            return finding.kind == FindingKind::shorterThanPlanned;
        }));
    }

    void wordsAreTypedInOneLine()
    {
        using Words = std::vector<std::string>;
        QCOMPARE(wordsTyped("kite, string ,hill;wind."), (Words{"kite", "string", "hill", "wind"}));
        QCOMPARE(wordsTyped("kite string  hill"), (Words{"kite", "string", "hill"}));
        QCOMPARE(wordsTyped("hot tea, hot tea, cup"), (Words{"hot tea", "cup"}));
        QCOMPARE(wordsTyped(" , ;; . "), Words{});
        QCOMPARE(wordsTyped(std::string(200, 'a')), Words{});
        std::string many;
        for (int i = 0; i < 100; ++i)
            many += "w" + std::to_string(i) + ' ';
        QCOMPARE(wordsTyped(many).size(), std::size_t(40));
    }

    void anEarlierClassLendsItsShapeAndNothingOfItsWords_data()
    {
        QTest::addColumn<QString>("file");
        for (const char* file : {"lakeside-plots.yaml", "down-the-river.yaml", "village-band.yaml", "soup-pots.yaml",
                                 "tea-for-everyone.yaml", "kite-hill.yaml"})
            QTest::newRow(file) << file;
    }
    void anEarlierClassLendsItsShapeAndNothingOfItsWords()
    {
        QFETCH(QString, file);
        const ClassScript earlier = shipped(qPrintable(file));
        QVERIFY(!earlier.sections.empty());
        for (const int minutes : {18, 20, 24}) {
            Theme today = theme(minutes, 77);
            const ClassScript script = laidOutAs(earlier, today);
            QVERIFY(!faultOf(script));
            QCOMPARE(script.sections.size(), earlier.sections.size());
            QVERIFY(std::chrono::abs(planOf(script).total - std::chrono::minutes(script.plannedMinutes)) <=
                    std::chrono::minutes(1));
            QCOMPARE(script.plannedMinutes, minutes);
            for (const Finding& finding : review(script, rulesFor("en")).findings)
                QVERIFY2(finding.kind == FindingKind::leftToWrite || finding.kind == FindingKind::noWaterPause,
                         qPrintable(complaint(script, finding)));
            const std::string written = writeClassScript(script);
            QVERIFY(written.find("dizzy") != std::string::npos); // the cautions stay
            QVERIFY(written.find("can be held") != std::string::npos);
            // Nothing of the old sentences.
            for (std::size_t i = 0; i < script.sections.size(); ++i) {
                if (isFixed(script.sections[i].kind) || script.sections[i].kind == SectionKind::pause)
                    continue;
                const auto& old = earlier.sections[i].steps;
                for (const Step& step : script.sections[i].steps)
                    QVERIFY2(std::ranges::none_of(old, [&](const Step& each) { return each.text == step.text; }),
                             step.text.c_str());
            }
        }
    }

    void inAnotherLanguageTheFixedPartsStayAsTheyWere()
    {
        const ClassScript earlier = shipped("uhrenwerkstatt.yaml");
        const ClassScript script = laidOutAs(earlier, {"Brot", {"Ofen", "Teig"}, 21, 5, {}});
        QVERIFY(!faultOf(script));
        QCOMPARE(script.language, earlier.language);
        QCOMPARE(textsOf(script, SectionKind::warmUp), textsOf(earlier, SectionKind::warmUp));
        QCOMPARE(textsOf(script, SectionKind::phrases).front(), std::string(kToWrite));
    }
};

QTEST_APPLESS_MAIN(TestShapes)
#include "test_shapes.moc"
