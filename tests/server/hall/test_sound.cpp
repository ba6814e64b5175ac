// Whose voice everybody hears: the holder's as she says, one invited person's while both sides want it, nobody else's.
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

constexpr std::uint32_t kAnns = 7;
constexpr std::uint32_t kBos = 8;

std::string frameOf(std::uint32_t stream, std::uint64_t number)
{
    const std::vector<std::uint8_t> payload{1, 2, 3};
    return wire::encodeSound({stream, number * 960}, payload);
}

bool isSound(std::span<const std::uint8_t> bytes)
{
    return wire::decodeSound(bytes).has_value();
}

const auto kOn = [](const wire::Speaking& speaking) { return speaking.on; };
const auto kOff = [](const wire::Speaking& speaking) { return !speaking.on; };

auto isState(wire::VoiceState state)
{
    return [state](const wire::VoiceNow& voice) { return voice.state == state; };
}

} // namespace

class TestSound : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_cy = m_relay->enrol(m_group, Role::participant, "Cy");
        m_opened = openSmallClass(*m_ann.line);
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_cy->wait<wire::VoiceNow>();
    }
    void cleanup()
    {
        m_ann = {};
        m_bo = {};
        m_cy = {};
        m_relay.reset();
    }

    // --- the holder's voice ----------------------------------------------------------------------------------------

    void onlyWhoeverHoldsThePlaceIsHeardAndOnlyAsSheSaid()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        stan->say(wire::Voice{wire::VoiceState::carried, 9});
        stan->sayBinary(frameOf(9, 1));
        m_bo->sayBinary(frameOf(kBos, 1));
        stan->sync();
        m_bo->sync();
        m_ann->sayBinary(frameOf(kAnns + 1, 1)); // no stream that she spoke of
        m_ann->say(wire::Voice{wire::VoiceState::muted, kAnns + 1});
        m_ann->sayBinary(frameOf(kAnns, 2));
        m_ann->say(wire::Voice{wire::VoiceState::elsewhere, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 3));
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 4));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 4));
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::muted);
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::elsewhere);
        const auto now = m_cy->wait<wire::VoiceNow>();
        QCOMPARE(now.state, wire::VoiceState::carried);
        QCOMPARE(now.stream, kAnns);
        QCOMPARE(now.name, std::string("Ann"));
    }

    void aMuteLetsWhatIsUnderWayFadeOutAndThenNothing()
    {
        m_ann->say(wire::Voice{wire::VoiceState::muted, kAnns});
        for (std::uint64_t i = 0; i < 20; ++i)
            m_ann->sayBinary(frameOf(kAnns, i));
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 100));
        int heard = 0;
        while (m_cy->waitBinary(isSound) != frameOf(kAnns, 100))
            ++heard;
        QCOMPARE(heard, 10);
    }

    void whatIsSaidAgainIsToldOnceAndWhoeverComesLateKnows()
    {
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->say(wire::Voice{wire::VoiceState::muted, kAnns});
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::muted);
        const Visitor late = m_relay->enrol(m_group, Role::participant, "Di");
        QVERIFY(late.welcome.voice);
        QCOMPARE(late.welcome.voice->state, wire::VoiceState::muted);
        QCOMPARE(late.welcome.voice->stream, kAnns);
        QCOMPARE(late.welcome.voice->name, std::string("Ann"));
        QVERIFY(!late.welcome.speaking);
    }

    void homesHearWhenTheHoldersLineIsGoneAndWhenSheIsBack()
    {
        m_ann->drop();
        const auto gone = m_cy->wait<wire::VoiceNow>();
        QCOMPARE(gone.state, wire::VoiceState::none);
        QVERIFY(gone.name.empty());
        m_ann = m_relay->again(m_ann);
        QVERIFY(!m_ann.welcome.voice);
        m_ann->sayBinary(frameOf(20, 1)); // before she has said what it is
        m_ann->say(wire::Voice{wire::VoiceState::carried, 20});
        m_ann->sayBinary(frameOf(20, 2));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(20, 2));
        QCOMPARE(m_cy->wait<wire::VoiceNow>().stream, 20U);
    }

    void theVoiceEndsWhereThePlaceGoesToSomebodyElse()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        m_relay->clock.advance(Millis{3'500});
        stan->acked(wire::TakePlace{RequestId::random()});
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::none);
        m_ann->sayBinary(frameOf(kAnns, 1));
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sync();
        stan->say(wire::Voice{wire::VoiceState::carried, 9});
        stan->sayBinary(frameOf(9, 1));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(9, 1));
        QCOMPARE(m_cy->wait<wire::VoiceNow>().name, std::string("Stan"));
        // Her own, taken back: said anew.
        m_ann->acked(wire::TakePlace{RequestId::random()});
        QCOMPARE(m_cy->wait<wire::VoiceNow>().state, wire::VoiceState::none);
    }

    void theVoiceEndsWithTheClass()
    {
        const wire::Ack started = press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        press(*m_ann.line, CommandKind::end, m_opened.lease, *started.serial);
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 1));
        const auto ended = m_cy->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::ended; });
        const auto none = m_cy->wait<wire::VoiceNow>(isState(wire::VoiceState::none));
        QVERIFY(none.seq > ended.seq);
        m_ann->sync();
        m_cy->sync();
        QVERIFY(!m_cy->has<wire::VoiceNow>());
        openSmallClass(*m_ann.line);
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_ann->sayBinary(frameOf(kAnns, 2));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 2));
    }

    void placeStandsAmongTheFramesAsTheHallHeardThem()
    {
        const wire::Ack started = press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        std::uint32_t serial = *started.serial;
        m_cy->wait<wire::PlaceNow>([&](const auto& now) { return now.serial == serial; });
        std::vector<std::string> expected = m_cy->order();
        std::uint64_t frame = 0;
        for (int round = 0; round < 5; ++round) {
            for (int i = 0; i <= round; ++i, ++frame) {
                m_ann->sayBinary(frameOf(kAnns, frame));
                expected.push_back("sound " + std::to_string(frame * 960));
            }
            m_ann->say(wire::Lead{RequestId::random(), CommandKind::onceMore, m_opened.lease, serial});
            expected.push_back("place " + std::to_string(++serial));
        }
        m_ann->sayBinary(frameOf(kAnns, frame));
        expected.push_back("sound " + std::to_string(frame * 960));
        m_cy->waitBinary([&](auto bytes) {
            const auto sound = wire::decodeSound(bytes);
            return sound && sound->head.firstSample == frame * 960;
        });
        QCOMPARE(m_cy->order(), expected);
    }

    // --- one invited person ----------------------------------------------------------------------------------------

    void anInvitedPersonWhoAgreesIsHeardByAllUntilEitherSideEndsIt_data()
    {
        QTest::addColumn<bool>("byLeader");
        QTest::newRow("the leader") << true;
        QTest::newRow("the person") << false;
    }
    void anInvitedPersonWhoAgreesIsHeardByAllUntilEitherSideEndsIt()
    {
        QFETCH(bool, byLeader);
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        const auto asked = m_bo->wait<wire::InvitedToSpeak>();
        QVERIFY(asked.on);
        QCOMPARE(asked.from, std::string("Ann"));
        m_bo->sayBinary(frameOf(kBos, 1)); // asked is not agreed
        m_bo->acked(wire::SpeakAnswer{RequestId::random(), true, kBos});
        m_bo->sayBinary(frameOf(kBos + 1, 2)); // not the stream of the answer
        m_bo->sayBinary(frameOf(kBos, 3));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kBos, 3));
        QCOMPARE(m_cy->wait<wire::Speaking>().stream, kBos);
        m_ann->sayBinary(frameOf(kAnns, 4)); // both
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 4));

        byLeader ? m_ann->acked(wire::EndSpeaking{RequestId::random()})
                 : m_bo->acked(wire::EndSpeaking{RequestId::random()});
        m_cy->wait<wire::Speaking>(kOff);
        m_bo->sayBinary(frameOf(kBos, 5)); // on its way when it ended
        m_bo->sync();
        m_ann->sayBinary(frameOf(kAnns, 6));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 6));
        m_ann->sync();
        QCOMPARE(m_ann->has<wire::InviteOver>(), !byLeader);
        if (!byLeader)
            QCOMPARE(m_ann->wait<wire::InviteOver>().why, wire::InviteEnd::ended);
    }

    void theNameIsSeenByThoseWhoMaySeeIt()
    {
        const Visitor kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        letBoSpeak();
        const auto toAll = m_cy->wait<wire::Speaking>();
        QVERIFY(toAll.name.empty() && !toAll.seat && !toAll.you);
        const auto toBo = m_bo->wait<wire::Speaking>();
        QVERIFY(toBo.on && toBo.you);
        QCOMPARE(toBo.seq, toAll.seq);
        for (const Visitor* desk : std::initializer_list<const Visitor*>{&m_ann, &kim}) {
            const auto toDesk = (*desk)->wait<wire::Speaking>();
            QCOMPARE(toDesk.name, std::string("Bo"));
            QCOMPARE(toDesk.seat, std::optional(m_bo.welcome.seat));
            QCOMPARE((*desk)->wait<wire::Speaking>().seq, toDesk.seq); // and the one for all after it
        }
        const Visitor late = m_relay->enrol(m_group, Role::participant, "Di");
        QVERIFY(late.welcome.speaking && late.welcome.speaking->on && late.welcome.speaking->name.empty());
        const Visitor helper = m_relay->enrol(m_group, Role::moderator, "Lu");
        QCOMPARE(helper.welcome.speaking->name, std::string("Bo"));
        // Agreeing and taking it back act while they speak.
        agree(*m_bo.line, AgreementKind::nameSeen, "yes");
        QCOMPARE(m_cy->wait<wire::Speaking>().name, std::string("Bo"));
        agree(*m_bo.line, AgreementKind::nameSeen, "no");
        QVERIFY(m_cy->wait<wire::Speaking>().name.empty());
    }

    void whoWouldRatherNotIsNotHeardAndTheLeaderIsTold()
    {
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        m_bo->acked(wire::SpeakAnswer{RequestId::random(), false, 0});
        const auto over = m_ann->wait<wire::InviteOver>();
        QCOMPARE(over.why, wire::InviteEnd::notNow);
        QCOMPARE(over.name, std::string("Bo"));
        QVERIFY(over.person == m_bo.welcome.person);
        QCOMPARE(m_bo->refused(wire::SpeakAnswer{RequestId::random(), true, kBos}).code, std::string("not-invited"));
        m_ann->sync();
        QVERIFY(!m_ann->has<wire::Speaking>());
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_cy.welcome.person}); // the place is free
    }

    void aQuestionCanBeTakenBackAndAskedAgain()
    {
        const wire::InviteToSpeak invite{RequestId::random(), m_bo.welcome.person};
        m_ann->acked(invite);
        m_bo->wait<wire::InvitedToSpeak>();
        m_ann->acked(wire::EndSpeaking{RequestId::random()});
        QVERIFY(!m_bo->wait<wire::InvitedToSpeak>().on);
        QCOMPARE(m_bo->refused(wire::SpeakAnswer{RequestId::random(), true, kBos}).code, std::string("not-invited"));
        m_ann->acked(invite); // the answer was lost: it is not asked twice
        QCOMPARE(m_ann->refused(wire::InviteToSpeak{invite.id, m_cy.welcome.person}).code, std::string("conflict"));
        m_bo->sync();
        QVERIFY(!m_bo->has<wire::InvitedToSpeak>());
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        QVERIFY(m_bo->wait<wire::InvitedToSpeak>().on);
    }

    void onlyTheHolderInvitesAndOnlySomebodyWhoIsInClassOneAtATime()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        const Visitor kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        const auto codeOf = [](const Visitor& by, PersonId person) {
            return by->refused(wire::InviteToSpeak{RequestId::random(), person}).code;
        };
        QCOMPARE(codeOf(stan, m_bo.welcome.person), std::string("not-leader"));
        QCOMPARE(codeOf(m_ann, PersonId::random()), std::string("person-unknown"));
        QCOMPARE(codeOf(m_ann, m_ann.welcome.person), std::string("not-here"));
        QCOMPARE(codeOf(m_ann, kim.welcome.person), std::string("not-here"));
        m_cy->drop();
        m_ann->wait<wire::Seats>([&](const auto& seats) {
            return std::any_of(seats.seats.begin(), seats.seats.end(), [&](const auto& seat) {
                return seat.person == m_cy.welcome.person && !seat.here && !seats.whole;
            });
        });
        QCOMPARE(codeOf(m_ann, m_cy.welcome.person), std::string("not-here"));
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), stan.welcome.person});
        QCOMPARE(codeOf(m_ann, m_bo.welcome.person), std::string("one-at-a-time"));
        QCOMPARE(m_bo->refused(wire::SpeakAnswer{RequestId::random(), true, kBos}).code, std::string("not-invited"));
        m_bo->acked(wire::EndSpeaking{RequestId::random()}); // not theirs to end
        QCOMPARE(stan->refused(wire::SpeakAnswer{RequestId::random(), true, kAnns}).code, std::string("stream-in-use"));
        const wire::SpeakAnswer yes{RequestId::random(), true, 9};
        stan->acked(yes);
        stan->acked(yes);
        QCOMPARE(codeOf(m_ann, m_bo.welcome.person), std::string("one-at-a-time"));
        m_bo->wait<wire::Speaking>(kOn);
        m_bo->sync();
        QVERIFY(!m_bo->has<wire::Speaking>());
    }

    void whereTheGroupHearsItselfElsewhereNobodyIsCarried()
    {
        letBoSpeak();
        m_cy->wait<wire::Speaking>(kOn);
        m_ann->say(wire::Voice{wire::VoiceState::elsewhere, 0});
        m_cy->wait<wire::Speaking>(kOff);
        QCOMPARE(m_ann->refused(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person}).code,
                 std::string("not-now"));
    }

    void itEndsWithTheLineOfEither_data()
    {
        QTest::addColumn<bool>("leaders");
        QTest::addColumn<bool>("answered");
        QTest::newRow("the leader's, while asked") << true << false;
        QTest::newRow("the person's, while asked") << false << false;
        QTest::newRow("the leader's, while heard") << true << true;
        QTest::newRow("the person's, while heard") << false << true;
    }
    void itEndsWithTheLineOfEither()
    {
        QFETCH(bool, leaders);
        QFETCH(bool, answered);
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        QVERIFY(m_bo->wait<wire::InvitedToSpeak>().on);
        if (answered) {
            m_bo->acked(wire::SpeakAnswer{RequestId::random(), true, kBos});
            m_cy->wait<wire::Speaking>(kOn);
        }
        leaders ? m_ann->drop() : m_bo->drop();
        if (answered)
            m_cy->wait<wire::Speaking>(kOff);
        if (leaders) {
            if (!answered)
                QVERIFY(!m_bo->wait<wire::InvitedToSpeak>().on);
            m_ann = m_relay->again(m_ann);
        } else {
            const auto over = m_ann->wait<wire::InviteOver>();
            QCOMPARE(over.why, wire::InviteEnd::lineLost);
            QCOMPARE(over.name, std::string("Bo"));
            m_bo = m_relay->again(m_bo);
            QVERIFY(!m_bo.welcome.invited && !m_bo.welcome.speaking);
        }
        // The old answer counts for nothing, and she may ask anew.
        QCOMPARE(m_bo->refused(wire::SpeakAnswer{RequestId::random(), true, kBos}).code, std::string("not-invited"));
        letBoSpeak();
        m_cy->wait<wire::Speaking>(kOn);
    }

    void anotherDeviceOfTheSamePersonIsAnotherLine()
    {
        letBoSpeak();
        m_cy->wait<wire::Speaking>(kOn);
        const Visitor newer = m_relay->again(m_bo); // the older line is closed
        m_cy->wait<wire::Speaking>(kOff);
        newer->sayBinary(frameOf(kBos, 1)); // agreed at the other one
        newer->sync();
        m_ann->sayBinary(frameOf(kAnns, 2));
        QCOMPARE(m_cy->waitBinary(isSound), frameOf(kAnns, 2));
    }

    void itEndsWhenThePlaceMovesAndWithTheClass()
    {
        letBoSpeak();
        m_cy->wait<wire::Speaking>(kOn);
        const wire::Ack taken = m_ann->acked(wire::TakePlace{RequestId::random()});
        m_cy->wait<wire::Speaking>(kOff);
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        m_bo->acked(wire::SpeakAnswer{RequestId::random(), true, kBos});
        m_cy->wait<wire::Speaking>(kOn);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, *taken.lease, *taken.serial);
        press(*m_ann.line, CommandKind::end, *taken.lease, *started.serial);
        m_cy->wait<wire::Speaking>(kOff);
        QCOMPARE(m_ann->refused(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person}).code,
                 std::string("no-class"));
    }

    // --- hostile senders -------------------------------------------------------------------------------------------

    void aSenderFasterThanAnyVoiceIsCutToItsShareAndTheClassGoesOn()
    {
        letBoSpeak();
        constexpr int kFlood = 5'000;
        for (int i = 0; i < kFlood; ++i)
            m_bo->sayBinary(frameOf(kBos, static_cast<std::uint64_t>(i)));
        m_bo->sync();
        m_ann->sayBinary(frameOf(kAnns, 1));
        int heard = 0;
        for (;; ++heard)
            if (m_cy->waitBinary(isSound) == frameOf(kAnns, 1))
                break;
        QVERIFY2(heard <= kFlood / 2, qPrintable(QString::number(heard)));
        QVERIFY2(heard >= static_cast<int>(wire::kSoundFramesAtOnce), qPrintable(QString::number(heard)));
        press(*m_ann.line, CommandKind::start, m_opened.lease, 0);
        m_bo->sync();
    }

    void aBrokenFrameEndsThatLineOnlyInvitedOrNot()
    {
        std::string tooLong = frameOf(kBos, 1);
        tooLong.resize(15 + wire::kSoundBytes + 1, 's');
        for (const std::string& broken : {frameOf(kBos, 1).substr(0, 15), frameOf(kBos, 1).substr(0, 9), tooLong}) {
            const Visitor di = m_relay->enrol(m_group, Role::participant, "Di");
            di->sayBinary(broken);
            QCOMPARE(di->waitClosed().code, wire::CloseCode::policy);
        }
        letBoSpeak();
        m_bo->sayBinary(tooLong);
        QCOMPARE(m_bo->waitClosed().code, wire::CloseCode::policy);
        QCOMPARE(m_ann->wait<wire::InviteOver>().why, wire::InviteEnd::lineLost);
        m_cy->sync();
    }

private:
    void letBoSpeak()
    {
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        m_bo->acked(wire::SpeakAnswer{RequestId::random(), true, kBos});
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_bo;
    Visitor m_cy;
    OpenedClass m_opened;
};

QTEST_GUILESS_MAIN(TestSound)
#include "test_sound.moc"
