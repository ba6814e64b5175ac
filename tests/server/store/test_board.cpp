#include "tests/server/store/store_fixture.h"

using namespace vh;
using namespace vh::store;

class TestBoard : public QObject
{
    Q_OBJECT

    std::unique_ptr<StoreFixture> m_f;
    GroupId m_group;
    PersonId m_ada;
    PersonId m_helper;

    BoardRow add(const std::string& text, BoardState state = BoardState::held)
    {
        BoardRow item;
        item.group = m_group;
        item.author = m_ada;
        item.state = state;
        item.text = text;
        item.at = kStart;
        return m_f->must([&](Tables& t) { return t.board.add(item); });
    }
    BoardRow decide(std::int64_t id, BoardState state)
    {
        return m_f->must([&](Tables& t) { return t.board.decide(id, state, m_helper, kStart).value(); });
    }
    std::vector<BoardRow> changesSince(std::int64_t change)
    {
        return m_f->must([&](Tables& t) { return t.board.changesSince(m_group, change, 100); });
    }

private slots:
    void init()
    {
        m_f = std::make_unique<StoreFixture>();
        m_group = m_f->group().id;
        m_ada = m_f->person(m_group).id;
        m_helper = m_f->person(m_group, "Hal", Role::helper).id;
    }

    void whatIsHeldIsSeenByNobodyUntilItIsLetThrough()
    {
        const auto item = add("hello");
        QVERIFY(changesSince(0).empty());
        QCOMPARE(m_f->must([&](Tables& t) { return t.board.held(m_group); }).size(), std::size_t(1));
        const auto shown = decide(item.id, BoardState::shown);
        QVERIFY(shown.decidedBy == m_helper && shown.decidedAt == kStart);
        QVERIFY(m_f->must([&](Tables& t) { return t.board.held(m_group); }).empty());
        QCOMPARE(changesSince(0).size(), std::size_t(1));
    }

    void anItemLetThroughLateIsNotMissed()
    {
        const auto early = add("first written, last let through");
        const auto late = add("second");
        const auto seen = decide(late.id, BoardState::shown).change;
        decide(early.id, BoardState::shown);
        const auto changes = changesSince(seen);
        QCOMPARE(changes.size(), std::size_t(1));
        QCOMPARE(changes.front().id, early.id);
    }

    void takingBackReachesThoseWhoSawItAndOnlyThem()
    {
        const auto item = add("oops", BoardState::shown);
        const auto never = add("never shown");
        decide(item.id, BoardState::setAside);
        decide(never.id, BoardState::setAside);
        const auto changes = changesSince(item.change);
        QCOMPARE(changes.size(), std::size_t(1));
        QCOMPARE(changes.front().id, item.id);
        QCOMPARE(changes.front().state, BoardState::setAside);
        QVERIFY(m_f->must([&](Tables& t) { return t.board.newestShown(m_group, 10); }).empty());
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.board.decide(999, BoardState::shown, m_helper, kStart); }),
                 std::string("item-unknown"));
    }

    void idsAndChangesAreNeverUsedTwice()
    {
        const auto last = add("mine", BoardState::shown);
        m_f->must([&](Tables& t) { return t.people.erase(m_ada).has_value(); });
        m_ada = m_f->person(m_group).id;
        const auto next = add("next", BoardState::shown);
        QVERIFY(next.id > last.id);
        QVERIFY(next.change > last.change);
    }

    void theNewestShownComeOldestFirst()
    {
        for (const char* text : {"a", "b", "c"})
            add(text, BoardState::shown);
        const auto newest = m_f->must([&](Tables& t) { return t.board.newestShown(m_group, 2); });
        QCOMPARE(newest.size(), std::size_t(2));
        QCOMPARE(newest[0].text, std::string("b"));
        QCOMPARE(newest[1].text, std::string("c"));
    }

    void theNewestIsWhatWasShownLastNotWhatWasWrittenLast()
    {
        const BoardRow early = add("early", BoardState::held);
        add("b", BoardState::shown);
        add("c", BoardState::shown);
        m_f->must([&](Tables& t) { return t.board.decide(early.id, BoardState::shown, {}, kStart).value(); });
        const auto newest = m_f->must([&](Tables& t) { return t.board.newestShown(m_group, 2); });
        QCOMPARE(newest[0].text, std::string("c"));
        QCOMPARE(newest[1].text, std::string("early"));
    }

    void aCallWaitsUntilItIsSeenTo()
    {
        CallRow call;
        call.group = m_group;
        call.person = m_ada;
        call.at = kStart;
        const auto id = m_f->must([&](Tables& t) { return t.calls.add(call).id; });
        const auto take = [&](PersonId by) {
            return [=, group = m_group](Tables& t) { return t.calls.take(group, id, by, kStart); };
        };
        const auto done = [&](Tables& t) { return t.calls.done(m_group, id, "rang her", kStart); };
        const auto open = [&](Tables& t) { return t.calls.notDone(m_group); };
        const auto other = m_f->person(m_group, "Hugo", Role::helper).id;
        // To those of another group there is no such call, and they change nothing of it.
        const auto elsewhere = GroupId::random();
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.calls.take(elsewhere, id, other, kStart); }),
                 std::string("call-unknown"));
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.calls.done(elsewhere, id, "", kStart); }),
                 std::string("call-unknown"));
        QVERIFY(!m_f->must(open).front().takenBy);
        QCOMPARE(m_f->refusal(take(m_helper)), std::string());
        QCOMPARE(m_f->refusal(take(m_helper)), std::string());
        QCOMPARE(m_f->refusal(take(other)), std::string("call-taken"));
        QCOMPARE(m_f->must(open).size(), std::size_t(1));
        QVERIFY(m_f->must(open).front().takenBy == m_helper);
        QCOMPARE(m_f->must([&](Tables& t) { return done(t)->outcome; }), std::string("rang her"));
        QVERIFY(m_f->must(open).empty());
        QCOMPARE(m_f->refusal(done), std::string("call-done"));
        QCOMPARE(m_f->refusal(take(other)), std::string("call-done"));
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.calls.take(m_group, 99, other, kStart); }),
                 std::string("call-unknown"));
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.calls.done(m_group, 99, "", kStart); }),
                 std::string("call-unknown"));
    }

    void theLogSaysWhoDidWhatAndWhatWasUndone()
    {
        LogRow row{0, m_group, m_helper, "let-in", m_ada, "", kStart, std::nullopt};
        const auto first = m_f->must([&](Tables& t) { return t.log.add(row); });
        QVERIFY(!m_f->must([&](Tables& t) { return t.log.isUndone(first.id); }));
        row.what = "let-in-undone";
        row.at = kStart + kDay;
        row.undoes = first.id;
        m_f->must([&](Tables& t) { return t.log.add(row); });
        QVERIFY(m_f->must([&](Tables& t) { return t.log.isUndone(first.id); }));
        QCOMPARE(m_f->must([&](Tables& t) { return t.log.ofGroup(m_group, kStart); }).size(), std::size_t(2));
        QCOMPARE(m_f->must([&](Tables& t) { return t.log.ofGroup(m_group, kStart + kDay); }).front().what,
                 std::string("let-in-undone"));
    }
};

QTEST_APPLESS_MAIN(TestBoard)
#include "test_board.moc"
