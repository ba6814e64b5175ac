// One class over the wire: the real relay as a process, the real programs of leader, stand-in and participant
// (offscreen), three chorus homes, and a voice whose level is known. Things go wrong on the way.
// With VOICEHALL_TEST_MUTED the microphone hears nothing, and the run must fail at the level: see
// test_muted_class_fails.cpp.
#include "app/look/look.h"
#include "app/program.h"
#include "common/script/reader.h"
#include "demo/chorus/choir.h"
#include "demo/stage/group_maker.h"
#include "demo/stage/press.h"
#include "demo/stage/voice_file.h"
#include "server/net/tls_context.h"
#include "tests/stage/relay_process.h"

#include <QFile>
#include <QtTest>

#include <future>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

constexpr double kLouderByDb = 6.0; ///< than the person's usual level
constexpr double kLouderFromSeconds = 24;

bool isMuted()
{
    return qEnvironmentVariableIsSet("VOICEHALL_TEST_MUTED");
}

template <class Ask>
auto on(net::Loop& loop, Ask ask)
{
    std::promise<decltype(ask())> answer;
    loop.post([&] { answer.set_value(ask()); });
    return answer.get_future().get();
}

ClassScript scriptOfTheClass()
{
    QFile file(VH_SOURCE_DIR "/tests/whole/one_class.yaml");
    (void)file.open(QIODevice::ReadOnly);
    auto script = readClassScript(file.readAll().toStdString(), "one_class.yaml");
    return script ? *script : ClassScript{};
}

std::vector<Place> plannedPlaces(const ClassScript& script)
{
    std::vector<Place> places;
    for (std::optional<Place> place = Place{}; place; place = nextTurn(script, *place))
        places.push_back(*place);
    return places;
}

} // namespace

class TestOneClass : public QObject
{
    Q_OBJECT

    SystemClock m_clock;
    QTemporaryDir m_folder;
    vh::testing::RelayProcess m_relay{m_folder.filePath("relay")};
    stage::MadeGroup m_group;
    std::optional<net::KeyPin> m_pin;
    std::unique_ptr<net::LoopThread> m_chorusLoop;
    std::unique_ptr<chorus::Choir> m_choir;
    std::unique_ptr<Program> m_leader;
    std::unique_ptr<Program> m_standIn;
    std::unique_ptr<Program> m_participant;
    std::vector<Place> m_trace; ///< places as the participant was told them, without repeats
    ClassScript m_script;

    std::unique_ptr<Program> window(const QString& who, const sound::DeviceChoice& sound)
    {
        ProgramSetup setup;
        setup.clock = &m_clock;
        setup.folder = m_folder.filePath(who);
        setup.sound = sound;
        auto program = std::make_unique<Program>(setup);
        program->resize(1366, 700);
        program->show();
        return program;
    }

    wire::JoinLink baseLink() const
    {
        wire::JoinLink link;
        link.host = "127.0.0.1";
        link.port = m_relay.port();
        link.pin = m_pin;
        return link;
    }

    QString oneTimeLink(Role role) const
    {
        wire::JoinLink link = baseLink();
        link.token = stage::makeLink(m_relay.config(), m_group.id, role).value();
        return QString::fromStdString(wire::format(link));
    }

    join::JoinControl& home() { return *m_participant->joinControl(); }
    const std::optional<wire::PlaceNow>& place() { return home().follow().place(); }
    lead::LeadControl& lead() { return *m_leader->leadControl(); }

