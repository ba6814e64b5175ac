// Who has joined what on this installation, and where the private keys lie.
#include "app/link/identity.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::link;

namespace
{

Membership memberOf(const std::string& group, const std::string& name)
{
    Membership made;
    made.host = "hall.example.org";
    made.port = 7443;
    made.pin = wire::sha256(group);
    made.group = GroupId::random();
    made.groupName = group;
    made.person = PersonId::random();
    made.name = name;
    made.key = wire::makeKeyPair().publicKey;
    return made;
}

QFile::Permissions othersMay(const QString& path)
{
    return QFile::permissions(path) & (QFile::ReadGroup | QFile::WriteGroup | QFile::ExeGroup | QFile::ReadOther |
                                       QFile::WriteOther | QFile::ExeOther);
}

} // namespace

class TestMemberships : public QObject
{
    Q_OBJECT
private slots:
    void whatWasKeptIsReadAgainMostRecentFirst()
    {
        QTemporaryDir folder;
        const Membership ruth = memberOf("Lakeside voices", "Ruth");
        Membership bram = memberOf("Harbour \"voices\" \u00e9\u4e16", "Bram");
        bram.pin.reset();
        bram.role = Role::moderator;
        {
            Memberships kept(folder.path());
            QVERIFY(kept.all().empty());
            QVERIFY(kept.use(ruth));
            QVERIFY(kept.use(bram));
        }
        Memberships read(folder.path());
        QVERIFY((read.all() == std::vector{bram, ruth}));
        QVERIFY(read.use(ruth)); // used again: to the front, not twice
        QVERIFY((Memberships(folder.path()).all() == std::vector{ruth, bram}));
    }

    void oneIsForgottenTheOthersStay()
    {
        QTemporaryDir folder;
        Memberships kept(folder.path());
        const Membership ruth = memberOf("Lakeside voices", "Ruth");
        const Membership bram = memberOf("Lakeside voices", "Bram");
        QVERIFY(kept.use(ruth) && kept.use(bram));
        QVERIFY(kept.forget(bram.key));
        QVERIFY((Memberships(folder.path()).all() == std::vector{ruth}));
    }

    void aDamagedFileIsSetAsideNotOverwritten_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("cut off") << QByteArray("{\"memberships\":[{\"host\":\"hall.exa");
        QTest::newRow("another shape") << QByteArray("{\"memberships\":[{\"host\":7}]}");
        QTest::newRow("not an object") << QByteArray("[]");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("bytes") << QByteArray("\xff\x00\xfe", 3);
    }
    void aDamagedFileIsSetAsideNotOverwritten()
    {
        QFETCH(const QByteArray, bytes);
        QTemporaryDir folder;
        QFile file(folder.filePath("memberships.json"));
        QVERIFY(file.open(QIODevice::WriteOnly));
        QCOMPARE(file.write(bytes), bytes.size());
        file.close();
        Memberships kept(folder.path());
        QVERIFY(kept.all().empty());
        QVERIFY(kept.use(memberOf("Lakeside voices", "Ruth")));
        QFile aside(folder.filePath("memberships.json.damaged"));
        QVERIFY(aside.open(QIODevice::ReadOnly));
        QCOMPARE(aside.readAll(), bytes);
        QCOMPARE(Memberships(folder.path()).all().size(), std::size_t{1});
    }

    void filesAreForThisUserAlone()
    {
        QTemporaryDir folder;
        Memberships kept(folder.path());
        QVERIFY(kept.use(memberOf("Lakeside voices", "Ruth")));
        const auto box = makeFileKeyBox(folder.path());
        QVERIFY(box->write(wire::makeKeyPair()));
        const auto files = QDir(folder.path()).entryInfoList(QDir::Files);
        QCOMPARE(files.size(), 2);
        for (const QFileInfo& file : files)
            QCOMPARE(othersMay(file.filePath()), QFile::Permissions());
    }

    void aKeyIsFoundByItsPublicHalfAndStillSigns()
    {
        QTemporaryDir folder;
        const wire::KeyPair keys = wire::makeKeyPair();
        QVERIFY(makeFileKeyBox(folder.path())->write(keys));
        const auto read = makeFileKeyBox(folder.path())->read(keys.publicKey);
        QVERIFY(read);
        QVERIFY(wire::verify(keys.publicKey, "a text", wire::sign(*read, "a text")));
        QVERIFY(!makeFileKeyBox(folder.path())->read(wire::makeKeyPair().publicKey));
    }

    void aKeyFileThatIsDamagedIsNoKey()
    {
        QTemporaryDir folder;
        const wire::KeyPair keys = wire::makeKeyPair();
        QVERIFY(makeFileKeyBox(folder.path())->write(keys));
        const auto files = QDir(folder.path()).entryInfoList(QDir::Files);
        QCOMPARE(files.size(), 1);
        QVERIFY(QFile::resize(files.front().filePath(), 20));
        QVERIFY(!makeFileKeyBox(folder.path())->read(keys.publicKey));
    }

    void whatCannotBeWrittenIsSaid()
    {
        QTemporaryDir folder;
        QFile blocking(folder.filePath("profile")); // a file where the folder should be
        QVERIFY(blocking.open(QIODevice::WriteOnly));
        blocking.close();
        Memberships kept(folder.filePath("profile"));
        QVERIFY(!kept.use(memberOf("Lakeside voices", "Ruth")));
        QVERIFY(!makeFileKeyBox(folder.filePath("profile"))->write(wire::makeKeyPair()));
    }
};

QTEST_GUILESS_MAIN(TestMemberships)
#include "test_memberships.moc"
