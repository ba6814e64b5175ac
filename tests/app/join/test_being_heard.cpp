// Being heard by all, against the real relay: not one frame leaves this home before its own yes, nor after the end of
// it, whichever side ended it; and everybody is told.
#include "app/join/join_control.h"
#include "common/base/base64.h"
#include "common/wire/script_json.h"
#include "tests/app/link/relay_here.h"
#include "tests/app/sound/tone_file.h"
#include "tests/common/home/home_class.h"

#include <QRandomGenerator>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using vh::testing::RelayHere;

namespace
{

/// Whoever leads: opens a class, and counts the sound that comes from the hall.
struct Leader {
    Leader(RelayHere& relay, GroupId group) : line(clock)
    {
        QObject::connect(&line, &link::Line::binaryReceived, &line, [this](const QByteArray& frame) {
            const std::span bytes(reinterpret_cast<const std::uint8_t*>(frame.constData()),
                                  static_cast<std::size_t>(frame.size()));
            if (wire::binaryTypeOf(bytes) == static_cast<std::uint8_t>(wire::BinaryType::sound))
                ++frames;
        });
        QObject::connect(&line, &link::Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* said = std::get_if<wire::Speaking>(&message))
                speaking = said->on;
            else if (const auto* over = std::get_if<wire::InviteOver>(&message))
                why = over->why;
            else if (const auto* open = std::get_if<wire::ClassOpen>(&message))
                isOpen = !open->parts.empty();
        });
        line.open(relay.redeeming(group, store::Role::leader));
    }
    void openClass()
    {
        const std::string script = wire::encodeScript(vh::testing::homeClass());
        const std::span bytes(reinterpret_cast<const std::uint8_t*>(script.data()), script.size());
        line.ask(wire::PartPut{{}, wire::sha256(script), base64Of(bytes)});
        wire::OpenClass open;
        open.title = "Bread";
        open.parts = {wire::sha256(script)};
        line.ask(open);
    }

    SystemClock clock;
    link::Line line;
    int frames = 0;
    bool isOpen = false;
    bool speaking = false;
    std::optional<wire::InviteEnd> why;
};

} // namespace

class TestBeingHeard : public QObject
{
    Q_OBJECT
private:
    static constexpr int kSoon = 10'000;
    QTemporaryDir m_folder;
    SystemClock m_clock;
    std::unique_ptr<RelayHere> m_relay;
    std::unique_ptr<Leader> m_leader;
    std::unique_ptr<JoinRoom> m_room;
    std::unique_ptr<JoinControl> m_home;

