// Who may come in, by which way, and who may not.
#include "common/base/join_code.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

class TestEntering : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
    }
    void cleanup() { m_relay.reset(); }

    void helloIsAnsweredWithAFreshNonceAndTheVersion()
    {
        const auto one = m_relay->connect();
        const auto two = m_relay->connect();
        const wire::Challenge first = one->hello();
        QCOMPARE(first.version, 1U);
        QVERIFY(first.nonce != two->hello().nonce);
    }

    void aVersionThatIsNotSpokenHereClosesWithAReason()
    {
        const auto line = m_relay->connect();
        wire::Hello hello;
        hello.min = hello.max = 2;
        line->say(hello);
        const Closing closing = line->waitClosed();
        QCOMPARE(closing.code, wire::CloseCode::policy);
        QVERIFY(!closing.reason.empty());
    }

    void aKnownDeviceWalksIn()
    {
        const Visitor first = m_relay->enrol(m_group, Role::leader, "Ann");
        const Visitor back = m_relay->again(first);
        QVERIFY(back.welcome.person == first.welcome.person);
        QCOMPARE(back.welcome.role, Role::leader);
        QCOMPARE(back.welcome.name, std::string("Ann"));
        QCOMPARE(back.welcome.groupName, std::string("Tuesday voices"));
        QCOMPARE(back.welcome.code, m_relay->codeOf(m_group));
    }

    void aParticipantIsNotToldTheCode()
    {
        QVERIFY(m_relay->enrol(m_group, Role::participant, "Bo").welcome.code.empty());
    }

    void aRoleThatThePersonDoesNotHaveIsNotKnown()
    {
        const Visitor person = m_relay->enrol(m_group, Role::participant, "Bo");
        const auto line = m_relay->connect();
        line->hello();
        line->login(m_group, person.keys, Role::leader);
        QCOMPARE(line->wait<wire::Refused>().code, std::string("not-known"));
        QCOMPARE(line->waitClosed().code, hall::kCloseNotKnown);
    }

    void anUnknownDeviceIsNotKnown()
    {
        const auto line = m_relay->connect();
        line->hello();
        line->login(m_group, wire::makeKeyPair(), Role::participant);
        QCOMPARE(line->waitClosed().code, hall::kCloseNotKnown);
        const auto elsewhere = m_relay->connect();
        elsewhere->hello();
        elsewhere->login(GroupId::random(), wire::makeKeyPair(), Role::participant);
        QCOMPARE(elsewhere->waitClosed().code, hall::kCloseNotKnown);
    }

    void aSignatureOfAnotherNonceIsRefused()
    {
        const Visitor person = m_relay->enrol(m_group, Role::participant, "Bo");
        const auto line = m_relay->connect();
        const wire::Challenge challenge = line->hello();
        wire::Login login;
        login.group = m_group;
        login.key = person.keys.publicKey;
        wire::Bytes<32> other = challenge.nonce;
        other[0] ^= 1;
        login.signature =
            sign(person.keys, wire::loginText(wire::Purpose::login, m_group.hex(), other, Role::participant));
        line->say(login);
        QCOMPARE(line->wait<wire::Refused>().code, std::string("signature"));
        QCOMPARE(line->waitClosed().code, hall::kCloseNotKnown);
    }

    void aLinkEnrolsOnceAndNeverAgain()
    {
        const wire::Token token = m_relay->link(m_group, Role::moderator);
        const auto first = m_relay->connect();
        first->hello();
        first->redeem(token, wire::makeKeyPair(), "Kim");
        QCOMPARE(first->wait<wire::Welcome>().role, Role::moderator);
        const auto second = m_relay->connect();
        second->hello();
        second->redeem(token, wire::makeKeyPair(), "Kim");
        QCOMPARE(second->wait<wire::Refused>().code, std::string("link-used"));
        QCOMPARE(second->waitClosed().code, hall::kCloseNotKnown);
    }

    void aNameIsAskedForOfWhoeverIsNew()
    {
        const auto byLink = m_relay->connect();
        byLink->hello();
        byLink->redeem(m_relay->link(m_group, Role::participant), wire::makeKeyPair(), " \u202e ");
        QCOMPARE(byLink->wait<wire::Refused>().code, std::string("name-empty"));
        QCOMPARE(byLink->waitClosed().code, hall::kCloseNotKnown);
        const auto byCode = m_relay->connect();
        byCode->hello();
        byCode->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "");
        QCOMPARE(byCode->wait<wire::Refused>().code, std::string("name-empty"));
        QCOMPARE(byCode->waitClosed().code, hall::kCloseNotKnown);
    }

    void whoeverKnocksWaitsAndIsLetInByAHelper()
    {
        const Visitor helper = m_relay->enrol(m_group, Role::moderator, "Kim");
        const wire::KeyPair keys = wire::makeKeyPair();
        const auto stranger = m_relay->connect();
        stranger->hello();
        stranger->knock(spacedCode(m_relay->codeOf(m_group)), keys, "Bo");
        const wire::AtDoor atDoor = stranger->wait<wire::AtDoor>();
        QVERIFY(atDoor.group == m_group);
        QVERIFY(atDoor.words.empty()); // no key of the relay's own here
        const auto door = helper->wait<wire::Door>([](const wire::Door& each) { return each.waiting.size() == 1; });
        QCOMPARE(door.waiting.front().name, std::string("Bo"));
        QCOMPARE(door.waiting.front().device, std::string("tablet"));

        const wire::LetIn letIn{RequestId::random(), door.waiting.front().door, {}};
        helper->acked(letIn);
        const wire::Welcome welcome = stranger->wait<wire::Welcome>();
        QCOMPARE(welcome.name, std::string("Bo"));
        QCOMPARE(welcome.role, Role::participant);
        helper->wait<wire::Door>([](const wire::Door& each) { return each.waiting.empty(); });
        // Asked again because the answer was lost: the same answer, nobody is added.
        helper->acked(letIn);
        m_relay->again({nullptr, keys, welcome});
    }

    void whoeverIsTurnedAwayIsToldSo()
    {
        const Visitor helper = m_relay->enrol(m_group, Role::moderator, "Kim");
        const auto stranger = m_relay->connect();
        stranger->hello();
        stranger->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Bo");
        const auto door = helper->wait<wire::Door>([](const wire::Door& each) { return !each.waiting.empty(); });
        helper->acked(wire::TurnAway{RequestId::random(), door.waiting.front().door});
        QCOMPARE(stranger->waitClosed().code, hall::kCloseTurnedAway);
        helper->wait<wire::Door>([](const wire::Door& each) { return each.waiting.empty(); });
        QCOMPARE(helper->refused(wire::LetIn{RequestId::random(), door.waiting.front().door, {}}).code,
                 std::string("door-empty"));
    }

    void whoeverLeavesTheDoorIsGoneFromIt()
    {
        const Visitor helper = m_relay->enrol(m_group, Role::moderator, "Kim");
        const auto stranger = m_relay->connect();
        stranger->hello();
        stranger->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Bo");
        helper->wait<wire::Door>([](const wire::Door& each) { return !each.waiting.empty(); });
        stranger->drop();
        helper->wait<wire::Door>([](const wire::Door& each) { return each.waiting.empty(); });
    }

    void aLineThatDoesNotComeInIsClosed()
    {
        TestRelay relay(2, Millis{300});
        const GroupId group = relay.addGroup("Tuesday voices");
        const Visitor bo = relay.enrol(group, Role::participant, "Bo");
        const auto waiting = relay.connect();
        waiting->hello();
        waiting->knock(relay.codeOf(group), wire::makeKeyPair(), "Cy");
        waiting->wait<wire::AtDoor>();
        const auto silent = relay.connect();
        QCOMPARE(silent->waitClosed().code, wire::CloseCode::policy);
        const auto greeted = relay.connect();
        greeted->hello();
        QCOMPARE(greeted->waitClosed().code, wire::CloseCode::policy);
        bo->sync(); // who is in stays
        waiting->sync();
    }

    void theSameDeviceStandsAtTheDoorOnce()
    {
        const Visitor helper = m_relay->enrol(m_group, Role::moderator, "Kim");
        const wire::KeyPair keys = wire::makeKeyPair();
        const auto first = m_relay->connect();
        first->hello();
        first->knock(m_relay->codeOf(m_group), keys, "Bo");
        first->wait<wire::AtDoor>();
        const auto second = m_relay->connect();
        second->hello();
        second->knock(m_relay->codeOf(m_group), keys, "Bo");
        second->wait<wire::AtDoor>();
        QCOMPARE(first->waitClosed().code, hall::kCloseAnotherDevice);
        const Visitor late = m_relay->enrol(m_group, Role::moderator, "Lu");
        QCOMPARE(late->wait<wire::Door>().waiting.size(), std::size_t{1});
    }

    void ofTwoDevicesTheNewestIsLive()
    {
        const Visitor first = m_relay->enrol(m_group, Role::participant, "Bo");
        const wire::Ack link = first->acked(wire::SecondDevice{RequestId::random()});
        const auto other = m_relay->connect();
        other->hello();
        other->redeem(link.token.value(), wire::makeKeyPair(), "whatever");
        const wire::Welcome welcome = other->wait<wire::Welcome>();
        QVERIFY(welcome.person == first.welcome.person);
        QCOMPARE(welcome.name, std::string("Bo"));
        QCOMPARE(welcome.seat, first.welcome.seat);
        QCOMPARE(first->waitClosed().code, hall::kCloseAnotherDevice);
        other->say(wire::DevicesAsk{});
        QCOMPARE(other->wait<wire::Devices>().devices.size(), std::size_t{2});
    }

    void aSecondDeviceLinkIsGoodForTenMinutes()
    {
        const Visitor first = m_relay->enrol(m_group, Role::participant, "Bo");
        const wire::Ack link = first->acked(wire::SecondDevice{RequestId::random()});
        m_relay->clock.advance(std::chrono::minutes{10});
        const auto other = m_relay->connect();
        other->hello();
        other->redeem(link.token.value(), wire::makeKeyPair(), "Bo");
        QCOMPARE(other->wait<wire::Refused>().code, std::string("link-expired"));
    }

    void revokingClosesTheLineAtOnceAndForGood()
    {
        const Visitor first = m_relay->enrol(m_group, Role::participant, "Bo");
        const wire::KeyPair second = wire::makeKeyPair();
        const auto other = m_relay->connect();
        other->hello();
        other->redeem(first->acked(wire::SecondDevice{RequestId::random()}).token.value(), second, "Bo");
        other->wait<wire::Welcome>();
        other->acked(wire::RevokeDevice{RequestId::random(), first.keys.publicKey});
        const auto back = m_relay->connect();
        back->hello();
        back->login(m_group, first.keys, Role::participant);
        QCOMPARE(back->waitClosed().code, hall::kCloseNotKnown);

        other->say(wire::RevokeDevice{RequestId::random(), second.publicKey}); // the one in use
        QCOMPARE(other->waitClosed().code, hall::kCloseRevoked);
    }

    void nobodyRevokesTheDeviceOfSomebodyElse()
    {
        const Visitor bo = m_relay->enrol(m_group, Role::participant, "Bo");
        const Visitor ann = m_relay->enrol(m_group, Role::leader, "Ann");
        QCOMPARE(ann->refused(wire::RevokeDevice{RequestId::random(), bo.keys.publicKey}).code,
                 std::string("device-unknown"));
        bo->sync();
    }

    void aLeaderLetsInWhoeverLostTheirDeviceAndCanTakeItBack()
    {
        const Visitor leader = m_relay->enrol(m_group, Role::leader, "Ann");
        const Visitor helper = m_relay->enrol(m_group, Role::moderator, "Kim");
        const Visitor before = m_relay->enrol(m_group, Role::participant, "Bo");
        const auto stranger = m_relay->connect();
        const wire::KeyPair keys = wire::makeKeyPair();
        stranger->hello();
        stranger->knock(m_relay->codeOf(m_group), keys, "Bo again");
        const auto door = leader->wait<wire::Door>([](const wire::Door& each) { return !each.waiting.empty(); });
        const wire::LetIn asBo{RequestId::random(), door.waiting.front().door, before.welcome.person};
        QCOMPARE(helper->refused(asBo).code, std::string("leader-only")); // only a leader says who somebody is
        leader->acked(asBo);
        const wire::Welcome welcome = stranger->wait<wire::Welcome>();
        QVERIFY(welcome.person == before.welcome.person);
        QCOMPARE(welcome.seat, before.welcome.seat);
        QCOMPARE(before->waitClosed().code, hall::kCloseRevoked);

        leader->acked(wire::UndoBinding{RequestId::random(), before.welcome.person});
        QCOMPARE(stranger->waitClosed().code, hall::kCloseRevoked);
        m_relay->again(before); // the old device is good again
        const auto late = m_relay->connect();
        late->hello();
        late->login(m_group, keys, Role::participant);
        QCOMPARE(late->waitClosed().code, hall::kCloseNotKnown);
        QCOMPARE(leader->refused(wire::UndoBinding{RequestId::random(), before.welcome.person}).code,
                 std::string("nothing-to-undo"));
    }

    void aBindingCannotBeTakenBackAfterSevenDays()
    {
        const Visitor leader = m_relay->enrol(m_group, Role::leader, "Ann");
        const Visitor before = m_relay->enrol(m_group, Role::participant, "Bo");
        const auto stranger = m_relay->connect();
        stranger->hello();
        stranger->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Bo");
        const auto door = leader->wait<wire::Door>([](const wire::Door& each) { return !each.waiting.empty(); });
        leader->acked(wire::LetIn{RequestId::random(), door.waiting.front().door, before.welcome.person});
        m_relay->clock.advance(std::chrono::hours{24 * 7} + Millis{1});
        QCOMPARE(leader->refused(wire::UndoBinding{RequestId::random(), before.welcome.person}).code,
                 std::string("nothing-to-undo"));
    }

    void hallsOnOtherLoopsTakeInAndTurnAwayAsWell()
    {
        TestRelay relay(3);
        for (int i = 0; i < 6; ++i) {
            const GroupId group = relay.addGroup("Group " + std::to_string(i));
            const Visitor ann = relay.enrol(group, Role::leader, "Ann");
            QVERIFY(relay.again(ann).welcome.person == ann.welcome.person);
            const auto line = relay.connect();
            line->hello();
            line->login(group, wire::makeKeyPair(), Role::participant);
            QCOMPARE(line->waitClosed().code, hall::kCloseNotKnown);
        }
    }

private:
    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
};

QTEST_GUILESS_MAIN(TestEntering)
#include "test_entering.moc"
