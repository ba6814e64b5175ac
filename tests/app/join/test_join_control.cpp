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
            while (home.model().screen() == Screen::agreements)
                emit room.choiceRequested(0);
            emit room.submitRequested({{}, {}});
            QVERIFY(home.ears().state() == sound::EarsState::off); // nothing is open before the check
            emit room.choiceRequested(0);
            QVERIFY(home.model().screen() == Screen::check);
            QVERIFY(home.ears().state() != sound::EarsState::off);
            QTRY_VERIFY([&] {
                m_clock.advance(Millis{500});
                const auto stage = home.model().check().full().stage();
                if (stage > FullCheck::Stage::usual && stage != FullCheck::Stage::people) // no vowel in this file
                    emit room.checkPressed(CheckPress::skip);
                return home.model().check().full().stage() == FullCheck::Stage::people;
            }());
            emit room.choiceRequested(0);
            QVERIFY(home.model().check().full().finding() == CheckFinding::fine);
            emit room.checkPressed(CheckPress::goOn);
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
        QTRY_VERIFY([&] { // the greeting is heard
            m_clock.advance(Millis{500});
            return home.model().screen() == Screen::inClass;
        }());
        QVERIFY(home.ears().state() != sound::EarsState::off);
        QVERIFY(home.model().today()->checked);
    }

    void aCallPressedWhileTheLineIsLostGoesOutOnceWhenItIsBack()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        JoinRoom room;
        JoinControl home(m_setup, room);
        const link::Entry entry = relay.redeeming(group.id, store::Role::participant);
        home.startNew();
        const wire::JoinLink link{entry.host, entry.port, {}, entry.token, entry.pin};
        emit room.submitRequested({QString::fromStdString(wire::format(link)), {}, "Bram"});
        QTRY_VERIFY(home.model().screen() == Screen::agreements);
        while (home.model().screen() == Screen::agreements)
            emit room.choiceRequested(0);
        emit room.submitRequested({"Mill Lane 3", {}});
        emit room.choiceRequested(2);
        QTRY_COMPARE(home.line().unanswered(), std::size_t{0});
        relay.stop();
        QTRY_COMPARE(home.line().state(), link::LineState::lost);
        emit room.helpRequested();
        emit room.helpRequested();
        const auto heading = [&] { return std::get<CallView>(home.model().view(nullptr)).heading; };
        QCOMPARE(heading(), QString("Your call waits for the line"));
        relay.start();
        QTRY_COMPARE_WITH_TIMEOUT(home.line().unanswered(), std::size_t{0}, 20'000);
        QTRY_COMPARE(heading(), QString("Your call has gone out"));
        const auto calls = relay.beside([&](store::Tables& tables) -> Result<std::vector<store::CallRow>> {
            return tables.calls.notDone(group.id);
        });
        QCOMPARE(calls.size(), std::size_t{1});
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
        while (home.model().screen() == Screen::agreements)
            emit room.choiceRequested(0);
        emit room.submitRequested({"Mill Lane 3", {}});
        emit room.choiceRequested(2);
        QVERIFY(home.model().screen() == Screen::inClass);
        QVERIFY(home.ears().state() == sound::EarsState::off);
    }
};

QTEST_MAIN(TestJoinControl)
#include "test_join_control.moc"
