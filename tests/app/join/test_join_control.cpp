// The whole of a home but its window's frame, against the real relay: the first time with a mic check from a sound
// file, and the second time in two presses.
#include "app/join/join_control.h"
#include "tests/app/join/class_here.h"
#include "tests/app/link/relay_here.h"
#include "tests/common/signal/synthetic.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>
#include <sndfile.h>

using namespace vh;
using namespace vh::join;
using vh::testing::RelayHere;

namespace
{

/// A room, and from 3.2 s on a voice in it.
QString voiceFile(const QTemporaryDir& folder)
{
    const test::Samples samples =
        test::mixed(test::joined({test::silence(3.2), test::sing({}, 20, -30)}), test::whiteNoise(24, -72));
    SF_INFO info{};
    info.samplerate = test::kRateHz;
    info.channels = 1;
    info.format = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
    const QString path = folder.filePath("voice.wav");
    SNDFILE* file = sf_open(path.toUtf8().constData(), SFM_WRITE, &info);
    if (!file)
        qFatal("cannot write the sound file");
    sf_write_float(file, samples.data(), static_cast<sf_count_t>(samples.size()));
    sf_close(file);
    return path;
}

/// A helper who lets in whoever knocks first.
struct Desk {
    Desk(RelayHere& relay, GroupId group) : line(clock)
    {
        QObject::connect(&line, &link::Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* at = std::get_if<wire::Door>(&message); at && !at->waiting.empty())
                door = at->waiting.front().door;
        });
        line.open(relay.redeeming(group, store::Role::helper));
    }
    void letIn()
    {
        QTRY_VERIFY(door);
        line.ask(wire::LetIn{{}, *door, {}});
    }
    SystemClock clock;
    link::Line line;
    std::optional<std::uint64_t> door;
};

} // namespace

class TestJoinControl : public QObject
{
    Q_OBJECT
private:
    QTemporaryDir m_folder;
    HandClock m_clock{vh::testing::kNoon};
    JoinSetup m_setup;
    link::Membership m_ruth;

private slots:
    void initTestCase()
    {
        qunsetenv("DBUS_SESSION_BUS_ADDRESS"); // keys in files: no keychain is asked
        m_setup = {&m_clock, m_folder.path(), sound::DeviceChoice::fileOf(voiceFile(m_folder), sound::Pace::byHand),
                   true};
    }

