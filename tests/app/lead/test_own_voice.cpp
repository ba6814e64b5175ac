// Whether they hear her, said honestly; and the way of one person to being heard by all, as her screen has it.
#include "app/lead/lead_model.h"
#include "tests/app/lead/lead_fixture.h"

#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;
using Mouth = OwnVoice::Mouth;
using State = wire::VoiceState;

namespace
{

VoiceFrame frameOf(bool voiced, float dbfsA = -30)
{
    VoiceFrame frame;
    frame.voiced = voiced;
    frame.fastDbfsA = dbfsA;
    return frame;
}

PersonId personOf(std::uint8_t seat)
{
    PersonId person;
    person.bits.bytes[0] = static_cast<std::uint8_t>(seat + 1);
    return person;
}

wire::Speaking speaking(std::uint64_t seq, bool on, const char* name)
{
    wire::Speaking said;
    said.seq = seq;
    said.on = on;
    said.stream = 9;
    said.name = name;
    return said;
}

/// In class, the place is hers, Ruth and Wim are there.
LeadModel leading(bool begun = true)
{
    LeadModel model;
    model.setLine(LeadModel::LineNow::up);
    model.take(wire::ToClient(welcomeOf(Role::leader)), kStart);
    model.take(wire::ToClient(wire::ClassOpen{1, kClass, "Bread", {}}), kStart);
    model.setScript(smallScript());
    model.take(wire::ToClient(wire::Seats{true,
                                          {{0, personOf(0), "Ruth", true, 0, Addressed::kind},
                                           {1, personOf(1), "Wim", true, 0, Addressed::kind}}}),
               kStart);
    model.take(wire::ToClient(placeAt(1, Phase::notStarted, {}, {}, Millis{4000})), kStart);
    model.take(wire::ToClient(leaseOf(true)), kStart);
    if (begun)
        model.take(wire::ToClient(placeAt(2, Phase::running, {}, kStart, Millis{4000})), kStart);
    return model;
}

LeadView viewOf(const LeadModel& model)
{
    return model.view(kStart, {}, nullptr);
}

} // namespace

class TestOwnVoice : public QObject
{
    Q_OBJECT
private:
    OwnVoice m_voice;
    HandClock m_clock{kStart};
    VoiceFrame m_newest;
    bool m_lineUp = true;
    sound::EarsState m_ears = sound::EarsState::hearing;

    void speak()
    {
        m_newest = frameOf(true);
        m_voice.heard(m_newest, m_clock.now());
    }
    LevelBar::State sign() const { return m_voice.sign({m_lineUp, m_ears, &m_newest}, m_clock.now()); }
    QString words() const { return sign().words; }
    /// Open, and they hear her.
    void onAir()
    {
        m_voice.press();
        speak();
        m_voice.cameBack(m_clock.now());
    }

private slots:
    void init()
    {
        m_voice = {};
        m_newest = frameOf(false, -60);
        m_lineUp = true;
        m_ears = sound::EarsState::hearing;
    }

    void theyHearHerOnlyWhenItCameBackAndAVoiceWasInIt()
    {
        QCOMPARE(words(), "Not heard yet");
        m_voice.press();
        speak();
        QCOMPARE(words(), "Not heard yet"); // nothing has come back
        QVERIFY(!sign().on);
        m_voice.cameBack(m_clock.now());
        QCOMPARE(words(), "They hear you");
        QVERIFY(sign().on);
        QCOMPARE(sign().dbfsA, std::optional(-30.0F));
    }

    void silentSheMayBeHeardAndThatIsAllThatIsSaid()
    {
        onAir();
        m_clock.advance(Millis{1001});
        m_newest = frameOf(false, -62);
        m_voice.heard(m_newest, m_clock.now());
        m_voice.cameBack(m_clock.now());
        QCOMPARE(words(), "They can hear you");
    }

    void noiseOfHersIsNoVoice()
    {
        m_voice.press();
        m_newest = frameOf(true);
        m_newest.blank = Blank::roomTooNoisy;
        m_voice.heard(m_newest, m_clock.now());
        m_voice.cameBack(m_clock.now());
        QCOMPARE(words(), "They can hear you");
    }

