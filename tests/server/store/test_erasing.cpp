// What goes, goes: from the tables, from the file and from its write-ahead log, before anybody is told that it went.
#include "tests/server/store/store_fixture.h"

#include <QFile>
#include <SQLiteCpp/SQLiteCpp.h>

using namespace vh;
using namespace vh::store;

namespace
{

const QByteArray kSecret = "plum-coloured umbrella";

/// In the database or its log, as it lies on the disk now.
bool isOnDisk(const StoreFixture& fixture, const QByteArray& text)
{
    for (const char* suffix : {"", "-wal"}) {
        QFile file(QString::fromStdString(fixture.options.file.string() + suffix));
        if (file.open(QIODevice::ReadOnly) && file.readAll().contains(text))
            return true;
    }
    return false;
}

} // namespace

class TestErasing : public QObject
{
    Q_OBJECT

    std::unique_ptr<StoreFixture> m_f;
    GroupId m_group;
    PersonId m_leader;
    PersonId m_ada;
    ClassId m_class;

    /// Something of Ada's in every table that can hold something of hers.
    void adaLeavesTraces(const std::string& text)
    {
        m_f->must([&](Tables& t) {
            (void)t.people.rename(m_ada, text);
            (void)t.devices.bind(m_ada, someKey(1), text, kStart);
            (void)t.agreements.add({m_ada, AgreementKind::resultsKept, "yes", 1, std::nullopt, kStart});
            t.people.setBand({m_ada, 1, m_leader, kStart});
            t.people.setContact({m_ada, text, text, kStart});
            t.classes.arrived({m_class, m_ada, text, kStart, std::nullopt, false});
            t.results.put({m_ada, m_class, 1, "phrases", Millis{1}, 1, text, text, 1, kStart});
            BoardRow item;
            item.group = m_group;
            item.author = m_ada;
            item.text = text;
            item.at = kStart;
            t.board.add(item);
            CallRow call;
            call.group = m_group;
            call.person = m_ada;
            call.at = kStart;
            (void)t.calls.done(m_group, t.calls.add(call).id, text, kStart);
            t.log.add({0, m_group, m_leader, "let-in", m_ada, text, kStart, std::nullopt});
            (void)t.once(m_ada, RequestId::random(), sha256("x"), kStart,
                         [&]() -> Result<std::string> { return text; });
            (void)t.links.make(m_group, Role::helper, m_ada, kStart, m_ada);
            return true;
        });
    }
    std::string leftOf(PersonId person) const
    {
        SQLite::Database raw(m_f->options.file.string(), SQLite::OPEN_READONLY, 1000);
        SQLite::Statement columns(raw, "SELECT m.name, c.name FROM sqlite_schema m JOIN pragma_table_info(m.name) c"
                                       " WHERE m.type = 'table' AND c.type = 'BLOB'");
        while (columns.executeStep()) {
            const std::string table = columns.getColumn(0).getString();
            const std::string column = columns.getColumn(1).getString();
            SQLite::Statement rows(raw, "SELECT count(*) FROM " + table + " WHERE " + column + " = ?");
            rows.bind(1, person.bits.bytes.data(), 16);
            rows.executeStep();
            if (rows.getColumn(0).getInt() > 0)
                return table + "." + column;
        }
        return {};
    }

private slots:
    void init()
    {
        m_f = std::make_unique<StoreFixture>();
        m_group = m_f->group().id;
        m_leader = m_f->person(m_group, "Lea", Role::leader).id;
        m_ada = m_f->person(m_group).id;
        m_class = m_f->openClass(m_group, m_leader).id;
    }