    void theFirstTimeTheMicrophoneIsCheckedAndTheSecondTimeItIsKnown()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        {
            JoinRoom room;
            JoinControl home(m_setup, room);
            wire::JoinLink link;
            link.host = "127.0.0.1";
            link.port = relay.entry(link::Entry::How::redeem).port;
            link.token = relay.link(group.id, store::Role::participant);
            home.startNew();
            emit room.submitRequested({QString::fromStdString(wire::format(link)), {}, "Ruth"});
            QTRY_VERIFY(home.model().screen() == Screen::agreements);
            for (int i = 0; i < 5; ++i)
                emit room.choiceRequested(0);
            emit room.submitRequested({{}, {}});
            QVERIFY(home.ears().state() == sound::EarsState::off); // nothing is open before the check
            emit room.choiceRequested(0);
            QVERIFY(home.model().screen() == Screen::check);
            QVERIFY(home.ears().state() != sound::EarsState::off);
            QTRY_VERIFY([&] {
                m_clock.advance(Millis{500});
                return home.model().check().stage() == MicCheck::Stage::done;
            }());
            QVERIFY(home.model().check().finding() == MicCheck::Finding::fine);
            emit room.checkGoOnRequested();
            QVERIFY(home.model().screen() == Screen::inClass);
            QTRY_COMPARE(home.line().unanswered(), std::size_t{0});
            const PersonId ruth = home.line().welcome()->person;
            emit room.leaveRequested();
            QVERIFY(home.model().screen() == Screen::leaving);
            QSignalSpy left(&home, &JoinControl::left);
            emit room.choiceRequested(1);
            QCOMPARE(left.size(), 1);
            QVERIFY(home.ears().state() == sound::EarsState::off);
            const auto spot = UsualStore(m_folder.path()).find(ruth, {});
            QVERIFY(spot);
            QCOMPARE(int(spot->usuals.at(TaskKind::phrases).valueCount), 1); // the check counts once
        }
        const link::Memberships kept(m_folder.path());
        QCOMPARE(kept.all().size(), std::size_t{1});
        JoinRoom room;
        JoinControl home(m_setup, room);
        home.startKnown(kept.all().front());
        QTRY_VERIFY(home.model().screen() == Screen::today); // agreements and contact stay answered
        emit room.choiceRequested(0);
        QVERIFY(home.model().screen() == Screen::inClass);
        QVERIFY(home.ears().state() != sound::EarsState::off);
        QVERIFY(home.model().today()->checked);
    }

    void whoOnlyListensHasNoOpenMicrophone()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        JoinRoom room;
        JoinControl home(m_setup, room);
        wire::JoinLink link;
        link.host = "127.0.0.1";
        link.port = relay.entry(link::Entry::How::redeem).port;
        link.token = relay.link(group.id, store::Role::participant);
        home.startNew();
        emit room.submitRequested({QString::fromStdString(wire::format(link)), {}, "Bram"});
        QTRY_VERIFY(home.model().screen() == Screen::agreements);
        for (int i = 0; i < 5; ++i)
            emit room.choiceRequested(0);
        emit room.submitRequested({"Mill Lane 3", {}});
        emit room.choiceRequested(2);
        QVERIFY(home.model().screen() == Screen::inClass);
        QVERIFY(home.ears().state() == sound::EarsState::off);
    }

    void byTheCodeAloneNothingIsAskedBeforeTheWordsWereCompared()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Desk desk(relay, group.id);
        Home home(false);
        const link::Entry entry = relay.entry(link::Entry::How::knock);
        home.comeInBy({entry.host, entry.port, group.code, {}, {}});
        desk.letIn();
        QTRY_COMPARE(home.screen(), Screen::sameWords);
        QVERIFY(!home.control->line().entry().pin);
        QVERIFY(link::Memberships(home.folder.path()).all().empty());
        emit home.room->choiceRequested(0);
        QCOMPARE(home.screen(), Screen::agreements);
        QCOMPARE(link::Memberships(home.folder.path()).all().size(), std::size_t{1});
        QVERIFY(link::Memberships(home.folder.path()).all().front().pin == relay.pin());
    }

    void otherWordsEndTheLineAndNothingIsKept()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Desk desk(relay, group.id);
        Home home(false);
        const link::Entry entry = relay.entry(link::Entry::How::knock);
        home.comeInBy({entry.host, entry.port, group.code, {}, {}});
        desk.letIn();
        QTRY_COMPARE(home.screen(), Screen::sameWords);
        QSignalSpy left(home.control.get(), &JoinControl::left);
        emit home.room->choiceRequested(1);
        QCOMPARE(left.size(), 1);
        QCOMPARE(home.control->line().state(), link::LineState::closed);
        QVERIFY(link::Memberships(home.folder.path()).all().empty());
    }

    void aHelpersLinkThatIsPastedHereLeadsToTheHelpersRoom()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Home home(false);
        QSignalSpy other(home.control.get(), &JoinControl::otherRoomNeeded);
        home.comeInBy(linkTo(relay, group.id, store::Role::helper));
        QTRY_COMPARE(other.size(), 1);
        QVERIFY(other.front().front().value<link::Membership>().role == Role::moderator);
        QCOMPARE(link::Memberships(home.folder.path()).all().size(), std::size_t{1});
        QVERIFY(home.screen() != Screen::agreements);
    }
};

QTEST_MAIN(TestJoinControl)
#include "test_join_control.moc"
