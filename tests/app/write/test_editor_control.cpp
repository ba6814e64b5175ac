// A class is opened, written, mended and saved, by the keys and buttons of the real page.
#include "app/write/editor_show.h"
#include "app/write/marked_edit.h"
#include "app/write/round_score.h"
#include "app/write/sheet_preview.h"
#include "app/write/step_list.h"
#include "common/script/reader.h"
#include "common/script/shapes.h"
#include "tests/app/write/editor_window.h"

#include <QClipboard>
#include <QLineEdit>
#include <QSignalSpy>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;
using Window = EditorWindow;

class TestEditorControl : public QObject
{
    Q_OBJECT
private:
    std::unique_ptr<QTemporaryDir> m_folder;
    QString m_path;

    void putClass(const ClassScript& script) { vh::testing::putClass(m_path, script); }

private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        m_path = m_folder->filePath("pond.yaml");
    }

    void typingChangesTheClassItsScreenAndItsDraft()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        QVERIFY(qobject_cast<MarkedEdit*>(&hand.focus())); // the first text, its caret at the end
        hand.type(" Slowly.");
        QCOMPARE(window.document().text(), QString("Row the boat. Slowly."));
        QVERIFY(window.part<SheetPreview>().accessibleName().contains("Row the boat. Slowly."));
        QTRY_VERIFY(DraftKeeper::draftBeside(m_path));
        QVERIFY(!contentOf(m_path).contains("Slowly"));
        hand.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(window.document().text(), QString("Row the boat. "));
        QCOMPARE(window.part<MarkedEdit>().toPlainText(), QString("Row the boat. "));
        hand.key(Qt::Key_Y, Qt::ControlModifier);
        QSignalSpy saved(&window.control, &EditorControl::saved);
        hand.key(Qt::Key_S, Qt::ControlModifier);
        QCOMPARE(saved.size(), 1);
        QVERIFY(contentOf(m_path).contains("Slowly"));
        QVERIFY(!DraftKeeper::draftBeside(m_path));
    }

    void enterGoesOnToWhatIsStillToWrite()
    {
        Window window;
        window.control.openNew(laidOut(ClassShape::talkingDay, {"Kites", {"kite", "string", "hill"}, 20, 5, {}}),
                               m_path);
        WritingHand hand(window);
        const auto toWrite = window.document().toWrite();
        QCOMPARE(window.document().spot(), toWrite[0]);
        hand.type("Hold the line!");
        hand.key(Qt::Key_Return);
        QCOMPARE(window.document().spot(), toWrite[1]);
        hand.type("Up it goes, over the hill!");
        hand.key(Qt::Key_Return);
        QCOMPARE(window.document().toWrite().size(), toWrite.size() - 2);
        hand.type("One line\nand another");
        QCOMPARE(window.document().text(), QString("One line\nand another"));
        hand.key(Qt::Key_F2);
        QCOMPARE(window.document().spot(), toWrite[3]);
        hand.key(Qt::Key_M, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(!stepAt(window.document().script(), toWrite[0])->stretches.empty());
        QVERIFY(!stepAt(window.document().script(), toWrite[1])->stretches.empty());
    }

    void textsFromElsewhereGoWhereTheyAreToBeWritten()
    {
        ClassScript script = pondClass();
        for (std::size_t step : {0U, 1U, 2U})
            script.sections[0].steps[step].text = kToWrite;
        putClass(script);
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        QApplication::clipboard()->setText("Row the boat.\nThe frog is home.\n\nLook at the moon.");
        hand.key(Qt::Key_V, Qt::ControlModifier);
        const auto& steps = [&]() -> const std::vector<Step>& { return window.document().script().sections[0].steps; };
        QCOMPARE(steps()[0].text, std::string("Row the boat.\nThe frog is home."));
        QCOMPARE(steps()[1].text, std::string("Look at the moon."));
        QVERIFY(isToWrite(steps()[2]));
        hand.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(isToWrite(steps()[0]) && isToWrite(steps()[1]));
        QApplication::clipboard()->setText("\n  Row the boat. \r\n");
        hand.key(Qt::Key_V, Qt::ControlModifier); // one text, as one types it
        QCOMPARE(window.document().text().trimmed(), QString("Row the boat."));
        QVERIFY(isToWrite(steps()[1]));
    }

    void oneKeyMarksTheVowelAtTheCaret()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        hand.key(Qt::Key_Left); // between "boat" and the full stop
        hand.key(Qt::Key_M, Qt::ControlModifier);
        QCOMPARE(writeMarks(window.document().step()->text, window.document().step()->stretches),
                 std::string("Row the b<oa>t."));
        hand.key(Qt::Key_M, Qt::ControlModifier);
        QVERIFY(window.document().step()->stretches.empty());
        QVERIFY(hand.press("Mark vowel"));
        QVERIFY(!window.document().step()->stretches.empty());
    }

    void stepsAreAddedMovedSplitAndRemovedByKeysAndByButtons()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        const auto steps = [&] {
            QStringList all;
            for (const Step& step : window.document().script().sections[0].steps)
                all << QString::fromStdString(step.text);
            return all.join(u'/');
        };
        hand.key(Qt::Key_Down, Qt::AltModifier);
        QCOMPARE(steps(), QString("The frog is home./Row the boat./Look at the moon."));
        QVERIFY(hand.press("Up"));
        QCOMPARE(steps(), QString("Row the boat./The frog is home./Look at the moon."));
        hand.key(Qt::Key_N, Qt::ControlModifier);
        hand.type("Now. Then.");
        QCOMPARE(steps(), QString("Row the boat./Now. Then./The frog is home./Look at the moon."));
        for (int i = 0; i < 6; ++i)
            hand.key(Qt::Key_Left);
        hand.key(Qt::Key_Return, Qt::ControlModifier);
        QCOMPARE(steps(), QString("Row the boat./Now./Then./The frog is home./Look at the moon."));
        hand.key(Qt::Key_D, Qt::ControlModifier);
        QCOMPARE(steps(), QString("Row the boat./Now./Then./Then./The frog is home./Look at the moon."));
        hand.key(Qt::Key_Delete, Qt::AltModifier); // what comes next is chosen then
        hand.key(Qt::Key_PageUp, Qt::ControlModifier);
        QVERIFY(hand.press("Remove"));
        QCOMPARE(steps(), QString("Row the boat./Now./The frog is home./Look at the moon."));
        hand.key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
        QCOMPARE(window.document().script().sections.size(), std::size_t{3});
        QVERIFY(qobject_cast<QLineEdit*>(&hand.focus())); // its title
        hand.key(Qt::Key_A, Qt::ControlModifier);
        hand.type("By night");
        QCOMPARE(window.document().script().sections[1].title, std::string("By night"));
        hand.key(Qt::Key_Z, Qt::ControlModifier); // the page's undo, not the field's
        QCOMPARE(window.document().script().sections[1].title, std::string("By "));
    }

    void turnsAreSetByKeys()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        hand.key(Qt::Key_2, Qt::AltModifier);
        QVERIFY(qobject_cast<RoundScore*>(&hand.focus()));
        const auto& turns = [&]() -> const std::vector<Turn>& { return window.document().step()->rounds[0].turns; };
        hand.key(Qt::Key_Right);
        hand.key(Qt::Key_Right);
        hand.key(Qt::Key_W);
        QCOMPARE(turns()[2].kind, TurnKind::withMe);
        hand.key(Qt::Key_7);
        hand.key(Qt::Key_Return);
        QCOMPARE(turns()[2].planned.count(), 7000);
        hand.key(Qt::Key_Plus);
        QCOMPARE(turns()[2].planned.count(), 7500);
        hand.key(Qt::Key_N);
        hand.key(Qt::Key_V);
        QCOMPARE(window.document().step()->rounds.size(), std::size_t{2});
        QVERIFY(window.document().step()->rounds[1].moreVoice);
        hand.key(Qt::Key_Delete, Qt::ShiftModifier);
        QCOMPARE(window.document().step()->rounds.size(), std::size_t{1});
        hand.key(Qt::Key_1, Qt::AltModifier);
        QVERIFY(qobject_cast<MarkedEdit*>(&hand.focus()));
    }

    void remarksAreGoneThroughAndMendedByKeys()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        const auto count = window.document().remarks().size();
        QVERIFY(count >= 4);
        hand.key(Qt::Key_F8);
        QCOMPARE(window.control.page()->chosenRemark(), 0);
        hand.key(Qt::Key_F9);
        QVERIFY(window.document().remarks().size() < count);
        QVERIFY(hand.press("Mend all"));
        QCOMPARE(window.document().remarks().size(), std::size_t{0});
        hand.key(Qt::Key_F9); // nothing to mend: nothing happens
        QCOMPARE(window.document().remarks().size(), std::size_t{0});
    }

    void aPictureAsksForItsDescription()
    {
        putClass(pondClass());
        Window window(
            {{}, [](QWidget*) { return QString(VH_SOURCE_DIR "/content/classes/pictures/lake.svg"); }, kQuick});
        window.control.open(m_path);
        WritingHand hand(window);
        hand.key(Qt::Key_P, Qt::AltModifier);
        QVERIFY(window.document().step()->picture);
        QVERIFY(QFile::exists(m_folder->filePath("pictures/pond-1.svg")));
        QVERIFY(!window.document().isClass());
        hand.key(Qt::Key_S, Qt::ControlModifier);
        QVERIFY(!contentOf(m_path).contains("pond-1"));
        hand.type("A lake in the morning.");
        QCOMPARE(window.document().step()->picture->description, std::string("A lake in the morning."));
        hand.key(Qt::Key_S, Qt::ControlModifier);
        QVERIFY(contentOf(m_path).contains("A lake in the morning."));
        QVERIFY(hand.press("Take it out"));
        QVERIFY(!window.document().step()->picture);
    }

    void rehearsingAndTheHandoutGetTheClassAsItIsNow()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        QSignalSpy rehearse(&window.control, &EditorControl::rehearseRequested);
        QSignalSpy handout(&window.control, &EditorControl::handoutRequested);
        hand.type(" Home. ");
        hand.key(Qt::Key_F5);
        hand.key(Qt::Key_P, Qt::ControlModifier);
        QCOMPARE(rehearse.size(), 1);
        QCOMPARE(handout.size(), 1);
        QCOMPARE(rehearse[0][0].value<ClassScript>().sections[0].steps[0].text, std::string("Row the boat. Home."));
        QCOMPARE(rehearse[0][1].toString(), QFileInfo(m_path).absolutePath());
        window.document().setTitle({});
        hand.key(Qt::Key_F5);
        QCOMPARE(rehearse.size(), 1); // it is no class: the page says what is missing
    }

    void showingAViewAsksForNothing()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        EditorPage page;
        QSignalSpy text(&page, &EditorPage::textTyped);
        QSignalSpy note(&page, &EditorPage::noteTyped);
        QSignalSpy spot(&page, &EditorPage::spotRequested);
        QSignalSpy title(&page, &EditorPage::titleTyped);
        QSignalSpy kind(&page, &EditorPage::partKindChosen);
        for (const Spot where : {Spot{0, 0}, Spot{1, 0}, Spot{1, -1}, Spot{}}) {
            window.document().select(where);
            ShowOptions options;
            options.picture = [](const std::string&) { return QImage(); };
            page.setState(viewOf(window.document(), {}, options));
        }
        for (QSignalSpy* each : {&text, &note, &spot, &title, &kind})
            QCOMPARE(each->size(), 0);
    }

    void theListFollowsAndLeads()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        auto& list = window.part<StepList>();
        QCOMPARE(list.currentRow(), 2); // the class, the part, its first step
        list.setFocus();
        hand.key(Qt::Key_Down);
        QCOMPARE(window.document().spot(), (Spot{0, 1}));
        hand.key(Qt::Key_Return);
        QVERIFY(qobject_cast<MarkedEdit*>(&hand.focus()));
        hand.key(Qt::Key_PageDown, Qt::ControlModifier);
        QCOMPARE(list.currentRow(), 4);
    }
};

QTEST_MAIN(TestEditorControl)
#include "test_editor_control.moc"
