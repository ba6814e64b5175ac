// A class file is opened, saved and left: drafts, second windows, files that are none, disks that refuse.
#include "tests/app/write/editor_window.h"

#include <QDir>
#include <QSignalSpy>

using namespace vh;
using namespace vh::write;
using namespace vh::testing;
using Window = EditorWindow;

class TestEditorFiles : public QObject
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

    void whatWasNotFinishedIsOfferedAndNothingIsLostEitherWay()
    {
        putClass(pondClass());
        for (const bool goesOn : {false, true}) {
            {
                Window window;
                window.control.open(m_path);
                window.document().setTitle(goesOn ? "Go on" : "Leave");
            }
            QVERIFY(DraftKeeper::draftBeside(m_path)); // kept when the window went
            Window window;
            window.control.open(m_path);
            WritingHand hand(window);
            QVERIFY(hand.press(goesOn ? "Go on with what was not finished" : "Leave it, and take the class as it is"));
            QCOMPARE(window.document().script().title, std::string(goesOn ? "Go on" : "At the pond"));
            QCOMPARE(QFile::exists(m_path + ".aside-1"), true);
        }
        QVERIFY(contentOf(m_path + ".aside-1").contains("\"Leave\""));
        QVERIFY(contentOf(m_path).contains("At the pond"));
    }

    void aSecondWindowIsToldAndCanTryAgain()
    {
        putClass(pondClass());
        auto first = std::make_unique<Window>();
        first->control.open(m_path);
        Window second;
        second.control.open(m_path);
        WritingHand hand(second);
        QCOMPARE(second.document().script().title, std::string());
        first.reset();
        QVERIFY(hand.press("Try again"));
        QCOMPARE(second.document().script().title, std::string("At the pond"));
    }

    void aFileThatIsNoClassIsSaid()
    {
        QFile file(m_path);
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write("title: x\n") > 0);
        file.close();
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        QSignalSpy leave(&window.control, &EditorControl::leaveRequested);
        QVERIFY(hand.press("Leave"));
        QCOMPARE(leave.size(), 1);
        QCOMPARE(contentOf(m_path), QString("title: x\n"));
    }

    void aNewClassNeverTakesTheNameOfAnother()
    {
        putClass(pondClass());
        const QString before = contentOf(m_path);
        Window window;
        window.control.openNew(pondClass(), m_path);
        QCOMPARE(window.control.path(), m_folder->filePath("pond-2.yaml"));
        WritingHand hand(window);
        hand.key(Qt::Key_S, Qt::ControlModifier);
        QCOMPARE(contentOf(m_path), before);
        QVERIFY(QFile::exists(m_folder->filePath("pond-2.yaml")));
    }

    void leavingAsksOnlyWhereThereIsSomethingToAsk()
    {
        putClass(pondClass());
        Window window;
        window.control.open(m_path);
        WritingHand hand(window);
        QSignalSpy leave(&window.control, &EditorControl::leaveRequested);
        hand.key(Qt::Key_W, Qt::ControlModifier);
        QCOMPARE(leave.size(), 1); // nothing was changed
        window.control.open(m_path);
        hand.type(" Home.");
        hand.key(Qt::Key_W, Qt::ControlModifier);
        QCOMPARE(leave.size(), 1);
        QVERIFY(hand.press("Stay"));
        hand.key(Qt::Key_W, Qt::ControlModifier);
        QVERIFY(hand.press("Save it, and leave"));
        QCOMPARE(leave.size(), 2);
        QVERIFY(contentOf(m_path).contains("Row the boat. Home."));
        window.control.open(m_path);
        window.document().setTitle({});
        hand.key(Qt::Key_W, Qt::ControlModifier);
        QVERIFY(!hand.press("Save it, and leave")); // it is no class
        QVERIFY(hand.press("Leave it as a draft"));
        QCOMPARE(leave.size(), 3);
        QVERIFY(DraftKeeper::draftBeside(m_path)->script.title.empty());
    }

    void leavingIsHeldWhileTheDiskRefuses()
    {
        Window window;
        const QString away = m_folder->filePath("away/pond.yaml");
        window.control.openNew(pondClass(), away);
        WritingHand hand(window);
        hand.type(" Home.");
        QSignalSpy leave(&window.control, &EditorControl::leaveRequested);
        hand.key(Qt::Key_W, Qt::ControlModifier);
        QCOMPARE(leave.size(), 0);
        QVERIFY(hand.press("Stay"));
        QVERIFY(QDir(m_folder->path()).mkdir("away"));
        QTRY_VERIFY(DraftKeeper::draftBeside(away));
        hand.key(Qt::Key_W, Qt::ControlModifier);
        QVERIFY(hand.press("Leave it as a draft"));
        QCOMPARE(leave.size(), 1);
    }
};

QTEST_MAIN(TestEditorFiles)
#include "test_editor_files.moc"
