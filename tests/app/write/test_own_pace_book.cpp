// The leader's own pace on her disk: kept, bounded, and never lost to a damaged file.
#include "app/write/own_pace.h"

#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

#include <cmath>

using namespace vh;
using namespace vh::write;

class TestOwnPaceBook : public QObject
{
    Q_OBJECT
    static PaceSample slow(double times = 1.4)
    {
        PaceSample sample;
        sample.add(SectionKind::phrases, PacePart::shown, Millis{100'000}, Millis{std::llround(100'000 * times)});
        sample.add(SectionKind::pause, PacePart::shown, Millis{150'000}, Millis{150'000});
        return sample;
    }

private slots:
    void whatIsLearnedIsThereTheNextTime()
    {
        QTemporaryDir folder;
        const QString path = folder.filePath("not/yet/there");
        OwnPaceBook first(path);
        QVERIFY(first.pace().isAsPlanned());
        QVERIFY(first.words().isEmpty());
        QSignalSpy changed(&first, &OwnPaceBook::changed);
        QVERIFY(first.learn(slow()));
        QCOMPARE(changed.size(), 1);
        QCOMPARE(first.words(), QStringList{"You take about a fifth longer over sentences than the plan says."});
        const OwnPaceBook second(path);
        QVERIFY(second.pace() == first.pace());
        QCOMPARE(second.classes(), std::size_t(1));
    }

    void anEmptySampleTeachesNothing()
    {
        QTemporaryDir folder;
        OwnPaceBook book(folder.path());
        QVERIFY(book.learn({}));
        QCOMPARE(book.classes(), std::size_t(0));
        QVERIFY(!QFile::exists(folder.filePath("own-pace.json")));
    }

    void onlyTheLastClassesAreKept()
    {
        QTemporaryDir folder;
        OwnPaceBook book(folder.path());
        for (std::size_t i = 0; i < OwnPaceBook::kMostKept + 5; ++i)
            QVERIFY(book.learn(slow(i < 5 ? 2.0 : 1.0)));
        QCOMPARE(book.classes(), OwnPaceBook::kMostKept);
        QVERIFY(OwnPaceBook(folder.path()).pace().isAsPlanned());
    }

    void itCanBeForgotten()
    {
        QTemporaryDir folder;
        OwnPaceBook book(folder.path());
        QVERIFY(book.learn(slow()));
        QVERIFY(book.forget());
        QVERIFY(book.pace().isAsPlanned());
        QCOMPARE(OwnPaceBook(folder.path()).classes(), std::size_t(0));
    }

    void aFileThatCannotBeReadIsPutAside_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("cut off") << QByteArray("{\"version\": 1, \"classes\": [{");
        QTest::newRow("of another time") << QByteArray("{\"version\": 99, \"classes\": []}");
        QTest::newRow("no text") << QByteArray("\0\xff\xfe", 3);
        QTest::newRow("empty") << QByteArray();
    }
    void aFileThatCannotBeReadIsPutAside()
    {
        QFETCH(QByteArray, bytes);
        QTemporaryDir folder;
        QFile file(folder.filePath("own-pace.json"));
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size());
        file.close();
        OwnPaceBook book(folder.path());
        QVERIFY(book.pace().isAsPlanned());
        QVERIFY(QFile::exists(folder.filePath("own-pace.json.unread")));
        QVERIFY(book.learn(slow()));
        QCOMPARE(OwnPaceBook(folder.path()).classes(), std::size_t(1));
    }

    void numbersThatCannotBeAreLeftOut()
    {
        QTemporaryDir folder;
        QFile file(folder.filePath("own-pace.json"));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(R"({"version": 1, "classes": [7, {"phrases": {"shown": [-5, 1]}}, {"phrases": {"shown": [1e18, 1]}},
                   {"phrases": {"shown": "x"}}, {"sentences": {"shown": [100000, 1]}},
                   {"phrases": {"shown": [100000, 140000], "sung": [100000, 1]}}]})");
        file.close();
        const OwnPaceBook book(folder.path());
        QCOMPARE(book.classes(), std::size_t(1));
        QCOMPARE(book.words(), QStringList{"You take about a fifth longer over sentences than the plan says."});
    }
};

QTEST_GUILESS_MAIN(TestOwnPaceBook)
#include "test_own_pace_book.moc"
