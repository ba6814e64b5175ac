// What people write and what a helper does with it: nothing is shown unread, everything can be undone, nobody decides
// unawares, and whatever was acknowledged is there once after a restart.
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using wire::Decision;
using wire::DeskState;

class TestBoard : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        m_lea = m_relay->enrol(m_group, Role::moderator, "Lea");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_cy = m_relay->enrol(m_group, Role::participant, "Cy");
    }
    void cleanup()
    {
        for (Visitor* each : {&m_ann, &m_kim, &m_lea, &m_bo, &m_cy})
            *each = {};
        m_relay.reset();
    }

    void whatWasLetThroughCanBeTakenBackBeforeItIsSeen()
    {
        const wire::DeskItem held = written("Slugs again");
        decide(m_kim, held, Decision::show);
        const wire::DeskItem going = onDesk(m_kim, held.item, DeskState::goingUp);
        QVERIFY(going.due && *going.due - m_relay->clock.now() <= wire::kGoesUpAfter);
        decide(m_kim, going, Decision::hold);
        m_relay->clock.advance(wire::kGoesUpAfter * 2);
        const wire::DeskItem back = onDesk(m_kim, held.item, DeskState::held);
        m_kim->acked(wire::Notice{RequestId::random(), "Water, please"});
        QCOMPARE(m_cy->wait<wire::Board>().items.front().text, std::string("Water, please"));
        decide(m_kim, back, Decision::show); // and now it goes
        m_relay->clock.advance(wire::kGoesUpAfter);
        QCOMPARE(m_cy->wait<wire::Board>().items.front().text, std::string("Slugs again"));
    }

    void whatIsOnTheBoardCanBeTakenOff()
    {
        const wire::DeskItem shown = onBoard("My neighbour is a fool");
        const auto up = m_cy->wait<wire::Board>();
        decide(m_kim, shown, Decision::setAside);
        const auto off = m_cy->wait<wire::Board>();
        QCOMPARE(off.items.front().item, shown.item);
        QVERIFY(off.items.front().gone && off.items.front().text.empty());
        // Those who were away hear of it, too; those who have nothing see nothing.
        const auto since = m_relay->again(m_cy, up.items.front().change).welcome.board;
        QCOMPARE(since.size(), std::size_t{1});
        QVERIFY(since.front().gone);
        m_relay->restart();
        QVERIFY(m_relay->again(m_cy, up.items.front().change).welcome.board.front().gone);
        QVERIFY(m_relay->again(m_cy).welcome.board.empty());
    }

    void whatWasSetAsideCanBeBroughtBackForAnHour()
    {
        const wire::DeskItem held = written("Oh");
        decide(m_kim, held, Decision::setAside);
        const wire::DeskItem aside = onDesk(m_kim, held.item, DeskState::setAside);
        QCOMPARE(aside.by, std::string("Kim"));
        m_relay->restart();
        m_kim = m_relay->again(m_kim);
        const wire::DeskItem still = onDesk(m_kim, held.item, DeskState::setAside);
        decide(m_kim, still, Decision::hold);
        onDesk(m_kim, held.item, DeskState::held);
    }

    void twoHelpersDoNotActOnOneItemUnawares()
    {
        const wire::DeskItem held = written("Good morning");
        m_lea->say(wire::Claim{held.item, true});
        QCOMPARE(m_kim->wait<wire::Claimed>().by, std::string("Lea"));
        m_kim->say(wire::Claim{held.item, true}); // she reads it already: nothing changes
        decide(m_lea, held, Decision::setAside);
        const auto free = m_kim->wait<wire::Claimed>();
        QVERIFY(free.by.empty());
        const auto refused = m_kim->refused(wire::Decide{RequestId::random(), held.item, held.change, Decision::show});
        QCOMPARE(refused.code, std::string("item-changed"));
        QCOMPARE(refused.message, std::string("Lea has set it aside."));
    }

    void aClaimEndsWithItsLine()
    {
        const wire::DeskItem held = written("Good morning");
        m_lea->say(wire::Claim{held.item, true});
        m_kim->wait<wire::Claimed>([](const auto& each) { return each.by == "Lea"; });
        m_lea->drop();
        m_kim->wait<wire::Claimed>([](const auto& each) { return each.by.empty(); });
        m_kim->say(wire::Claim{held.item, true});
        m_kim->wait<wire::Claimed>([](const auto& each) { return each.by == "Kim"; });
        const Visitor lea = m_relay->again(m_lea);
        QCOMPARE(lea->wait<wire::Claimed>().by, std::string("Kim"));
    }

    void threeQuestionsAtMostAreOnTheLeadersScreen()
    {
        std::vector<wire::DeskItem> asked;
        for (const char* text : {"one?", "two?", "three?", "four?"})
            asked.push_back(written(text));
        for (int i = 0; i < 3; ++i) {
            decide(m_kim, asked[static_cast<std::size_t>(i)], Decision::forLeader);
            onDesk(m_ann, asked[static_cast<std::size_t>(i)].item, DeskState::withLeader);
        }
        QCOMPARE(
            m_kim->refused(wire::Decide{RequestId::random(), asked[3].item, asked[3].change, Decision::forLeader}).code,
            std::string("many-questions"));
        m_ann->acked(wire::TakeItem{RequestId::random(), asked[1].item});
        QCOMPARE(onDesk(m_kim, asked[1].item, DeskState::seenTo).by, std::string("Ann"));
        decide(m_kim, asked[3], Decision::forLeader);
        QCOMPARE(m_kim->refused(wire::TakeItem{RequestId::random(), asked[3].item}).code, std::string("not-allowed"));
        QCOMPARE(m_ann->refused(wire::TakeItem{RequestId::random(), asked[1].item}).code, std::string("item-unknown"));
    }

    void whatNeedsAClinicianReachesTheLeaderWhateverElseIsThere()
    {
        for (const char* text : {"one?", "two?", "three?"})
            decide(m_kim, written(text), Decision::forLeader);
        const wire::DeskItem urgent = written("I swallowed the wrong way and it still hurts");
        decide(m_kim, urgent, Decision::clinician);
        QCOMPARE(onDesk(m_ann, urgent.item, DeskState::withClinician).text, urgent.text);
        m_relay->restart();
        const Visitor ann = m_relay->again(m_ann);
        onDesk(ann, urgent.item, DeskState::withClinician);
        ann->acked(wire::TakeItem{RequestId::random(), urgent.item});
    }

    void anAnswerIsForOnePersonAlone()
    {
        const wire::DeskItem held = written("Is it the same as last Tuesday's?");
        m_kim->acked(wire::Reply{RequestId::random(), held.item, false, "Yes, the very same."});
        const auto answer = m_bo->wait<wire::Answer>();
        QCOMPARE(answer.text, std::string("Yes, the very same."));
        QCOMPARE(answer.about, held.text);
        QCOMPARE(answer.from, std::string("Kim"));
        onDesk(m_lea, held.item, DeskState::seenTo);
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::Answer>() && !m_cy->has<wire::Board>());
        m_relay->restart();
        const Visitor bo = m_relay->again(m_bo); // the line broke before they had read it
        QCOMPARE(bo.welcome.answers.size(), std::size_t{1});
        QCOMPARE(bo.welcome.answers.front().text, answer.text);
        QVERIFY(m_relay->again(m_cy).welcome.answers.empty());
    }

    void anAnswerToTheHallStandsOnTheBoard()
    {
        const wire::DeskItem held = written("When does it begin?");
        m_kim->acked(wire::Reply{RequestId::random(), held.item, true, "At ten, as always."});
        const auto board = m_cy->wait<wire::Board>();
        QCOMPARE(board.items.front().kind, wire::ItemKind::notice);
        QCOMPARE(board.items.front().text, std::string("At ten, as always."));
    }

    void whatSomebodyWroteBeforeReconnectingIsStillTheirs()
    {
        const wire::DeskItem held = written("Mine");
        const wire::DeskItem shown = onBoard("Mine, too");
        const Visitor bo = m_relay->again(m_bo);
        QCOMPARE(bo.welcome.own, (std::vector<std::uint64_t>{shown.item, held.item}));
        QVERIFY(m_relay->again(m_cy).welcome.own.empty());
        bo->acked(wire::TakeBackOwn{RequestId::random(), shown.item});
        QVERIFY(bo->wait<wire::Board>([](const auto& each) { return each.items.front().gone; }).items.front().item ==
                shown.item);
        const Visitor cy = m_relay->again(m_cy);
        QCOMPARE(cy->refused(wire::TakeBackOwn{RequestId::random(), held.item}).code, std::string("item-unknown"));
        // Nobody else brings it back, though it is among what a helper could undo.
        const wire::DeskItem gone = onDesk(m_kim, shown.item, DeskState::setAside);
        QCOMPARE(m_kim->refused(wire::Decide{RequestId::random(), gone.item, gone.change, Decision::show}).code,
                 std::string("item-unknown"));
    }

    void theAuthorHearsHowTheirLineStandsAndNotWhoPutItThere()
    {
        const wire::DeskItem held = written("May we do the second one again?");
        const Visitor bo = m_relay->again(m_bo); // somebody who has come in anew has no text of it
        const auto after = bo->wait<wire::OwnNow>().lines;
        QCOMPARE(after.size(), std::size_t{1});
        QCOMPARE(after.front().item, held.item);
        QCOMPARE(after.front().text, held.text);
        QVERIFY(after.front().state == wire::OwnState::toRead);
        decide(m_kim, held, Decision::forLeader);
        QVERIFY(bo->wait<wire::OwnNow>().lines.front().state == wire::OwnState::withLeader);
        decide(m_kim, onDesk(m_kim, held.item, DeskState::withLeader), Decision::setAside);
        QVERIFY(bo->wait<wire::OwnNow>().lines.front().state == wire::OwnState::read);
        bo->say(wire::Write{RequestId::random(), "And this"});
        const wire::DeskItem other = m_kim
                                         ->wait<wire::OnDesk>([](const auto& each) {
                                             return !each.items.empty() && each.items.front().text == "And this";
                                         })
                                         .items.front();
        bo->acked(wire::TakeBackOwn{RequestId::random(), other.item});
        QVERIFY(bo->wait<wire::OwnNow>().lines.front().state == wire::OwnState::gone);
        const Visitor again = m_relay->again(bo); // of what they took back nothing is said any more
        const auto left = again->wait<wire::OwnNow>().lines;
        QCOMPARE(left.size(), std::size_t{1});
        QCOMPARE(left.front().item, held.item);
    }

    void whoeverWasAwayForLongGetsTheNewestOfTheBoard()
    {
        const std::uint64_t first = notice("the first");
        const std::uint64_t since = m_cy->wait<wire::Board>().items.front().change;
        m_cy->drop();
        m_ann->acked(wire::OpenBoard{RequestId::random(), true});
        for (int i = 0; i < 30; ++i) { // as many as take part in the limit on either side
            const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), "gone again"});
            decide(m_kim, onDesk(m_kim, *ack.item, DeskState::shown), Decision::setAside);
        }
        std::uint64_t last = first;
        for (int i = 0; i < 30; ++i)
            last = notice("stays " + std::to_string(i));
        const auto board = m_relay->again(m_cy, since).welcome.board;
        QCOMPARE(board.size(), wire::kBoardTail);
        QCOMPARE(board.back().item, last);
        QVERIFY(std::is_sorted(board.begin(), board.end(),
                               [](const auto& one, const auto& other) { return one.change < other.change; }));
    }

    void anOpenBoardShowsAtOnceAndTheDeskCanStillTakeOff()
    {
        QCOMPARE(m_kim->refused(wire::OpenBoard{RequestId::random(), true}).code, std::string("not-allowed"));
        m_ann->acked(wire::OpenBoard{RequestId::random(), true});
        QVERIFY(m_kim->wait<wire::DeskNow>([](const auto& each) { return each.boardOpen; }).boardOpen);
        const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), "At once"});
        QCOMPARE(m_cy->wait<wire::Board>().items.front().text, std::string("At once"));
        const wire::DeskItem shown = onDesk(m_kim, *ack.item, DeskState::shown);
        decide(m_kim, shown, Decision::setAside);
        QVERIFY(m_cy->wait<wire::Board>().items.front().gone);
        m_relay->restart();
        QVERIFY(m_relay->again(m_kim)->wait<wire::DeskNow>().boardOpen);
    }

    void somebodyCanBeAskedForQuietForAWhile()
    {
        m_kim->acked(rest(wire::Rest::tenMinutes));
        QVERIFY(m_bo->wait<wire::MayWrite>().restsUntil);
        QCOMPARE(m_bo->refused(wire::Write{RequestId::random(), "But"}).code, std::string("quiet"));
        QCOMPARE(
            m_lea->wait<wire::DeskNow>([](const auto& each) { return !each.resting.empty(); }).resting.front().name,
            std::string("Bo"));
        m_cy->acked(wire::Write{RequestId::random(), "Others write on"});
        m_bo->acked(wire::HelpCall{RequestId::random()}); // and call for help, of course
        m_relay->restart();
        const Visitor bo = m_relay->again(m_bo);
        QVERIFY(bo.welcome.writing && bo.welcome.writing->restsUntil);
        m_relay->clock.advance(wire::kQuietFor + Millis{1});
        bo->acked(wire::Write{RequestId::random(), "Thank you"});
    }

    void quietForTheClassEndsWithIt()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        m_kim->acked(rest(wire::Rest::theClass));
        QVERIFY(m_bo->wait<wire::MayWrite>().restsUntil);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        press(*m_ann.line, CommandKind::end, opened.lease, *started.serial);
        QVERIFY(!m_bo->wait<wire::MayWrite>().restsUntil);
        m_bo->acked(wire::Write{RequestId::random(), "Good bye"});
    }

    void somebodyWhoIsOutStaysOutForTheClassAndIsToldWhy()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        QCOMPARE(m_kim->refused(rest(wire::Rest::out)).code, std::string("reason-empty"));
        wire::SetRest out = rest(wire::Rest::out);
        out.reason = "Please ring Kim, 555 0123.";
        m_kim->acked(out);
        const auto told = m_bo->wait<wire::Refused>();
        QCOMPARE(told.code, std::string("out"));
        QCOMPARE(told.message, out.reason);
        const auto closing = m_bo->waitClosed();
        QCOMPARE(closing.code, hall::kCloseTurnedAway);
        QCOMPARE(closing.reason, out.reason);
        auto line = m_relay->connect();
        line->hello();
        line->login(m_group, m_bo.keys, Role::participant);
        QCOMPARE(line->waitClosed().code, hall::kCloseTurnedAway);
        m_kim->acked(rest(wire::Rest::none)); // undone
        m_relay->again(m_bo);
        m_kim->acked(out);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        press(*m_ann.line, CommandKind::end, opened.lease, *started.serial);
        m_relay->again(m_bo);
    }

    void thoseWhoLeadOrHelpAreNotAskedToRest()
    {
        QCOMPARE(
            m_kim->refused(wire::SetRest{RequestId::random(), m_ann.welcome.person, wire::Rest::tenMinutes, {}}).code,
            std::string("not-them"));
        QCOMPARE(
            m_kim->refused(wire::SetRest{RequestId::random(), PersonId::random(), wire::Rest::tenMinutes, {}}).code,
            std::string("person-unknown"));
    }

    void whatWasDoneAtTheDeskIsKept()
    {
        decide(m_kim, written("Oh"), Decision::setAside);
        m_kim->acked(rest(wire::Rest::tenMinutes));
        m_ann->say(wire::ActsAsk{});
        const auto acts = m_ann->wait<wire::Acts>().acts;
        QCOMPARE(acts.size(), std::size_t{2});
        QCOMPARE(acts[0].what, std::string("line-set-aside"));
        QCOMPARE(acts[0].who, std::string("Kim"));
        QCOMPARE(acts[0].whom, std::string("Bo"));
        QCOMPARE(acts[0].detail, std::string("Oh"));
        QCOMPARE(acts[1].what, std::string("quiet-for-a-while"));
    }

    void whatWasLetThroughBeforeARestartIsShownOnceAfterwards()
    {
        const wire::DeskItem held = written("Good evening");
        decide(m_kim, held, Decision::show);
        m_relay->stop();
        m_relay->clock.advance(wire::kGoesUpAfter);
        m_relay->start();
        const Visitor kim = m_relay->again(m_kim);
        const Visitor cy = m_relay->again(m_cy);
        if (cy.welcome.board.empty())
            QCOMPARE(cy->wait<wire::Board>().items.front().item, held.item);
        else
            QCOMPARE(cy.welcome.board.front().item, held.item);
        QCOMPARE(m_relay->again(m_cy).welcome.board.size(), std::size_t{1});
    }

    void tooLongIsRefusedInWordsNotWithAClosedLine()
    {
        const auto refused = m_bo->refused(wire::Write{RequestId::random(), std::string(501, 'a')});
        QCOMPARE(refused.code, std::string("text-too-long"));
        m_bo->acked(wire::Write{RequestId::random(), std::string(500, 'a')});
    }

    void aNameThatLooksLikeAMembersIsMarkedAtTheDoor()
    {
        auto other = m_relay->connect();
        other->hello();
        other->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "B\u043E"); // a Cyrillic o
        const auto door = m_kim->wait<wire::Door>([](const auto& each) { return !each.waiting.empty(); });
        QCOMPARE(door.waiting.front().like, std::string("Bo"));
        auto third = m_relay->connect();
        third->hello();
        third->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Zoe");
        QVERIFY(m_kim->wait<wire::Door>([](const auto& each) { return each.waiting.size() == 2; })
                    .waiting.back()
                    .like.empty());
    }

private:
    wire::DeskItem written(const std::string& text)
    {
        const wire::Ack ack = m_bo->acked(wire::Write{RequestId::random(), text});
        return onDesk(m_kim, *ack.item, DeskState::held);
    }
    std::uint64_t notice(const std::string& text)
    {
        return *m_kim->acked(wire::Notice{RequestId::random(), text}).item;
    }
    wire::DeskItem onBoard(const std::string& text)
    {
        const wire::DeskItem held = written(text);
        decide(m_kim, held, Decision::show);
        onDesk(m_kim, held.item, DeskState::goingUp);
        m_relay->clock.advance(wire::kGoesUpAfter);
        return onDesk(m_kim, held.item, DeskState::shown);
    }
    wire::SetRest rest(wire::Rest rest) { return {RequestId::random(), m_bo.welcome.person, rest, {}}; }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_kim;
    Visitor m_lea;
    Visitor m_bo;
    Visitor m_cy;
};

QTEST_GUILESS_MAIN(TestBoard)
#include "test_board.moc"