    [[nodiscard]] PersonId person() const { return m_home->line().welcome()->person; }
    [[nodiscard]] const VoicesHere& voices() const { return m_home->voices(); }
    void ask()
    {
        m_leader->line.ask(wire::InviteToSpeak{{}, person()});
        QTRY_VERIFY_WITH_TIMEOUT(voices().isAsked(), kSoon);
    }
    /// A while in which a hundred frames would have come: counted in what the home itself has heard, not in time.
    void letItHear()
    {
        const auto before = m_home->ears().snapshot().frameCount;
        QTRY_VERIFY_WITH_TIMEOUT(m_home->ears().snapshot().frameCount >= before + 30, kSoon);
    }

private slots:
    void init()
    {
        QVERIFY(m_folder.isValid());
        const QString file = m_folder.filePath("voice.wav");
        QVERIFY(sound::writeTone(file, {.seconds = 120, .hz = 220}));
        m_relay = std::make_unique<RelayHere>(ops::Tls::off);
        const GroupId group = m_relay->addGroup("Lakeside voices").id;
        m_leader = std::make_unique<Leader>(*m_relay, group);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->line.state(), link::LineState::in, kSoon);
        m_leader->openClass();
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->isOpen, kSoon);
        m_room = std::make_unique<JoinRoom>();
        const QString profile = m_folder.filePath(QString::number(QRandomGenerator::global()->generate()));
        m_home = std::make_unique<JoinControl>(
            JoinSetup{&m_clock, profile, sound::DeviceChoice::fileOf(file), true, sound::DeviceChoice::fileOf({})},
            *m_room);
        const link::Entry entry = m_relay->redeeming(group, store::Role::participant);
        m_home->startNew();
        const wire::JoinLink link{entry.host, entry.port, {}, entry.token, entry.pin};
        emit m_room->submitRequested({QString::fromStdString(wire::format(link)), {}, "Ruth"});
        QTRY_COMPARE_WITH_TIMEOUT(m_home->model().screen(), Screen::agreements, kSoon);
        while (m_home->model().screen() == Screen::agreements)
            emit m_room->choiceRequested(0);
        emit m_room->submitRequested({"Mill Lane 3", "Jonas, 555 0142"});
        emit m_room->choiceRequested(0);
        while (m_home->model().screen() == Screen::check)
            emit m_room->checkPressed(CheckPress::skip);
        QTRY_COMPARE_WITH_TIMEOUT(m_home->model().screen(), Screen::inClass, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_home->ears().state(), sound::EarsState::hearing, kSoon);
    }
    void cleanup()
    {
        m_home.reset();
        m_room.reset();
        m_leader.reset();
        m_relay.reset();
    }

    void notOneFrameLeavesBeforeAYesNorAfterItsEnd()
    {
        letItHear();
        ask();
        letItHear();
        QVERIFY(!m_home->sound().isSending());
        QCOMPARE(m_leader->frames, 0);
        emit m_room->invitationAnswered(true);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->speaking, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->frames > 20, kSoon);
        QVERIFY(voices().isHeard());
        emit m_room->endBeingHeardRequested();
        QVERIFY(!m_home->sound().isSending()); // at once, whatever the hall says
        QTRY_VERIFY_WITH_TIMEOUT(!m_leader->speaking, kSoon);
        QCOMPARE(m_leader->why, std::optional(wire::InviteEnd::ended));
        const int heard = m_leader->frames;
        letItHear();
        QCOMPARE(m_leader->frames, heard);
    }

    void aNoSendsNothing()
    {
        ask();
        emit m_room->invitationAnswered(false);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->why, std::optional(wire::InviteEnd::notNow), kSoon);
        letItHear();
        QCOMPARE(m_leader->frames, 0);
        QVERIFY(!m_home->sound().isSending());
    }

    void theLeadersEndStopsIt()
    {
        ask();
        emit m_room->invitationAnswered(true);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->frames > 0, kSoon);
        m_leader->line.ask(wire::EndSpeaking{});
        QTRY_VERIFY_WITH_TIMEOUT(!m_home->sound().isSending(), kSoon);
        QVERIFY(!voices().isHeard());
    }

    void aLostLineStopsItAndItDoesNotComeBackByItself()
    {
        ask();
        emit m_room->invitationAnswered(true);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->frames > 0, kSoon);
        m_home->line().pullCable();
        QVERIFY(!m_home->sound().isSending());
        QTRY_COMPARE_WITH_TIMEOUT(m_home->line().state(), link::LineState::in, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(!m_leader->speaking, kSoon);
        QVERIFY(!m_home->sound().isSending());
        QVERIFY(!voices().isHeard());
    }

    void aSecondTimeIsAskedAgainAndIsAnotherStream()
    {
        ask();
        emit m_room->invitationAnswered(true);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->frames > 0, kSoon);
        const std::uint32_t first = voices().ownStream();
        emit m_room->endBeingHeardRequested();
        QTRY_VERIFY_WITH_TIMEOUT(!m_leader->speaking, kSoon);
        const int heard = m_leader->frames;
        ask();
        emit m_room->invitationAnswered(true);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->frames > heard, kSoon);
        QVERIFY(voices().ownStream() != first);
    }
};

QTEST_MAIN(TestBeingHeard)
#include "test_being_heard.moc"
