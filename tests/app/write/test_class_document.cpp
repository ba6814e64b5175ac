// The class that is being written: every change can be undone, what is typed goes back word by word, nothing is
// refused, and what there is to say is said at once.
#include "app/write/class_document.h"
#include "app/write/texts_in.h"
#include "common/script/reader.h"
#include "common/script/shapes.h"
#include "common/script/valid.h"
#include "common/script/writer.h"
#include "tests/app/write/write_classes.h"

#include <QSignalSpy>
#include <QTest>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;

namespace
{

void type(ClassDocument& document, const QString& letters)
{
    for (const QChar letter : letters) {
        const QString text = document.text() + letter;
        document.setText(text, static_cast<int>(text.size()));
    }
}

QString codes(const ClassDocument& document)
{
    QStringList all;
    for (const Remark& remark : document.remarks())
        all << QString::fromStdString(remark.code);
    return all.join(u' ');
}

ClassDocument::Spot spotOf(int section, int step)
{
    return {section, step};
}

} // namespace

class TestClassDocument : public QObject
{
    Q_OBJECT
private slots:
    void typingGoesBackWordByWord()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        document.setText({}, 0);
        type(document, "The moon rises.");
        QCOMPARE(document.text(), QString("The moon rises."));
        QStringList back;
        while (document.undoStack().canUndo()) {
            document.undoStack().undo();
            back << document.text();
        }
        QCOMPARE(back, (QStringList{"The moon ", "The ", "", "Row the boat."}));
        while (document.undoStack().canRedo())
            document.undoStack().redo();
        QCOMPARE(document.text(), QString("The moon rises."));
    }

    void typingInAnotherPlaceIsAnotherChange()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        document.setText("XRow the boat.", 1);
        document.setText("XYRow the boat.", 2);
        document.setText("XYRow the boat.Z", 16);
        QCOMPARE(document.undoStack().count(), 2);
        document.select({0, 1});
        document.setText("The frog is home.Z", 18);
        QCOMPARE(document.undoStack().count(), 3);
    }

    void everyKindOfChangeIsUndoneByOneKey()
    {
        ClassDocument document({});
        const ClassScript before = pondClass();
        document.begin(before, {0, 1});
        const std::vector<std::function<void()>> changes{
            [&] { document.setTitle("Another"); },
            [&] { document.setTheme("Another"); },
            [&] { document.setLanguage("de"); },
            [&] { document.setMinutes(20); },
            [&] { document.setSectionTitle("Another"); },
            [&] { document.setSectionKind(SectionKind::passage); },
            [&] { document.setText("The frog.", 9); },
            [&] { document.setNote("Slowly."); },
            [&] {
                document.setRounds({{true, {{TurnKind::yours, Millis{3000}}}}}, "turns");
            },
            [&] { document.setDearness(3); },
            [&] {
                document.setPicture(Picture{"pictures/frog.svg", ""});
            },
            [&] { document.toggleMark(8, 8); },
            [&] { document.restructure(Structure::addStep); },
            [&] { document.restructure(Structure::addSection); },
            [&] { document.restructure(Structure::copy); },
            [&] { document.restructure(Structure::moveUp); },
            [&] { document.restructure(Structure::moveDown); },
            [&] { document.restructure(Structure::split, 8); },
            [&] { document.restructure(Structure::remove); },
            [&] { document.mend(0); },
            [&] { document.mendAll(); },
            [&] { document.markAll(); },
        };
        for (std::size_t i = 0; i < changes.size(); ++i) {
            document.select({0, 1});
            changes[i]();
            QVERIFY2(!(document.script() == before), qPrintable(QString::number(i)));
            QCOMPARE(document.undoStack().count(), 1);
            const ClassScript after = document.script();
            document.undoStack().undo();
            QVERIFY2(document.script() == before, qPrintable(QString::number(i)));
            QCOMPARE(document.spot(), spotOf(0, 1));
            document.undoStack().redo();
            QVERIFY(document.script() == after);
            document.undoStack().undo();
            document.undoStack().clear();
        }
    }

    void stepsMoveAcrossParts()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 2});
        QVERIFY(document.restructure(Structure::moveDown));
        QCOMPARE(document.spot(), spotOf(1, 0));
        QCOMPARE(document.script().sections[0].steps.size(), std::size_t{2});
        QCOMPARE(document.text(), QString("Look at the moon."));
        QVERIFY(document.restructure(Structure::moveUp));
        QCOMPARE(document.spot(), spotOf(0, 2));
        document.select({0, 0});
        QVERIFY(!document.restructure(Structure::moveUp));
        document.select({1, -1});
        QVERIFY(document.restructure(Structure::moveUp));
        QCOMPARE(document.script().sections[0].title, std::string("Goodbye"));
        QVERIFY(!document.restructure(Structure::moveUp));
    }

    void aSplitPartsTextAndMarksAtTheCaret()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        document.setText("Row the boat. Home is near.", 27);
        document.toggleMark(5, 5); // no vowel to hold in "the" but its own
        document.toggleMark(9, 9);
        document.toggleMark(15, 15);
        const QString whole = document.text();
        QVERIFY(document.restructure(Structure::split, 14));
        QCOMPARE(document.spot(), spotOf(0, 1));
        QCOMPARE(document.text(), QString("Home is near."));
        const auto& steps = document.script().sections[0].steps;
        QCOMPARE(steps[0].text, std::string("Row the boat."));
        QVERIFY(!steps[0].stretches.empty());
        QCOMPARE(writeMarks(steps[1].text, steps[1].stretches), std::string("H<o>me is near."));
        QVERIFY(steps[0].rounds == steps[1].rounds);
        QVERIFY(!document.restructure(Structure::split, 0)); // nothing before it
        document.undoStack().undo();
        QCOMPARE(document.text(), whole);
    }

    void nothingIsRefusedAndWhatIsMissingIsSaid()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        QVERIFY(document.isClass());
        document.setTitle("  ");
        QVERIFY(!document.isClass());
        QCOMPARE(document.remarks().front().code, std::string("empty-text"));
        document.setTitle("At the pond ");
        QVERIFY(document.isClass()); // the space goes when it is saved
        document.setLanguage("English please");
        QVERIFY(codes(document).startsWith("language"));
        document.setLanguage("en");
        document.setPicture(Picture{"pictures/frog.svg", {}});
        QVERIFY(!document.isClass());
        const auto fault = std::find_if(document.remarks().begin(), document.remarks().end(),
                                        [](const Remark& remark) { return remark.kind == Remark::Kind::fault; });
        QCOMPARE(fault->spot, spotOf(0, 0));
        document.setDescription("A frog on a leaf.");
        QVERIFY(document.isClass());
        document.setSectionKind(SectionKind::pause);
        QVERIFY(codes(document).contains("pause-asks"));
        QCOMPARE(codes(document).count("pause-asks"), 3); // one a step, each of which can be mended
        document.undoStack().undo();
        document.select({1, 0});
        QVERIFY(document.restructure(Structure::remove));
        QVERIFY(!document.isClass());
        const auto empty = std::find_if(document.remarks().begin(), document.remarks().end(),
                                        [](const Remark& remark) { return remark.leaveOut; });
        QVERIFY(empty != document.remarks().end());
        QVERIFY(document.mend(static_cast<std::size_t>(empty - document.remarks().begin())));
        QCOMPARE(document.script().sections.size(), std::size_t{1});
        QVERIFY(document.isClass());
    }

    void anEmptyTextIsOneToWrite()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 1});
        QVERIFY(document.toWrite().empty());
        document.setText({}, 0);
        QCOMPARE(document.toWrite().size(), std::size_t{1});
        QCOMPARE(document.text(), QString());
        QVERIFY(document.isClass());
        document.restructure(Structure::addStep);
        QCOMPARE(document.toWrite().size(), std::size_t{2});
        QCOMPARE(document.nextToWrite().value(), spotOf(0, 1)); // round again
        document.select({});
        QCOMPARE(document.nextToWrite().value(), spotOf(0, 1));
        type(document, "x"); // of no step: nothing
        QCOMPARE(document.toWrite().size(), std::size_t{2});
    }

    void textsFromElsewhereAreParted()
    {
        using Texts = std::vector<std::string>;
        QCOMPARE(textsIn(" one \r\n\r\n two\nlines\n \n\n three", SectionKind::phrases),
                 (Texts{"one", "two\nlines", "three"}));
        QCOMPARE(textsIn("one\ntwo", SectionKind::phrases), (Texts{"one", "two"}));
        QCOMPARE(textsIn("one\ntwo", SectionKind::passage), (Texts{"one\ntwo"}));
        QCOMPARE(textsIn(" \n\t\n", SectionKind::phrases), Texts());
    }

    void textsFromElsewhereFillWhatIsToWriteAndNoneIsLost()
    {
        ClassScript script = pondClass();
        script.sections[0].steps[0].text = script.sections[1].steps[0].text = kToWrite;
        ClassDocument document({});
        document.begin(script, {0, 0});
        QCOMPARE(document.takeTexts("Ahoy.\n\nSo long.\n\nSafe home.\n\nSleep well."), 4);
        const auto& after = document.script().sections;
        QCOMPARE(after[0].steps[0].text, std::string("Ahoy."));
        QCOMPARE(after[0].steps[1].text, std::string("The frog is home.")); // was written
        QCOMPARE(after[1].steps.size(), std::size_t{3});
        QCOMPARE(after[1].steps[0].text, std::string("So long."));
        QCOMPARE(after[1].steps[2].text, std::string("Sleep well."));
        QCOMPARE(after[1].steps[2].rounds, after[1].steps[0].rounds);
        QCOMPARE(document.spot(), spotOf(1, 2));
        document.undoStack().undo();
        QCOMPARE(document.script(), script);
        document.select({0, 1});
        QVERIFY(!withTexts(script, {0, 1}, {"a", "b"})); // what is written stays
        QVERIFY(!withTexts(script, {0, -1}, {"a"}));
        QVERIFY(!withTexts(script, {0, 0}, {}));
    }

    void whatIsSavedCanBeReadAgain()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        document.setText("  Row \t the boat.  ", 10);
        document.setNote(" Slowly. \n");
        QVERIFY(document.isClass());
        QVERIFY(!faultOf(document.tidy()));
        const auto read = readClassScript(writeClassScript(document.tidy()), "pond.yaml");
        QVERIFY(read && *read == document.tidy());
    }

    void whatIsStillToWriteIsNotLookedThrough()
    {
        ClassDocument document({});
        document.begin(laidOut(ClassShape::steadyClimb, {"Kites", {"kite", "string", "hill", "wind"}, 20, 5, {}}), {});
        QVERIFY(document.toWrite().size() > 10);
        QCOMPARE(codes(document), QString());
        document.select(document.toWrite().front());
        document.setText("Hold the line, the kite is going home.", 38);
        QCOMPARE(codes(document), QString("no-vowel-marked"));
    }

    void oneKeyMendsAllThatCanBeMended()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 1});
        QVERIFY(codes(document).contains("no-vowel-marked"));
        QVERIFY(codes(document).contains("no-cautions"));
        const int gone = document.mendAll();
        QVERIFY(gone >= 4);
        QCOMPARE(codes(document), QString());
        QCOMPARE(document.undoStack().count(), 1);
        QCOMPARE(document.text(), QString("The frog is home.")); // what was looked at still is, below the cautions
        QCOMPARE(document.spot(), spotOf(1, 1));
    }

    void allVowelsAreMarkedByOneKey()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        QCOMPARE(document.markAll(), 3);
        const auto& steps = document.script().sections[0].steps;
        QCOMPARE(writeMarks(steps[0].text, steps[0].stretches), std::string("R<o>w the b<oa>t."));
        QCOMPARE(document.markAll(), 0);
    }

    void rulesAreAskedForOncePerLanguage()
    {
        QStringList asked;
        ClassDocument document([&](std::string_view language) {
            asked << QString::fromUtf8(language.data(), static_cast<qsizetype>(language.size()));
            ReviewRules rules = rulesFor(language);
            rules.usedLately = {"the frog is home"};
            return rules;
        });
        document.begin(pondClass(), {0, 0});
        QVERIFY(codes(document).contains("used-lately"));
        asked.clear();
        document.setTitle("Other");
        document.setLanguage("de");
        QCOMPARE(asked, QStringList{"de"});
    }

    void signalsComeOncePerChange()
    {
        ClassDocument document({});
        document.begin(pondClass(), {0, 0});
        QSignalSpy changed(&document, &ClassDocument::changed);
        QSignalSpy chosen(&document, &ClassDocument::chosen);
        document.setText("Row the boat. Now.", 18);
        QCOMPARE(changed.size(), 1);
        QCOMPARE(chosen.size(), 0);
        document.setText("Row the boat. Now.", 18);
        QCOMPARE(changed.size(), 1);
        document.restructure(Structure::copy);
        QCOMPARE(changed.size(), 2);
        QCOMPARE(chosen.size(), 1);
        document.select({7, 9}); // the nearest there is
        QCOMPARE(document.spot(), spotOf(1, 0));
    }
};

QTEST_GUILESS_MAIN(TestClassDocument)
#include "test_class_document.moc"
