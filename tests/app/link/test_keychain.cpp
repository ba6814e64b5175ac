// Where private keys lie: in the keychain where there is one; where there is none, or it refuses, in files that only
// this user can read. And what happens when that place cannot be written or read.
#include "app/link/identity.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::link;

namespace
{

QStringList keyFilesIn(const QString& folder)
{
    return QDir(folder).entryList({"key-*"}, QDir::Files);
}

} // namespace

class TestKeychain : public QObject
{
    Q_OBJECT
private slots:
    void withoutAKeychainOrWithOneThatRefusesTheKeyLiesInAFileOfThisUser_data()
    {
        QTest::addColumn<QByteArray>("bus");
        QTest::newRow("no session bus") << QByteArray();
        QTest::newRow("a bus that nobody answers on") << QByteArray("unix:path=/nonexistent/voicehall-test-bus");
    }
    void withoutAKeychainOrWithOneThatRefusesTheKeyLiesInAFileOfThisUser()
    {
        QFETCH(const QByteArray, bus);
        qputenv("DBUS_SESSION_BUS_ADDRESS", bus);
        QTemporaryDir folder;
        const QString profile = folder.filePath("profile/of/ruth"); // made when it is needed
        const wire::KeyPair keys = wire::makeKeyPair();
        QVERIFY(makeKeyBox(profile)->write(keys));
        QCOMPARE(keyFilesIn(profile).size(), 1);
        const QFileInfo file(QDir(profile).filePath(keyFilesIn(profile).front()));
        const auto others = QFile::ReadGroup | QFile::WriteGroup | QFile::ExeGroup | QFile::ReadOther |
                            QFile::WriteOther | QFile::ExeOther;
        QVERIFY(!(file.permissions() & others));
        QVERIFY(file.permissions() & QFile::ReadOwner);
        QVERIFY(!(file.permissions() & QFile::ExeOwner));
        // Another start of the program finds it.
        const auto read = makeKeyBox(profile)->read(keys.publicKey);
        QVERIFY(read);
        QVERIFY(read->secretKey == keys.secretKey);
        QVERIFY(!makeKeyBox(profile)->read(wire::makeKeyPair().publicKey));
    }

    void whatWasAFileBeforeThereWasAKeychainIsStillFound()
    {
        QTemporaryDir folder;
        const wire::KeyPair keys = wire::makeKeyPair();
        QVERIFY(makeFileKeyBox(folder.path())->write(keys));
        qputenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nonexistent/voicehall-test-bus");
        QVERIFY(makeKeyBox(folder.path())->read(keys.publicKey));
    }

    void aKeyThatCannotBeKeptAnywhereIsSaid()
    {
        QTemporaryDir folder;
        QFile inTheWay(folder.filePath("profile"));
        QVERIFY(inTheWay.open(QIODevice::WriteOnly));
        for (const char* bus : {"", "unix:path=/nonexistent/voicehall-test-bus"}) {
            qputenv("DBUS_SESSION_BUS_ADDRESS", bus);
            QVERIFY(!makeKeyBox(folder.filePath("profile"))->write(wire::makeKeyPair()));
        }
    }

    void aKeyFileThatCannotBeReadOrIsNoKeyIsNoKey_data()
    {
        QTest::addColumn<QByteArray>("content");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("no hexadecimal digits") << QByteArray(128, 'x');
        QTest::newRow("half of it") << QByteArray(64, 'a');
        QTest::newRow("too much of it") << QByteArray(256, 'a');
    }
    void aKeyFileThatCannotBeReadOrIsNoKeyIsNoKey()
    {
        QFETCH(const QByteArray, content);
        qputenv("DBUS_SESSION_BUS_ADDRESS", {});
        QTemporaryDir folder;
        const wire::KeyPair keys = wire::makeKeyPair();
        QVERIFY(makeKeyBox(folder.path())->write(keys));
        const QString path = QDir(folder.path()).filePath(keyFilesIn(folder.path()).front());
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        file.write(content);
        file.close();
        QVERIFY(!makeKeyBox(folder.path())->read(keys.publicKey));
        QVERIFY(QFile::remove(path) && QDir().mkdir(path)); // as good as unreadable, for root too
        QVERIFY(!makeKeyBox(folder.path())->read(keys.publicKey));
    }

    void aStoreOfMembershipsThatCannotBeOpenedIsEmptyAndSaysSoWhenItIsWritten()
    {
        QTemporaryDir folder;
        QVERIFY(QDir().mkdir(folder.filePath("memberships.json")));
        Memberships store(folder.path());
        QVERIFY(store.all().empty());
        Membership ruth;
        ruth.name = "Ruth";
        QVERIFY(!store.use(ruth));
        QCOMPARE(store.all().size(), std::size_t{1}); // for as long as this program runs
        QVERIFY(!notKeptWords().isEmpty());
    }
};

QTEST_GUILESS_MAIN(TestKeychain)
#include "test_keychain.moc"
