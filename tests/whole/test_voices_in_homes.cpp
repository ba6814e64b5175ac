// Who is heard in the homes, from microphone to loudspeaker over the real relay: the leader with her bell and her
// recording, muted and not; an invited person; the stand-in when the place moves; and all of it after the relay was
// killed. The tests go on from one to the next.
#include "app/look/look.h"
#include "tests/stage/slow_line.h"
#include "tests/whole/voice_class.h"

using namespace vh;
using namespace vh::testing;
using Kind = InHome::Event::Kind;

namespace
{
constexpr int kSoon = 20'000;
constexpr std::uint64_t kFrame = 960;
} // namespace

class TestVoicesInHomes : public QObject
{
    Q_OBJECT
    QTemporaryDir m_folder;
    VoiceHall m_hall;
    std::unique_ptr<Leading> m_leader;
    std::unique_ptr<Leading> m_standIn;
    std::unique_ptr<InHome> m_ruth;  ///< who is invited
    std::unique_ptr<InHome> m_marta; ///< who listens

    [[nodiscard]] VoiceTap& martas() const { return *m_marta->tap; }
    [[nodiscard]] std::uint32_t leadersStream() const { return m_marta->control.voices().leadersStream().value_or(0); }
    [[nodiscard]] QString martasLine() const { return m_marta->control.voices().line().words.value(0); }
    /// So many windows go by in Marta's home.
    void letSound(int windows)
    {
        const int until = martas().windows() + windows;
        QTRY_VERIFY_WITH_TIMEOUT(martas().windows() >= until, kSoon);
    }
    /// All that she has said until a second from now has been played in Marta's home.
    void letItBePlayed()
    {
        const std::uint64_t until = m_leader->tap->heard() + 48'000;
        QTRY_VERIFY_WITH_TIMEOUT(m_marta->control.sound().audibleUpTo(leadersStream()).value_or(0) >= until, kSoon);
        letSound(2);
    }
    void invite()
    {
        const auto& seats = m_leader->view().hall.seats;
        const auto ruth = std::find_if(seats.begin(), seats.end(), [](const auto& row) { return row.name == "Ruth"; });
        QVERIFY(ruth != seats.end());
        emit m_leader->control.room().seatRequested(ruth->seat);
        m_leader->control.inviteToSpeak();
        QTRY_VERIFY_WITH_TIMEOUT(m_ruth->control.voices().isAsked(), kSoon);
    }
    void agree()
    {
        emit m_ruth->room.invitationAnswered(true);
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::guest), kSoon);
    }
    /// The end of the last stretch in which somebody was heard, in Marta's log.
    [[nodiscard]] std::size_t lastEnd() const
    {
        const auto& log = m_marta->log;
        const auto end =
            std::find_if(log.rbegin(), log.rend(), [](const auto& event) { return event.kind == Kind::speakingOff; });
        return static_cast<std::size_t>(log.rend() - end);
    }
    /// Of one stream, in Marta's log from there on.
    [[nodiscard]] std::vector<std::uint64_t> framesSince(std::size_t from, std::uint32_t stream) const
    {
        std::vector<std::uint64_t> samples;
        for (std::size_t i = from; i < m_marta->log.size(); ++i)
            if (m_marta->log[i].kind == Kind::frame && m_marta->log[i].stream == stream)
                samples.push_back(m_marta->log[i].sample);
        return samples;
    }
    void theGuestIsGone(std::uint32_t stream)
    {
        QTRY_VERIFY_WITH_TIMEOUT(!m_marta->control.voices().guestsStream(), kSoon);
        const std::size_t end = lastEnd();
        QTRY_VERIFY_WITH_TIMEOUT(framesSince(end, leadersStream()).size() >= 50, kSoon);
        QCOMPARE(framesSince(end, stream).size(), std::size_t{0});
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::guest), kSoon);
        const int before = martas().windowsWith(Tone::guest);
        letSound(5);
        QCOMPARE(martas().windowsWith(Tone::guest), before);
        QVERIFY(!m_ruth->control.sound().isSending());
    }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look().applyTo(*qApp));
        QVERIFY2(m_hall.start(), m_hall.relay().said());
        m_leader = std::make_unique<Leading>(toneFile(m_folder, Tone::leader));
        m_leader->line.open(m_hall.entry(Role::leader, "Anna"));
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, lead::Stage::choosing, kSoon);
        m_leader->control.chooseFile(VH_SOURCE_DIR "/tests/whole/voices.yaml");
        m_leader->control.openChosen();
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, lead::Stage::ready, kSoon);
        m_standIn = std::make_unique<Leading>(toneFile(m_folder, Tone::standIn));
        m_standIn->line.open(m_hall.entry(Role::standIn, "Berta"));
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().stage, lead::Stage::ready, kSoon);
        m_ruth = std::make_unique<InHome>(m_folder.filePath("ruth"), toneFile(m_folder, Tone::guest));
        QVERIFY(m_ruth->comeIn(m_hall.link(Role::participant), "Ruth"));
        m_marta = std::make_unique<InHome>(m_folder.filePath("marta"), toneFile(m_folder, Tone::guest));
        QVERIFY(m_marta->comeIn(m_hall.link(Role::participant), "Marta"));
    }

    void beforeTheClassNobodyHearsHerUntilShePresses()
    {
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->ears.state(), sound::EarsState::hearing, kSoon);
        letSound(5);
        QCOMPARE(martas().windowsWith(Tone::leader), 0);
        QVERIFY(m_marta->log.empty());
    }

    void theClassBeginsAndEveryHomeHearsHerFrameByFrame()
    {
        m_leader->control.command(CommandKind::start);
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::leader), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_ruth->tap->sounds(Tone::leader), kSoon);
        letSound(10);
        const auto frames = m_marta->framesOf(leadersStream());
        QVERIFY(frames.size() > 40);
        for (std::size_t i = 1; i < frames.size(); ++i)
            QCOMPARE(frames[i], frames[i - 1] + kFrame);
        QVERIFY(martasLine().contains("You hear Anna"));
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->view().level.on, kSoon); // and she sees that they do
    }

    void mutedNothingLeavesAndTheCountGoesOn()
    {
        m_leader->control.pressMute();
        QTRY_VERIFY_WITH_TIMEOUT(martasLine().contains("silent"), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::leader), kSoon);
        const std::uint32_t stream = leadersStream();
        QCOMPARE(stream, 0U); // not carried: no cue waits for it
        const std::size_t logged = m_marta->log.size();
        const std::uint64_t last = m_marta->log.back().sample;
        const int heard = martas().windowsWith(Tone::leader);
        const std::uint64_t mutedFrom = m_leader->tap->heard();
        letSound(12);
        QCOMPARE(m_marta->log.size(), logged);
        QCOMPARE(martas().windowsWith(Tone::leader), heard);
        const std::uint64_t mutedTo = m_leader->tap->heard();
        m_leader->control.pressMute();
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::leader), kSoon);
        const InHome::Event& first = m_marta->log[logged];
        QCOMPARE(first.stream, leadersStream()); // the same stream
        QCOMPARE(first.sample % kFrame, std::uint64_t{0});
        QVERIFY(first.sample >= last + (mutedTo - mutedFrom));
        QVERIFY(first.sample <= m_leader->tap->heard() + 2 * kFrame);
    }

    void theBellAndARecordingAreHeardButNotWherePeopleSpeakAlone()
    {
        m_leader->control.ring();
        QTRY_VERIFY_WITH_TIMEOUT(martas().windowsWith(Tone::bell) > 0, kSoon);
        m_leader->control.loadRecording(toneFile(m_folder, Tone::recording, 60));
        m_leader->control.toggleRecording();
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::recording), kSoon);
        QVERIFY(martas().sounds(Tone::leader));
        m_leader->control.command(CommandKind::goOn); // their own turn
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->view().voice.offered && !m_leader->view().voice.mayRing, kSoon);
        letItBePlayed();
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::bell), kSoon); // the first stroke has rung out
        QVERIFY(martas().isGone(Tone::recording));
        const auto counts = [this] {
            return std::pair{martas().windowsWith(Tone::bell), martas().windowsWith(Tone::recording)};
        };
        const auto before = counts();
        const int voice = martas().windowsWith(Tone::leader);
        m_leader->control.ring();
        letItBePlayed();
        QCOMPARE(counts(), before);
        QVERIFY(martas().windowsWith(Tone::leader) > voice); // she herself is still heard
        m_leader->control.command(CommandKind::goOn);
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::recording), kSoon); // it has waited
        QCOMPARE(martas().windowsWith(Tone::bell), before.first);          // that stroke does not come later
        m_leader->control.toggleRecording();
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::recording), kSoon);
    }

    void anInvitedPersonIsHeardOnlyAfterTheirYesUntilTheLeaderEndsIt()
    {
        invite();
        letSound(8);
        QCOMPARE(martas().windowsWith(Tone::guest), 0);
        QVERIFY(!m_ruth->control.sound().isSending());
        agree();
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->tap->sounds(Tone::guest), kSoon); // in her room too
        QCOMPARE(m_ruth->tap->windowsWith(Tone::guest), 0);                  // nobody hears themselves
        const std::uint32_t stream = *m_marta->control.voices().guestsStream();
        const std::uint64_t pressed = m_leader->tap->heard();
        m_leader->control.endGuest();
        theGuestIsGone(stream);
        // In the log the end stands within two frames of what she was saying when she pressed.
        QVERIFY(framesSince(lastEnd(), leadersStream()).front() <= pressed + 2 * kFrame);
    }

    void andUntilTheyEndItThemselves()
    {
        invite();
        agree();
        const std::uint32_t stream = *m_marta->control.voices().guestsStream();
        const std::uint64_t pressed = m_ruth->tap->heardSinceOpened();
        emit m_ruth->room.endBeingHeardRequested();
        QVERIFY(!m_ruth->control.sound().isSending()); // at once
        theGuestIsGone(stream);
        QVERIFY(m_marta->framesOf(stream).back() <= pressed); // nothing that was said after the press
    }

    void afterTheRelayWasKilledSheIsHeardAgainWithoutAPress()
    {
        invite();
        agree();
        m_hall.relay().kill();
        QTRY_COMPARE_WITH_TIMEOUT(m_marta->control.line().state(), link::LineState::lost, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::leader), kSoon);
        QVERIFY2(m_hall.relay().start(), m_hall.relay().said());
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::leader), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_ruth->tap->sounds(Tone::leader), kSoon);
        const int guest = martas().windowsWith(Tone::guest);
        letSound(10); // who was invited is not heard again without another yes
        QCOMPARE(martas().windowsWith(Tone::guest), guest);
        QVERIFY(!m_ruth->control.sound().isSending());
    }

    void aHomeWhoseLineStallsHearsEveryFrameComeAndIsSoonWithTheOthersAgain()
    {
        stage::SlowLine line(m_hall.relay().port(),
                             {.oneWayMs = 40, .heldShare = 0.02, .stallMs = 2'000, .stallEveryMs = 10'000});
        wire::JoinLink link = m_hall.link(Role::participant);
        link.port = line.port();
        InHome karl(m_folder.filePath("karl"), toneFile(m_folder, Tone::guest));
        QVERIFY(karl.comeIn(link, "Karl"));
        const auto behindMs = [&] { // between her microphone and his loudspeaker
            const auto stream = karl.control.voices().leadersStream();
            const auto heard = karl.control.sound().audibleUpTo(stream);
            return heard && *heard > 0
                       ? (static_cast<double>(m_leader->tap->heard()) - static_cast<double>(*heard)) / 48
                       : -1.0;
        };
        QTRY_VERIFY_WITH_TIMEOUT(behindMs() > 0 && behindMs() <= 400, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(behindMs() > 1'000, kSoon); // the stall
        QTRY_VERIFY_WITH_TIMEOUT(behindMs() <= 400, kSoon);  // what was too old was dropped
        QTRY_VERIFY_WITH_TIMEOUT(karl.tap->sounds(Tone::leader), kSoon);
        const auto frames = karl.framesOf(karl.control.voices().leadersStream().value());
        for (std::size_t i = 1; i < frames.size(); ++i)
            QCOMPARE(frames[i], frames[i - 1] + kFrame);
        QCOMPARE(karl.control.line().state(), link::LineState::in); // the line itself was never lost
    }

    void theVoiceMovesWithThePlaceAndBack()
    {
        const link::Entry again = m_hall.again(m_leader->line, Role::leader);
        m_leader->line.pullCable(); // a crash: no goodbye
        m_leader.reset();
        QTRY_VERIFY_WITH_TIMEOUT(m_standIn->view().mayTake, kSoon);
        QCOMPARE(martas().windowsWith(Tone::standIn), 0);
        m_standIn->control.takePlace();
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::standIn), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::leader), kSoon);
        QVERIFY(martasLine().contains("You hear Berta"));

        m_leader = std::make_unique<Leading>(toneFile(m_folder, Tone::leader));
        m_leader->line.open(again);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->view().mayTake, kSoon);
        letSound(3);
        QVERIFY(!martas().sounds(Tone::leader)); // she does not hold the place yet
        m_leader->control.takePlace();
        QTRY_VERIFY_WITH_TIMEOUT(martas().sounds(Tone::leader), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(martas().isGone(Tone::standIn), kSoon);
        const int before = martas().windowsWith(Tone::standIn);
        letSound(5);
        QCOMPARE(martas().windowsWith(Tone::standIn), before);
        QVERIFY(martasLine().contains("You hear Anna"));
    }

    void cleanup()
    {
        if (QTest::currentTestFailed()) { // what follows stands on what went before
            cleanupTestCase();
            std::_Exit(1);
        }
    }
    void cleanupTestCase()
    {
        m_marta.reset();
        m_ruth.reset();
        m_standIn.reset();
        m_leader.reset();
        m_hall.relay().kill();
    }
};

QTEST_MAIN(TestVoicesInHomes)
#include "test_voices_in_homes.moc"
