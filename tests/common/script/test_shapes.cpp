// A class laid out from a theme: valid, in time, reviewed without findings but for what is left to write.
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "common/script/review.h"
#include "common/script/shapes.h"
#include "common/script/valid.h"
#include "common/script/writer.h"

#include <QFile>
#include <QtTest>

using namespace vh;

class TestShapes : public QObject
{
    Q_OBJECT

    static Theme theme(int minutes = 20, std::uint64_t day = 1)
    {
        return {"Kites",
                {"kite", "string", "hill", "wind", "tail", "colour", "picnic", "kitchen", "cloud", "coat"},
                minutes,
                day};
    }

private slots:
    void everyShapeIsAClassInTime()
    {
        for (int shape = 0; shape < kShapes; ++shape)
            for (const int minutes : {15, 20, 25, 30}) {
                const ClassScript script = laidOut(static_cast<Shape>(shape), theme(minutes));
                const auto fault = faultOf(script);
                QVERIFY2(!fault, fault ? (fault->where + ": " + fault->message).c_str() : "");
                const auto gap = std::chrono::abs(planOf(script).total - std::chrono::minutes(minutes));
                QVERIFY2(gap <= std::chrono::minutes(1),
                         qPrintable(QString("%1 %2: %3").arg(shape).arg(minutes).arg(gap.count())));
            }
    }

    void whatIsFixedNeedsNoMending()
    {
        for (int shape = 0; shape < kShapes; ++shape)
            for (std::uint64_t day = 0; day < 50; ++day) {
                const ClassScript script = laidOut(static_cast<Shape>(shape), theme(20, day));
                for (const Finding& finding : review(script, rulesFor("en")).findings) {
                    const bool open = finding.section && finding.step &&
                                      isToWrite(script.sections[*finding.section].steps[*finding.step]);
                    QVERIFY2(open, (std::string(nameOf(finding.kind)) + ": " + finding.why).c_str());
                }
            }
    }

    void sentencesAreLeftToWriteEachWithAWordOfTheTheme()
    {
        const ClassScript script = laidOut(Shape::steadyClimb, theme());
        int open = 0;
        for (const Section& section : script.sections)
            for (const Step& step : section.steps)
                if (isToWrite(step)) {
                    ++open;
                    QVERIFY(!step.note.empty());
                }
        QVERIFY(open >= 12);
        QVERIFY(writeClassScript(script).find("kite") != std::string::npos);
    }

    void anotherDayHasOtherSyllables()
    {
        QVERIFY(laidOut(Shape::talkingDay, theme(20, 1)) != laidOut(Shape::talkingDay, theme(20, 2)));
        QVERIFY(laidOut(Shape::talkingDay, theme(20, 1)) == laidOut(Shape::talkingDay, theme(20, 1)));
        QVERIFY(laidOut(Shape::talkingDay, {"Kites", {}, 20, 1}).sections.size() > 5);
    }

    void anEarlierClassLendsItsShape()
    {
        QFile file(VH_SOURCE_DIR "/content/classes/lakeside-plots.yaml");
        QVERIFY(file.open(QIODevice::ReadOnly));
        const auto earlier = readClassScript(file.readAll().toStdString(), "lakeside-plots.yaml");
        QVERIFY(earlier.has_value());
        const ClassScript script = laidOutAs(*earlier, theme());
        QVERIFY(!faultOf(script));
        QCOMPARE(planOf(script).total, planOf(*earlier).total);
        QCOMPARE(script.sections.size(), earlier->sections.size());
        const std::string written = writeClassScript(script);
        QVERIFY(written.find("Amina") == std::string::npos); // nothing of the old sentences
        QVERIFY(written.find("dizzy") != std::string::npos); // the cautions stay
        QVERIFY(written.find("kite") != std::string::npos);
    }
};

QTEST_APPLESS_MAIN(TestShapes)
#include "test_shapes.moc"
