// The leader's own paper: times by the plan, turns, notes, what may be left out; large enough to be read on a stand.
#include "app/handout/paper_script.h"
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "tests/app/handout/printed.h"

#include <QFile>
#include <QTest>

using namespace vh;
using namespace vh::handout;
using vh::testing::flat;
using vh::testing::Printed;

namespace
{

ClassScript harbour()
{
    QFile file(VH_SOURCE_DIR "/content/classes/harbour-in-the-mist.yaml");
    if (!file.open(QIODevice::ReadOnly))
        qFatal("no such class");
    return readClassScript(file.readAll().toStdString(), "harbour").value();
}

QByteArray paperOfHarbour(const PaperScriptOptions& options)
{
    return paperScriptPdf(harbour(), options).value();
}

QString clock(Millis since)
{
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(since).count();
    return QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

} // namespace

class TestPaperScript : public QObject
{
    Q_OBJECT
private slots:
    void everyStepStandsThereWithItsTimeAndItsNoteInOrder()
    {
        const ClassScript script = harbour();
        const TimingPlan plan = planOf(script);
        const QString text = Printed(paperOfHarbour({Paper::a4, "Lakeside voices", QDate(2025, 5, 14), {}, {}})).text();
        qsizetype at = 0;
        for (std::uint32_t section = 0; section < script.sections.size(); ++section)
            for (std::uint32_t number = 0; number < script.sections[section].steps.size(); ++number) {
                const vh::Step& step = script.sections[section].steps[number];
                for (const QString& each :
                     {clock(*plan.startOf({section, number, 0, 0})), flat(QString::fromStdString(step.text)),
                      flat(QString::fromStdString(step.note))}) {
                    const qsizetype found = text.indexOf(each, at);
                    QVERIFY2(found >= 0, qPrintable("not there, or not in its order: " + each));
                    at = found + each.size();
                }
            }
        QVERIFY(text.indexOf(clock(plan.total), at) >= 0); // when it ends
    }

    void turnsAreSaidOnceForRoundsThatAreTheSame()
    {
        const QString text = Printed(paperOfHarbour({})).text();
        QVERIFY(text.contains(QString::fromUtf8("Listen 4 · Ready 2 · With me 6 | 2× Listen 3 · Ready 2 · You 6 | "
                                                "2× Listen 3 · Ready 2 · You 6 (more voice)")));
    }

    void theClockOnTheWallStandsThereWhereItIsKnown()
    {
        QVERIFY(!Printed(paperOfHarbour({})).text().contains("10:05"));
        const QString text = Printed(paperOfHarbour({Paper::letter, {}, {}, QTime(10, 0), {}})).text();
        QVERIFY(text.contains("10:00") && text.contains("10:05") && text.contains("10:19"));
    }

    void whatMayBeLeftOutIsMarked()
    {
        const QString text = Printed(paperOfHarbour({})).text();
        QCOMPARE(text.count("may be left out (2)"), 2);
        QCOMPARE(text.count("may be left out (1)"), 1);
    }

    void whatIsSaidStandsAtFourteenPointsAndNothingUnderEleven()
    {
        const QList<double> sizes = Printed(paperOfHarbour({})).fontSizes();
        QVERIFY(sizes.contains(14.0));
        for (const double size : sizes)
            QVERIFY2(size >= 11, qPrintable(QString::number(size)));
    }

    void itSaysWhatToDoAndTheCautions()
    {
        const QString text = Printed(paperOfHarbour({})).text();
        QVERIFY(text.contains("When the line fails: go on from here."));
        QVERIFY(text.contains("Stop if it hurts"));
    }
};

int main(int count, char** words)
{
    QGuiApplication app(count, words);
    TestPaperScript test;
    return QTest::qExec(&test, count, words);
}
#include "test_paper_script.moc"