    void whatDoesNotComeBackIsNotHeard()
    {
        onAir();
        m_clock.advance(OwnVoice::kFresh);
        speak();
        QCOMPARE(words(), "They hear you"); // a second old
        m_clock.advance(Millis{1});
        speak();
        QCOMPARE(words(), "They cannot hear you just now");
        QVERIFY(!sign().on);
    }

    void aLostLineAndALostMicrophoneAreSaid()
    {
        onAir();
        m_lineUp = false;
        QCOMPARE(words(), "They cannot hear you: the line is lost");
        m_lineUp = true;
        m_ears = sound::EarsState::deviceLost;
        QCOMPARE(words(), "No sound from your microphone");
        m_ears = sound::EarsState::hearing;
        m_newest = frameOf(false, -118); // digital silence: frames come, and nothing is in them
        QCOMPARE(words(), "No sound from your microphone");
        QCOMPARE(m_voice.sign({true, sound::EarsState::hearing, nullptr}, m_clock.now()).words,
                 "No sound from your microphone");
    }

    void mutedIsAStateOfItsOwn()
    {
        onAir();
        m_voice.press();
        QCOMPARE(words(), "Nobody hears you");
        QCOMPARE(sign().dbfsA, std::optional<float>());
        QCOMPARE(m_voice.state(true), State::muted);
        m_voice.press();
        QCOMPARE(m_voice.state(true), State::carried);
        QCOMPARE(words(), "Not heard yet"); // what came back before the mute does not count
    }

    void fromElsewhereNothingIsClaimed()
    {
        onAir();
        m_voice.choose(VoiceWay::elsewhere);
        QCOMPARE(words(), "Your voice goes by the other call");
        QVERIFY(!sign().on);
        QCOMPARE(m_voice.state(true), State::elsewhere);
        QCOMPARE(m_voice.state(false), State::none);
    }

    void theSignKeepsRoomForAllItMaySay()
    {
        const QStringList all = OwnVoice::allWords();
        onAir();
        QVERIFY(all.contains(words()));
        m_voice.press();
        QVERIFY(all.contains(words()));
        m_lineUp = false;
        QVERIFY(all.contains(words()));
    }

    void beforeClassNobodyHearsHerUntilSheSaysSo()
    {
        LeadModel model = leading(false);
        QCOMPARE(model.voice().state(model.holdsPlace()), State::none);
        QVERIFY(viewOf(model).voice.offered);
        model.voice().press();
        QCOMPARE(model.voice().state(model.holdsPlace()), State::carried);
    }

    void theClassOpensHerVoiceUnlessSheHasMutedIt()
    {
        QCOMPARE(leading().voice().mouth(), Mouth::open);
        LeadModel model = leading(false);
        model.voice().press();
        model.voice().press();
        model.take(wire::ToClient(placeAt(2, Phase::running, {}, kStart, Millis{4000})), kStart);
        QCOMPARE(model.voice().mouth(), Mouth::muted);
    }