    void anErasedPersonIsNowhereInTheTablesNorInTheBytes()
    {
        adaLeavesTraces(kSecret.toStdString());
        QVERIFY(isOnDisk(*m_f, kSecret)); // else the next look would prove nothing
        QVERIFY(!leftOf(m_ada).empty());
        m_f->must([&](Tables& t) { return t.people.erase(m_ada).has_value(); });
        QVERIFY(!isOnDisk(*m_f, kSecret));
        QCOMPARE(leftOf(m_ada), std::string());
        QVERIFY(!isOnDisk(*m_f, QByteArray(reinterpret_cast<const char*>(m_ada.bits.bytes.data()), 16)));
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.people.erase(m_ada); }), std::string("person-unknown"));
    }

    void whatALeaderDidForOthersStaysWithoutTheName()
    {
        adaLeavesTraces("x");
        m_f->must([&](Tables& t) { return t.people.erase(m_leader).has_value(); });
        QCOMPARE(leftOf(m_leader), std::string());
        QVERIFY(m_f->must([&](Tables& t) { return t.classes.byId(m_class)->leader.isNull(); }));
        QVERIFY(!m_f->must([&](Tables& t) { return t.log.ofGroup(m_group, kStart).front().who.has_value(); }));
        QCOMPARE(m_f->must([&](Tables& t) { return t.classes.attendance(m_class); }).size(), std::size_t(1));
    }

    void withdrawnResultsLeaveTheBytesToo()
    {
        const auto text = kSecret.toStdString();
        m_f->must([&](Tables& t) {
            t.results.put({m_ada, m_class, 1, "phrases", Millis{1}, 1, "inBand", text, 1, kStart});
            return true;
        });
        QVERIFY(isOnDisk(*m_f, kSecret));
        m_f->must([&](Tables& t) {
            t.results.eraseOf(m_ada);
            return true;
        });
        QVERIFY(!isOnDisk(*m_f, kSecret));
    }

    void anErasureThatABackupHeldUpIsFinishedAfterwards()
    {
        adaLeavesTraces(kSecret.toStdString());
        m_f->options.busyTimeout = Millis{1};
        m_f->reopen();
        {
            SQLite::Database backup(m_f->options.file.string(), SQLite::OPEN_READONLY, 1000);
            SQLite::Transaction reading(backup);
            QCOMPARE(backup.execAndGet("SELECT count(*) FROM people").getInt(), 2);
            m_f->must([&](Tables& t) { return t.people.erase(m_ada).has_value(); });
            QVERIFY(isOnDisk(*m_f, kSecret)); // the reader still needs it
        }
        m_f->must([](Tables&) { return true; });
        QVERIFY(!isOnDisk(*m_f, kSecret));
    }

    void theSweepTakesWhatIsOlderThanItsGroupKeeps()
    {
        adaLeavesTraces("x");
        m_f->must([&](Tables& t) {
            (void)t.classes.end(m_class, kStart);
            t.classes.putPart("picture", Bytes{1, 2}, kStart); // never used
            return t.groups.setRetention(m_group, {10, 20, 30, 40}).has_value();
        });
        struct Left {
            std::size_t board, results, attendance, log;
            bool theClass, script;
            bool operator==(const Left&) const = default;
        };
        const auto after = [&](int days) {
            return m_f->must([&](Tables& t) {
                t.sweep(kStart + days * kDay + Millis{1});
                return Left{t.board.held(m_group).size(),         t.results.ofPerson(m_ada).size(),
                            t.classes.attendance(m_class).size(), t.log.ofGroup(m_group, kStart).size(),
                            t.classes.byId(m_class).has_value(),  t.classes.part(sha256(Bytes{'s'})).has_value()};
            });
        };
        const auto has = [&](Bytes bytes) {
            return m_f->must([&](Tables& t) { return t.classes.part(sha256(bytes)).has_value(); });
        };
        QVERIFY(has({1, 2}));
        QVERIFY((after(9) == Left{1, 1, 1, 1, true, true}));
        QVERIFY(!has({1, 2}));
        QVERIFY((after(10) == Left{0, 1, 1, 1, true, true}));
        QVERIFY((after(20) == Left{0, 0, 1, 1, true, true}));
        QVERIFY((after(30) == Left{0, 0, 0, 1, false, false}));
        QVERIFY((after(40) == Left{0, 0, 0, 0, false, false}));
        QVERIFY(m_f->must([&](Tables& t) { return t.people.byId(m_ada).has_value(); }));
    }

    void theSweepForgetsOldAnswersDeadLinksAndPeopleWhoLeft()
    {
        const auto token = m_f->must([&](Tables& t) { return t.links.make(m_group, Role::helper, {}, kStart); });
        const auto request = RequestId::random();
        int done = 0;
        const auto ask = [&](Tables& t) -> Result<OnceAnswer> {
            return t.once(m_ada, request, sha256("x"), kStart, [&]() -> Result<std::string> {
                ++done;
                return "";
            });
        };
        const auto sweepAt = [&](int days) {
            m_f->must([&](Tables& t) { return t.sweep(kStart + days * kDay + Millis{1}); });
        };
        const auto redeem = [&](Tables& t) { return t.links.redeem(token, "R", someKey(3), "", kStart + 50 * kDay); };
        m_f->must([&](Tables& t) { return ask(t).has_value(); });
        m_f->must([&](Tables& t) { return t.people.remove(m_ada, kStart).has_value(); });
        sweepAt(6);
        m_f->must([&](Tables& t) { return ask(t).has_value(); });
        QCOMPARE(done, 1);
        sweepAt(7);
        m_f->must([&](Tables& t) { return ask(t).has_value(); });
        QCOMPARE(done, 2);
        sweepAt(29);
        QVERIFY(m_f->must([&](Tables& t) { return t.people.byId(m_ada).has_value(); }));
        sweepAt(30);
        QVERIFY(!m_f->must([&](Tables& t) { return t.people.byId(m_ada).has_value(); }));
        QCOMPARE(m_f->refusal(redeem), std::string("link-expired"));
        sweepAt(37);
        QCOMPARE(m_f->refusal(redeem), std::string("link-unknown"));
    }
};

QTEST_APPLESS_MAIN(TestErasing)
#include "test_erasing.moc"
