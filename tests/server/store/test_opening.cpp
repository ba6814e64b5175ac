#include "server/store/connection.h"
#include "tests/server/store/store_fixture.h"

#include <QFile>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sys/stat.h>

using namespace vh;
using namespace vh::store;

namespace
{

QByteArray contentOf(const std::filesystem::path& file)
{
    QFile stored(QString::fromStdString(file.string()));
    return stored.open(QIODevice::ReadOnly) ? stored.readAll() : QByteArray();
}

void fill(const std::filesystem::path& file, const QByteArray& content)
{
    QFile stored(QString::fromStdString(file.string()));
    if (stored.open(QIODevice::WriteOnly))
        stored.write(content);
}

/// The file opened with steps of the test's own, then closed.
Migration openWith(const StoreOptions& options, std::initializer_list<const char*> steps)
{
    return Connection::open(options, std::span(steps.begin(), steps.size())).result;
}

} // namespace

class TestOpening : public QObject
{
    Q_OBJECT

    std::unique_ptr<QTemporaryDir> m_folder;
    StoreOptions m_options;

    void sql(const char* text) const
    {
        SQLite::Database raw(m_options.file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        raw.exec(text);
    }
    std::int64_t number(const char* query) const
    {
        SQLite::Database raw(m_options.file.string(), SQLite::OPEN_READWRITE);
        return raw.execAndGet(query).getInt64();
    }

private slots:
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        m_options = {};
        m_options.file = std::filesystem::path(m_folder->filePath("relay.db").toStdString());
    }

    void anAbsentFileIsCreatedThenCurrent()
    {
        QCOMPARE(Store::open(m_options).outcome, Opened::created);
        QCOMPARE(Store::open(m_options).outcome, Opened::current);
        QCOMPARE(number("PRAGMA user_version"), std::int64_t(schemaSteps().size()));
        QCOMPARE(number("PRAGMA application_id"), std::int64_t(kApplicationId));
    }

    void anEmptyFileIsCreated()
    {
        fill(m_options.file, {});
        QCOMPARE(Store::open(m_options).outcome, Opened::created);
    }

    void missingStepsAreDoneAndWhatWasThereStays()
    {
        const char* const first = "CREATE TABLE a (x INTEGER); INSERT INTO a VALUES (7)";
        QCOMPARE(openWith(m_options, {first}).outcome, Opened::created);
        const auto upgraded = openWith(
            m_options, {first, "ALTER TABLE a ADD COLUMN y INTEGER NOT NULL DEFAULT 2", "UPDATE a SET y = y + x"});
        QCOMPARE(upgraded.outcome, Opened::upgraded);
        QCOMPARE(number("SELECT y FROM a"), std::int64_t(9));
        QCOMPARE(number("PRAGMA user_version"), std::int64_t(3));
    }

    void aStepThatFailsLeavesTheFileAsItWas()
    {
        const char* const first = "CREATE TABLE a (x INTEGER)";
        openWith(m_options, {first});
        const auto failed =
            openWith(m_options, {first, "CREATE TABLE b (x INTEGER)", "INSERT INTO nowhere VALUES (1)"});
        QCOMPARE(failed.outcome, Opened::failed);
        QVERIFY(!failed.message.empty());
        QCOMPARE(number("PRAGMA user_version"), std::int64_t(1));
        QCOMPARE(number("SELECT count(*) FROM sqlite_schema WHERE name = 'b'"), std::int64_t(0));
    }

    void aStoreOfANewerRelayIsLeftAlone()
    {
        Store::open(m_options);
        sql("PRAGMA user_version = 999");
        const QByteArray before = contentOf(m_options.file);
        const auto opening = Store::open(m_options);
        QCOMPARE(opening.outcome, Opened::tooNew);
        QVERIFY(!opening.store);
        QCOMPARE(contentOf(m_options.file), before);
    }

