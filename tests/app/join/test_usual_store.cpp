// Usual levels on disk: what was kept is read again, and what is damaged counts as empty.
#include "app/join/usual_store.h"

#include <QFile>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::join;

class TestUsualStore : public QObject
{
    Q_OBJECT
private:
    const PersonId m_ruth = PersonId::random();
    static UsualStore::Spot spotOf(float level)
    {
        UsualStore::Spot spot;
        UsualLevel usual;
        for (int i = 0; i < 9; ++i) // over a week, more values than are kept
            usual = withValue(usual, level + static_cast<float>(i) / 10,
                              Instant{Millis{1'700'000'000'000}} + std::chrono::hours{24 * i});
        spot.usuals[TaskKind::phrases] = usual;
        spot.usuals[TaskKind::vowel] = withSetupChanged(withValue({}, -22.5F, Instant{Millis{1'700'000'000'000}}));
        spot.roomDbfsA = -61.5F;
        spot.inputVolume = 0.75F;
        return spot;
    }

private slots:
    void whatWasKeptIsReadAgain()
    {
        QTemporaryDir folder;
        const auto spot = spotOf(-31);
        QVERIFY(UsualStore(folder.path()).keep(m_ruth, "alsa:headset \xff", spot));
        const auto read = UsualStore(folder.path()).find(m_ruth, "alsa:headset \xff");
        QVERIFY(read);
        QVERIFY(read->usuals == spot.usuals);
        QCOMPARE(read->roomDbfsA, spot.roomDbfsA);
        QCOMPARE(read->inputVolume, spot.inputVolume);
    }

    void pathCalibrationAndPeopleAreKeptWithTheirDate()
    {
        QTemporaryDir folder;
        auto spot = spotOf(-31);
        spot.people = 2;
        spot.path = EchoPath{112.5F, -14};
        spot.calibration = Calibration{96.25F, 2.5F, Instant{Millis{1'700'000'000'000}}};
        QVERIFY(UsualStore(folder.path()).keep(m_ruth, "one", spot));
        const auto read = UsualStore(folder.path()).find(m_ruth, "one");
        QVERIFY(read);
        QCOMPARE(read->people, 2);
        QVERIFY(read->path == spot.path);
        QVERIFY(read->calibration == spot.calibration);
    }

    void aFileOfAnOlderVersionIsReadWithoutThem()
    {
        QTemporaryDir folder;
        QVERIFY(UsualStore(folder.path()).keep(m_ruth, "one", spotOf(-31)));
        QFile file(folder.filePath("usual-levels.json"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        QByteArray text = file.readAll();
        file.close();
        text.replace(",\"people\":1", "");
        QVERIFY(!text.contains("people"));
        QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        QCOMPARE(file.write(text), text.size());
        file.close();
        const auto read = UsualStore(folder.path()).find(m_ruth, "one");
        QVERIFY(read);
        QCOMPARE(read->people, 1);
        QVERIFY(!read->path && !read->calibration);
    }

    void eachPersonAndDeviceHasTheirOwn()
    {
        QTemporaryDir folder;
        UsualStore store(folder.path());
        const PersonId bram = PersonId::random();
        QVERIFY(store.keep(m_ruth, "one", spotOf(-31)));
        QVERIFY(store.keep(m_ruth, "two", spotOf(-40)));
        QVERIFY(store.keep(bram, "one", spotOf(-20)));
        const UsualStore read(folder.path());
        QVERIFY(read.find(m_ruth, "one")->usuals == spotOf(-31).usuals);
        QVERIFY(read.find(m_ruth, "two")->usuals == spotOf(-40).usuals);
        QVERIFY(read.find(bram, "one")->usuals == spotOf(-20).usuals);
        QVERIFY(!read.find(bram, "two"));
    }

    void aDamagedFileCountsAsEmptyAndIsWrittenAnew()
    {
        for (const QByteArray& bytes :
             {QByteArray("{\"entries\":[{\"key\":\"a\",\"task\":\"song\"}]}"), QByteArray("{\"entr"), QByteArray()}) {
            QTemporaryDir folder;
            QFile file(folder.filePath("usual-levels.json"));
            QVERIFY(file.open(QIODevice::WriteOnly));
            QCOMPARE(file.write(bytes), bytes.size());
            file.close();
            UsualStore store(folder.path());
            QVERIFY(!store.find(m_ruth, "one"));
            QVERIFY(store.keep(m_ruth, "one", spotOf(-31)));
            QVERIFY(UsualStore(folder.path()).find(m_ruth, "one"));
        }
    }

    void theFileIsForThisUserAlone()
    {
        QTemporaryDir folder;
        QVERIFY(UsualStore(folder.path()).keep(m_ruth, "one", spotOf(-31)));
        const auto may = QFile::permissions(folder.filePath("usual-levels.json"));
        QVERIFY(!(may & (QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther)));
    }
};

QTEST_APPLESS_MAIN(TestUsualStore)
#include "test_usual_store.moc"
