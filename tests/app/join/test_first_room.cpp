// The first screen: whoever was here last is one press away, and everybody else is reached.
#include "app/first_room.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QSignalSpy>
#include <QtTest>

using namespace vh;

class TestFirstRoom : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }

    void theFirstScreenPutsTheLastUsedOnePressAway()
    {
        FirstRoom first;
        QSignalSpy known(&first, &FirstRoom::knownRequested);
        QSignalSpy joins(&first, &FirstRoom::joinRequested);
        link::Membership ruth;
        ruth.groupName = "Lakeside voices";
        ruth.name = "Ruth";
        link::Membership bram = ruth;
        bram.name = "Bram";
        bram.role = Role::moderator;
        first.setState(firstViewOf({ruth, bram}));
        first.show();
        first.activateWindow();
        QTRY_VERIFY(first.isActiveWindow());
        QCOMPARE(known.size() + joins.size(), 0);
        auto* focus = qobject_cast<BigButton*>(QApplication::focusWidget());
        QVERIFY(focus);
        QCOMPARE(focus->text(), "Ruth");
        QCOMPARE(focus->accessibleName(), "Ruth joins Lakeside voices");
        QTest::keyClick(focus, Qt::Key_Return);
        QCOMPARE(known.size(), 1);
        QCOMPARE(known.front().front().toInt(), 0);
    }

    void manyNamesOfOneComputerAreAllReached()
    {
        FirstRoom first;
        std::vector<link::Membership> all(8);
        for (std::size_t i = 0; i < all.size(); ++i)
            all[i].name = "Ruth " + std::to_string(i);
        first.setState(firstViewOf(all));
        first.resize(1366, 700);
        first.show();
        QSignalSpy known(&first, &FirstRoom::knownRequested);
        const auto press = [&](const QString& words) {
            QCoreApplication::processEvents();
            for (BigButton* each : first.findChildren<BigButton*>())
                if (each->isVisible() && each->text() == words) {
                    QTest::mouseClick(each, Qt::LeftButton);
                    return;
                }
            QFAIL(qPrintable(words));
        };
        press("Ruth 2");
        press("More names");
        press("Ruth 7");
        QCOMPARE(known.size(), 2);
        QCOMPARE(known[0].front().toInt(), 2);
        QCOMPARE(known[1].front().toInt(), 7);
    }
};

QTEST_MAIN(TestFirstRoom)
#include "test_first_room.moc"