    void somethingElsesDatabaseIsLeftAlone()
    {
        sql("CREATE TABLE recipes (name TEXT)");
        const QByteArray before = contentOf(m_options.file);
        QCOMPARE(Store::open(m_options).outcome, Opened::notOurs);
        QCOMPARE(contentOf(m_options.file), before);
        sql("PRAGMA application_id = 42; PRAGMA user_version = 1");
        QCOMPARE(Store::open(m_options).outcome, Opened::notOurs);
    }

    void aFileThatIsNoDatabaseIsLeftAlone()
    {
        const QByteArray letter = QByteArray("Dear all, the class on Thursday ").repeated(100);
        fill(m_options.file, letter);
        QCOMPARE(Store::open(m_options).outcome, Opened::notOurs);
        QCOMPARE(contentOf(m_options.file), letter);
    }

    void aDamagedStoreIsSaidToBeDamagedAndLeftAlone()
    {
        {
            auto store = Store::open(m_options).store;
            store->run([](Tables& t) -> Result<bool> {
                for (int i = 0; i < 500; ++i)
                    t.groups.add("group " + std::to_string(i), kStart);
                return true;
            });
        }
        QByteArray content = contentOf(m_options.file);
        for (qsizetype i = 4096 + 8; i < content.size(); i += 97) // all pages but the first, which holds the version
            content[i] = char(0xA5);
        fill(m_options.file, content);
        QCOMPARE(Store::open(m_options).outcome, Opened::damaged);
        QCOMPARE(contentOf(m_options.file), content);
    }

    void aSecondRelayIsRefusedUntilTheFirstHasGone()
    {
        auto first = Store::open(m_options);
        QCOMPARE(first.outcome, Opened::created);
        const auto second = Store::open(m_options);
        QCOMPARE(second.outcome, Opened::inUse);
        QVERIFY(!second.store);
        first.store.reset();
        QCOMPARE(Store::open(m_options).outcome, Opened::current);
    }

    void aCommandLineToolWorksBesideARelay()
    {
        auto relay = Store::open(m_options);
        StoreOptions beside = m_options;
        beside.hold = StoreOptions::Hold::alongside;
        auto tool = Store::open(beside);
        QCOMPARE(tool.outcome, Opened::current);
        const auto group = tool.store->run([](Tables& t) -> Result<GroupRow> { return t.groups.add("New", kStart); });
        QVERIFY(group);
        const auto seen =
            relay.store->run([&](Tables& t) -> Result<bool> { return t.groups.byCode(group->code).has_value(); });
        QCOMPARE(seen.value(), true);
    }

    void aFolderThatIsNotThereIsSaid()
    {
        m_options.file = m_options.file.parent_path() / "nowhere" / "relay.db";
        const auto opening = Store::open(m_options);
        QCOMPARE(opening.outcome, Opened::failed);
        QVERIFY(!opening.message.empty());
    }

    void theFilesAreForTheOwnerOnly()
    {
        const auto store = Store::open(m_options).store;
        for (const char* suffix : {"", "-wal", "-shm", ".lock"}) {
            struct stat about {
            };
            QCOMPARE(::stat((m_options.file.string() + suffix).c_str(), &about), 0);
            QCOMPARE(about.st_mode & 0777, mode_t(0600));
        }
    }

    void theFileIsSetUpAsPromised()
    {
        auto connection = Connection::open(m_options, schemaSteps()).connection;
        auto& statements = connection->statements();
        const auto value = [](const Query& row) { return row.text(0); };
        QCOMPARE(*statements.row(value, "PRAGMA journal_mode"), std::string("wal"));
        QCOMPARE(*statements.row(value, "PRAGMA synchronous"), std::string("2"));
        QCOMPARE(*statements.row(value, "PRAGMA foreign_keys"), std::string("1"));
        QCOMPARE(*statements.row(value, "PRAGMA secure_delete"), std::string("1"));
        QCOMPARE(*statements.row(value, "PRAGMA temp_store"), std::string("2"));
    }
};

QTEST_APPLESS_MAIN(TestOpening)
#include "test_opening.moc"