    void whoDoesNotLeadIsNotHeard()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(leaseOf(false)), kStart);
        QCOMPARE(model.voice().mouth(), Mouth::closed);
        QVERIFY(!viewOf(model).voice.offered);
        model.take(wire::ToClient(leaseOf(true)), kStart);
        QCOMPARE(model.voice().mouth(), Mouth::open); // taken back, in mid-class
    }

    void bellAndRecordingAreStillWhilePeopleSpeakAlone()
    {
        LeadModel model = leading();
        QVERIFY(viewOf(model).voice.mayRing);
        model.take(wire::ToClient(placeAt(3, Phase::running, {0, 0, 0, 1}, kStart, Millis{6000})), kStart);
        QVERIFY(model.isYours());
        QVERIFY(!viewOf(model).voice.mayRing);
        model.take(wire::ToClient(placeAt(4, Phase::running, {0, 0, 1, 0}, kStart, Millis{6000})), kStart);
        QVERIFY(viewOf(model).voice.mayRing);
        model.voice().press(); // muted, nothing of hers goes out
        QVERIFY(!viewOf(model).voice.mayRing);
    }

    void onePersonIsAskedAndThenHeardAndEnded()
    {
        LeadModel model = leading();
        QVERIFY(!model.hall().inviteOpen()); // nobody's seat is open
        model.hall().openSeat(0);
        QVERIFY(viewOf(model).hall.panel->mayInvite);
        const auto invite = model.hall().inviteOpen();
        QVERIFY(invite);
        QCOMPARE(invite->person, personOf(0));
        QCOMPARE(viewOf(model).hall.guest.words.front(), "Asked: waiting for Ruth");
        QVERIFY(viewOf(model).hall.seats.front().heard == HeardByAll::asked);
        QVERIFY(!model.hall().inviteOpen()); // one at a time
        QVERIFY(!viewOf(model).hall.panel->mayInvite);
        model.take(wire::ToClient(speaking(1, true, "Ruth")), kStart);
        QCOMPARE(viewOf(model).hall.guest.words.front(), "Ruth is heard by all");
        QVERIFY(viewOf(model).hall.guest.heard);
        QVERIFY(viewOf(model).hall.seats.front().heard == HeardByAll::yes);
        QVERIFY(model.hall().guest().end());
        QVERIFY(viewOf(model).hall.guest.words.isEmpty());
        QVERIFY(viewOf(model).hall.seats.front().heard == HeardByAll::no);
        QVERIFY(!model.hall().guest().end());
    }

    void howItEndedIsSaidKindly_data()
    {
        QTest::addColumn<int>("why");
        QTest::addColumn<QString>("said");
        QTest::newRow("no") << int(wire::InviteEnd::notNow) << "Ruth would rather not just now.";
        QTest::newRow("ended") << int(wire::InviteEnd::ended) << "Ruth has ended it and is heard no longer.";
        QTest::newRow("line") << int(wire::InviteEnd::lineLost)
                              << "Ruth's line is lost, so nobody hears them just now.";
    }
    void howItEndedIsSaidKindly()
    {
        QFETCH(int, why);
        QFETCH(QString, said);
        LeadModel model = leading();
        model.hall().openSeat(0);
        QVERIFY(model.hall().inviteOpen());
        model.take(wire::ToClient(wire::InviteOver{personOf(0), "Ruth", static_cast<wire::InviteEnd>(why)}), kStart);
        QCOMPARE(viewOf(model).notice.words, said);
        QVERIFY(viewOf(model).hall.guest.words.isEmpty());
        QVERIFY(viewOf(model).hall.panel->mayInvite); // may be asked again
    }

    void aRefusedQuestionStandsNoLonger()
    {
        LeadModel model = leading();
        model.hall().openSeat(1);
        QVERIFY(model.hall().inviteOpen());
        const Error error{"not-here", "Not here.", {}};
        QCOMPARE(model.hall().guest().inviteAnswered(personOf(1), &error),
                 "Wim is not here just now, so nobody was asked.");
        QVERIFY(viewOf(model).hall.guest.words.isEmpty());
    }

    void theOneForAllDoesNotTakeTheNameAway()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(speaking(5, true, "Ruth")), kStart);
        model.take(wire::ToClient(speaking(5, true, "")), kStart);
        QCOMPARE(viewOf(model).hall.guest.words.front(), "Ruth is heard by all");
    }

    void coveredTheNameIsNotShownAndVStillEndsIt()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(speaking(1, true, "Ruth")), kStart);
        model.hall().toggleCover();
        const LeadView view = viewOf(model);
        QVERIFY(!view.hall.guest.words.join(' ').contains("Ruth"));
        QVERIFY(view.coverWords.contains("Somebody is heard by all; V ends it."));
    }

    void fromElsewhereNobodyIsAsked()
    {
        LeadModel model = leading();
        model.hall().openSeat(0);
        QVERIFY(model.hall().inviteOpen());
        model.choose(VoiceWay::elsewhere);
        QVERIFY(viewOf(model).hall.guest.words.isEmpty());
        QVERIFY(!model.hall().inviteOpen());
        QVERIFY(!viewOf(model).hall.panel->mayInvite);
    }

    void aNewLineToTheHallKnowsOnlyWhatTheHallSays()
    {
        LeadModel model = leading();
        model.hall().openSeat(0);
        QVERIFY(model.hall().inviteOpen());
        model.take(wire::ToClient(welcomeOf(Role::leader)), kStart);
        QVERIFY(viewOf(model).hall.guest.words.isEmpty()); // a question falls with the line of who asked
    }
};

QTEST_APPLESS_MAIN(TestOwnVoice)
#include "test_own_voice.moc"