    std::optional<SeatRow> rowOf(const QString& name)
    {
        for (const SeatRow& row : lead().view().hall.seats)
            if (row.name == name)
                return row;
        return std::nullopt;
    }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look().applyTo(*qApp));
        m_script = scriptOfTheClass();
        QVERIFY(!m_script.sections.empty());
    }

    void theRelayOpensAndEverybodyComes()
    {
        QVERIFY2(m_relay.start(), m_relay.said());
        m_relay.keepPort();
        m_group = stage::makeGroup(m_relay.config(), "Harbour voices").value();
        QFile certificate(QString::fromStdString((m_relay.config().data / "own-certificate.pem").string()));
        QFile key(QString::fromStdString((m_relay.config().data / "own-key.pem").string()));
        QVERIFY(certificate.open(QIODevice::ReadOnly) && key.open(QIODevice::ReadOnly));
        m_pin = (*net::TlsContext::server({certificate.readAll().toStdString(), key.readAll().toStdString()}))->pin();

        m_leader = window("leader", sound::DeviceChoice::nothing());
        m_leader->redeem(oneTimeLink(Role::leader), "Anna");
        QVERIFY(stage::waitUntil([&] { return m_leader->leadControl() != nullptr; }));
        lead().chooseFile(VH_SOURCE_DIR "/tests/whole/one_class.yaml");
        lead().openChosen();
        QVERIFY(stage::waitUntil([&] { return lead().view().stage == lead::Stage::ready; }));

        m_standIn = window("stand-in", sound::DeviceChoice::nothing());
        m_standIn->redeem(oneTimeLink(Role::standIn), "Berta");
        QVERIFY(stage::waitUntil([&] { return m_standIn->leadControl() != nullptr; }));

        m_chorusLoop = std::make_unique<net::LoopThread>();
        chorus::ChoirOptions options;
        options.relay.port = m_relay.port();
        options.relay.tls = net::TlsContext::client(m_pin).value();
        options.code = m_group.code;
        options.homes = 3;
        const wire::Token helper = stage::makeLink(m_relay.config(), m_group.id, Role::moderator).value();
        (void)on(m_chorusLoop->loop(), [&] {
            m_choir = std::make_unique<chorus::Choir>(m_chorusLoop->loop(), m_clock, options);
            m_choir->addHelper(helper, {true, false});
            m_choir->start();
            return true;
        });
        QVERIFY(stage::waitUntil([&] { return on(m_chorusLoop->loop(), [&] { return m_choir->everybodyIn(); }); }));
    }

    void theParticipantComesInAndTheMicrophoneIsChecked()
    {
        stage::VoiceFile voice;
        voice.seconds = 180;
        voice.pauseSeconds = 0.3;
        voice.louderFromSeconds = kLouderFromSeconds;
        voice.louderByDb = kLouderByDb;
        if (isMuted()) {
            voice.levelDbfs = -200;
            voice.roomDbfs = -200;
        }
        const QString file = m_folder.filePath("voice.wav");
        QVERIFY(stage::writeVoiceFile(file.toStdString(), voice));
        m_participant = window("participant", sound::DeviceChoice::fileOf(file));
        wire::JoinLink link = baseLink();
        link.code = m_group.code;
        m_participant->join(QString::fromStdString(wire::format(link)), "Ruth");
        QVERIFY(stage::press(*m_participant, "Come in"));
        // The list of the door may still show somebody who is in already: until it is Ruth's turn.
        QVERIFY(stage::waitUntil([&] {
            (void)stage::press(*m_leader, "Let in");
            return home().model().screen() == join::Screen::agreements;
        }));
        for (const char* answer :
             {"Yes, the leader", "No", "Yes, under my name", "Yes", "Yes, kind words", "No", "Go on", "Fine"}) {
            if (!stage::waitUntil([&] { return stage::canPress(*m_participant, answer); }))
                QFAIL(qPrintable(QString("no \"%1\" on screen %2").arg(answer).arg(int(home().model().screen()))));
            QVERIFY(stage::press(*m_participant, answer));
        }
        if (isMuted()) {
            QVERIFY(stage::press(*m_participant, "Not now"));
            return;
        }
        using Check = FullCheck::Stage;
        QVERIFY(stage::waitUntil([&] { return home().model().check().full().stage() > Check::usual; }, 40s));
        for (int i = 0; i < 3; ++i) {
            QVERIFY(stage::press(*m_participant, "Leave this out"));
            stage::letRun(450ms); // a press sooner than that belongs to the one before
        }
        QVERIFY(stage::press(*m_participant, "Only I"));
        QCOMPARE(home().model().check().full().finding(), CheckFinding::fine);
        QVERIFY(stage::press(*m_participant, "Go on"));
        QCOMPARE(home().model().screen(), join::Screen::inClass);
        // The voice is its louder self by the time the class begins.
        QVERIFY(
            stage::waitUntil([&] { return home().ears().snapshot().frameCount > kLouderFromSeconds * 100 + 50; }, 40s));
    }

    void theClassGoesOnAndTheLeaderSeesTheLevel()
    {
        connect(&home().follow(), &link::ClassFollow::changed, this, [this] {
            if (place() && place()->phase != Phase::notStarted && (m_trace.empty() || m_trace.back() != place()->place))
                m_trace.push_back(place()->place);
        });
        lead().command(CommandKind::start);
        const Place first{1, 0, 0, 2}; // the first "yours" of the phrases
        QVERIFY(stage::waitUntil([&] { return place() && place()->place == first; }));
        QVERIFY(stage::waitUntil([&] { return place()->place != first; }));
        stage::letRun(1s); // the turn's result travels and is judged
        const auto row = rowOf("Ruth");
        QVERIFY(row);
        QVERIFY2(row->overUsualDb, "the leader sees no level");
        qInfo("the leader sees %+.1f dB, the voice is %+.1f dB over its usual level", double(*row->overUsualDb),
              kLouderByDb);
        QVERIFY(std::abs(*row->overUsualDb - kLouderByDb) <= 0.5);
        QCOMPARE(row->standing, Standing::inBand);
    }

    void theRelayIsKilledInTheMiddleOfATurnAndComesBack()
    {
        const Place second{1, 0, 1, 1};
        QVERIFY(stage::waitUntil([&] { return place()->place == second; }));
        const std::uint32_t turn = place()->turnSerial;
        m_relay.kill();
        QVERIFY(stage::waitUntil([&] { return home().line().state() == link::LineState::lost; }));
        QVERIFY2(m_relay.start(), m_relay.said());
        QVERIFY(stage::waitUntil([&] { return home().line().state() == link::LineState::in; }, 5s));
        QVERIFY(stage::waitUntil([&] { return m_leader->workLine()->state() == link::LineState::in; }, 5s));
        QVERIFY(place()->turnSerial >= turn);
        QCOMPARE(place()->phase, Phase::running);
    }

    void theLeaderVanishesAndAStandInTakesThePlace()
    {
        QVERIFY(stage::waitUntil([&] { return place()->place >= Place{1, 1, 0, 0}; }));
        m_leader->workLine()->pullCable(); // a crash: no goodbye
        m_leader.reset();
        QVERIFY2(stage::waitUntil([&] { return place()->line == HomeLine::leaderAway; }, 5s),
                 "homes must say so within five seconds");
        QVERIFY(stage::waitUntil([&] { return m_standIn->leadControl()->view().mayTake; }));
        m_standIn->leadControl()->takePlace();
        QVERIFY(stage::waitUntil([&] { return place()->line == HomeLine::standInLeads; }));
        QCOMPARE(QString::fromStdString(place()->leaderName), QString("Berta"));
    }

    void theLeaderReturnsAndFindsThePlace()
    {
        m_leader = window("leader", sound::DeviceChoice::nothing());
        QVERIFY(stage::press(*m_leader, "Anna"));
        QVERIFY(
            stage::waitUntil([&] { return m_leader->leadControl() && lead().view().stage == lead::Stage::inClass; }));
        QVERIFY(stage::waitUntil([&] { return lead().view().mayTake; }));
        lead().takePlace();
        QVERIFY(stage::waitUntil([&] { return place()->line == HomeLine::classRuns; }));
        QCOMPARE(QString::fromStdString(place()->leaderName), QString("Anna"));
    }

    void theTraceOfPlacesEqualsThePlan()
    {
        QVERIFY(stage::waitUntil([&] { return home().model().screen() == join::Screen::over; }, 60s));
        QCOMPARE(m_trace.size(), plannedPlaces(m_script).size());
        QVERIFY(m_trace == plannedPlaces(m_script));
        QCOMPARE(home().ears().state(), sound::EarsState::off);
        QVERIFY(stage::waitUntil([&] { return lead().view().stage == lead::Stage::over; }));
    }

    void everythingEndsCleanly()
    {
        m_participant.reset();
        m_standIn.reset();
        m_leader.reset();
        (void)on(m_chorusLoop->loop(), [&] {
            m_choir->stop();
            m_choir.reset();
            return true;
        });
        m_chorusLoop.reset();
        QCOMPARE(m_relay.stop(), std::optional(0));
    }

    void cleanup()
    {
        // What follows stands on what went before.
        if (QTest::currentTestFailed()) {
            m_participant.reset();
            m_standIn.reset();
            m_leader.reset();
            if (m_choir)
                (void)on(m_chorusLoop->loop(), [&] {
                    m_choir.reset();
                    return true;
                });
            m_chorusLoop.reset();
            m_relay.kill();
            std::_Exit(1);
        }
    }
};

QTEST_MAIN(TestOneClass)
#include "test_one_class.moc"
