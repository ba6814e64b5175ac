// What must hold on every screen of the writing room, at every size of text, light and dark: nothing is cut, all can be
// reached by the keyboard and is named for a reader, colours are readable. The list of keys in the docs is the real
// one.
#include "app/look/look.h"
#include "app/write/editor_view.h"
#include "tests/app/look/paint_record.h"
#include "tests/app/walk/walk.h"
#include "tests/app/write/write_scenes.h"

#include <QFile>

using namespace vh;
using namespace vh::testing;

class TestWriteScreens : public QObject
{
    Q_OBJECT
private:
    int m_wrong = 0;

    void note(const QString& where, const QStringList& findings)
    {
        for (const QString& each : findings)
            qInfo().noquote() << where << ':' << each;
        m_wrong += static_cast<int>(findings.size());
    }

    static void show(QWidget& screen, QSize window)
    {
        screen.resize(window);
        screen.show();
        screen.activateWindow();
        (void)QTest::qWaitForWindowActive(&screen);
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
    }

private slots:
    void init() { m_wrong = 0; }

    void nothingIsCutAtAnySize()
    {
        for (const auto size : {look::TextSize::usual, look::TextSize::larger, look::TextSize::largest}) {
            QVERIFY(look::Look(look::Ground::light, size).applyTo(*qApp));
            for (const WriteScene& scene : writeScenes()) {
                const auto screen = scene.make();
                for (const QSize window : {QSize(1366, 700), QSize(1920, 1040)}) {
                    show(*screen, window);
                    const QString where = QStringLiteral("%1, size %2, %3 wide")
                                              .arg(scene.name)
                                              .arg(static_cast<int>(size))
                                              .arg(window.width());
                    if (screen->size() != window)
                        note(where, {QStringLiteral("needs %1x%2").arg(screen->width()).arg(screen->height())});
                    note(where, tooLittleRoomIn(*screen, KeyHints::mayGo));
                }
            }
        }
        QCOMPARE(m_wrong, 0); // each is named above
    }

    void allIsReachedByTheKeyboardAndNamedForAReader()
    {
        QVERIFY(look::Look{}.applyTo(*qApp));
        for (const WriteScene& scene : writeScenes()) {
            const auto screen = scene.make();
            show(*screen, {1366, 700});
            note(scene.name, unspokenIn(*screen) + outOfReachIn(*screen));
        }
        QCOMPARE(m_wrong, 0); // each is named above
    }

    void whateverIsPaintedIsAPairOfColoursThatWasChecked()
    {
        for (const auto ground : {look::Ground::light, look::Ground::dark}) {
            QVERIFY(look::Look(ground).applyTo(*qApp));
            for (const WriteScene& scene : writeScenes()) {
                const auto screen = scene.make();
                show(*screen, {1366, 700});
                note(scene.name + (ground == look::Ground::dark ? " dark" : " light"), unlistedPairsIn(*screen));
            }
        }
        QCOMPARE(m_wrong, 0); // each is named above
    }

    void theKeysInTheDocsAreTheKeys()
    {
        QFile file(QStringLiteral(VH_SOURCE_DIR "/docs/writing.md"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QString docs = QString::fromUtf8(file.readAll());
        QSet<QString> taken;
        for (int i = 0; i < write::kPresses; ++i) {
            const write::Keyed keyed = write::keyedOf(static_cast<write::Press>(i));
            QVERIFY(!keyed.words.isEmpty());
            if (keyed.keys.isEmpty())
                continue;
            QVERIFY2(!taken.contains(keyed.keys.toString()), qPrintable(keyed.words));
            taken.insert(keyed.keys.toString());
            QVERIFY2(docs.contains(QStringLiteral("| %1 |").arg(keyed.keyWords)), qPrintable(keyed.keyWords));
        }
    }
};

QTEST_MAIN(TestWriteScreens)
#include "test_write_screens.moc"
