// A class that is changed while it is led, over the wire: the real relay as a process, the real programs of leader,
// stand-in and participant (offscreen), and chorus homes. More time, steps left out to end on time, a corrected text,
// the relay killed, a jump; and everybody goes the way that was agreed.
#include "app/look/look.h"
#include "app/program.h"
#include "common/script/reader.h"
#include "demo/chorus/choir.h"
#include "demo/stage/group_maker.h"
#include "demo/stage/press.h"
#include "server/net/tls_context.h"
#include "tests/stage/relay_process.h"

#include <QFile>
#include <QtTest>

#include <future>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

constexpr auto kScript = VH_SOURCE_DIR "/tests/whole/changed_class.yaml";
constexpr StepAt kBoat{1, 0};
constexpr StepAt kGate{1, 1}; ///< the least dear, and long enough
constexpr StepAt kWind{1, 2}; ///< with a slip of the pen

template <class Ask>
auto on(net::Loop& loop, Ask ask)
{
    std::promise<decltype(ask())> answer;
    loop.post([&] { answer.set_value(ask()); });
    return answer.get_future().get();
}

ClassScript scriptOfTheClass()
{
    QFile file(kScript);
    (void)file.open(QIODevice::ReadOnly);
    auto script = readClassScript(file.readAll().toStdString(), "changed_class.yaml");
    return script ? *script : ClassScript{};
}

} // namespace

class TestChangedClass : public QObject
{
    Q_OBJECT
    using Kind = lead::ChangeRequest::Kind;

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

    std::unique_ptr<Program> window(const QString& who)
    {
        ProgramSetup setup;
        setup.clock = &m_clock;
        setup.folder = m_folder.filePath(who);
        setup.sound = sound::DeviceChoice::nothing();
        auto program = std::make_unique<Program>(setup);
        program->resize(1366, 700);
        program->show();
        return program;
    }
    QString oneTimeLink(Role role) const
    {
        wire::JoinLink link;
        link.host = "127.0.0.1";
        link.port = m_relay.port();
        link.pin = m_pin;
        link.token = stage::makeLink(m_relay.config(), m_group.id, role).value();
        return QString::fromStdString(wire::format(link));
    }

    join::JoinControl& home() { return *m_participant->joinControl(); }
    const std::optional<wire::PlaceNow>& place() { return home().follow().place(); }
    lead::LeadControl& lead() { return *m_leader->leadControl(); }
    void ask(Kind kind, std::optional<StepAt> at = {}, const QString& text = {}) { lead().change({kind, at, text}); }

    template <class Look>
    bool everyHome(Look look)
    {
        return on(m_chorusLoop->loop(),
                  [&] { return std::ranges::all_of(m_choir->homes(), [&](const auto& each) { return look(*each); }); });
    }
    QString shownText()
    {
        const auto turn = home().follow().turn();
        return turn ? QString::fromStdString(turn->step->text) : QString();
    }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look().applyTo(*qApp));
        m_script = scriptOfTheClass();
        QCOMPARE(m_script.sections.size(), std::size_t{4});
    }

    void everybodyComes()
    {
        QVERIFY2(m_relay.start(), m_relay.said());
        m_relay.keepPort();
        m_group = stage::makeGroup(m_relay.config(), "Harbour voices").value();
        QFile certificate(QString::fromStdString((m_relay.config().data / "own-certificate.pem").string()));
        QFile key(QString::fromStdString((m_relay.config().data / "own-key.pem").string()));
        QVERIFY(certificate.open(QIODevice::ReadOnly) && key.open(QIODevice::ReadOnly));
        m_pin = (*net::TlsContext::server({certificate.readAll().toStdString(), key.readAll().toStdString()}))->pin();

        m_leader = window("leader");
        m_leader->redeem(oneTimeLink(Role::leader), "Anna");
        QVERIFY(stage::waitUntil([&] { return m_leader->leadControl() != nullptr; }));
        lead().chooseFile(kScript);
        lead().openChosen();
        QVERIFY(stage::waitUntil([&] { return lead().view().stage == lead::Stage::ready; }));
        m_standIn = window("stand-in");
        m_standIn->redeem(oneTimeLink(Role::standIn), "Berta");
        QVERIFY(stage::waitUntil([&] { return m_standIn->leadControl() != nullptr; }));

        m_participant = window("participant");
        m_participant->redeem(oneTimeLink(Role::participant), "Ruth");
        for (const char* answer : {"No", "No", "No", "No", "No", "No", "Go on", "Fine", "Go on without"}) {
            if (!stage::waitUntil([&] { return stage::canPress(*m_participant, answer); }))
                QFAIL(qPrintable(QString("no \"%1\" on screen %2").arg(answer).arg(int(home().model().screen()))));
            QVERIFY(stage::press(*m_participant, answer));
        }
        QVERIFY(stage::waitUntil([&] { return home().model().screen() == join::Screen::inClass; }));

        m_chorusLoop = std::make_unique<net::LoopThread>();
        chorus::ChoirOptions options;
        options.relay.port = m_relay.port();
        options.relay.tls = net::TlsContext::client(m_pin).value();
        options.code = m_group.code;
        options.homes = 3;
        options.voices = chorus::Voices::whenAlone;
        const wire::Token helper = stage::makeLink(m_relay.config(), m_group.id, Role::moderator).value();
        (void)on(m_chorusLoop->loop(), [&] {
            m_choir = std::make_unique<chorus::Choir>(m_chorusLoop->loop(), m_clock, options);
            m_choir->addHelper(helper, {true, false});
            m_choir->start();
            return true;
        });
        QVERIFY(stage::waitUntil([&] {
            return on(m_chorusLoop->loop(), [&] { return m_choir->everybodyIn() && m_choir->everybodyChecked(); });
        }));
    }

    void pressesForMoreTimeAddUpForEverybody()
    {
        connect(&home().follow(), &link::ClassFollow::changed, this, [this] {
            if (place() && place()->phase != Phase::notStarted && (m_trace.empty() || m_trace.back() != place()->place))
                m_trace.push_back(place()->place);
        });
        lead().command(CommandKind::start);
        QVERIFY(stage::waitUntil([&] { return place() && place()->phase == Phase::running; }));
        QVERIFY(stage::waitUntil([&] { return lead().view().stage == lead::Stage::inClass; }));
        for (int i = 0; i < 5; ++i)
            ask(Kind::moreTime);
        QVERIFY(stage::waitUntil([&] { return place()->turnLength == Millis{70s}; }));
        QVERIFY(home().follow().turnLeft() > Millis{50s});
    }

    void whatTheProposalNamesIsLeftOut()
    {
        ask(Kind::showTrim);
        const lead::TrimView trim = lead().view().changes.trim;
        QCOMPARE(trim.rows.size(), std::size_t{1});
        QCOMPARE(trim.rows[0].at, kGate);
        QVERIFY2(trim.headline.endsWith("it ends on time."), qPrintable(trim.headline));
        ask(Kind::agree);
        QVERIFY(stage::waitUntil([&] { return place()->leftOut == LeftOut{kGate}; }));
    }

    void aCorrectionReachesTheHomesWithoutMovingThem()
    {
        const wire::PlaceNow before = *place();
        ask(Kind::showText, kWind);
        QCOMPARE(lead().view().changes.text.text, QString("The wind is knid tod<ay>."));
        ask(Kind::correct, {}, "The wind is kind tod<ay>.");
        const auto textAtHome = [&] { return home().follow().script()->sections[1].steps[2].text; };
        QVERIFY(stage::waitUntil([&] { return textAtHome() == "The wind is kind today."; }));
        QCOMPARE(place()->revision, before.revision + 1);
        QCOMPARE(place()->turnSerial, before.turnSerial);
        QCOMPARE(place()->turnLength, before.turnLength);
        QCOMPARE(place()->leftOut, before.leftOut);
        QVERIFY(stage::waitUntil([&] { return m_leader->workLine()->unanswered() == 0; }));
    }

    void aRelayThatIsKilledKnowsAllOfItWhenItIsBack()
    {
        const wire::PlaceNow before = *place();
        m_relay.kill();
        QVERIFY(stage::waitUntil([&] { return home().line().state() == link::LineState::lost; }));
        QVERIFY2(m_relay.start(), m_relay.said());
        QVERIFY(stage::waitUntil([&] { return home().line().state() == link::LineState::in; }, 5s));
        QVERIFY(stage::waitUntil([&] { return m_leader->workLine()->state() == link::LineState::in; }, 5s));
        QCOMPARE(place()->revision, before.revision);
        QCOMPARE(place()->turnLength, before.turnLength);
        QCOMPARE(place()->leftOut, before.leftOut);
        QVERIFY(stage::waitUntil(
            [&] { return everyHome([&](const chorus::Home& each) { return each.isIn() && each.place(); }); }));
    }

    void aJumpTakesEverybodyAlong()
    {
        QVERIFY(stage::waitUntil([&] { return lead().view().hold == lead::Hold::mine; }));
        ask(Kind::showSteps);
        QCOMPARE(lead().view().changes.steps[2].when, lead::StepRow::When::leftOut);
        ask(Kind::jump, kBoat);
        QVERIFY(stage::waitUntil([&] { return place()->place == startOf(kBoat); }));
        QVERIFY(stage::waitUntil(
            [&] { return m_standIn->leadControl()->view().column.now.text == "The boat is on the lake."; }));
        // A turn in which homes speak, and are heard to its new end.
        QVERIFY(stage::waitUntil([&] { return place()->place.turn == 1; }));
        const std::uint32_t turn = place()->turnSerial;
        ask(Kind::moreTime);
        QVERIFY(stage::waitUntil([&] { return place()->turnLength == Millis{13s}; }));
        QCOMPARE(place()->turnSerial, turn);
    }

    void theTraceIsThePlanWithItsChanges()
    {
        QVERIFY(stage::waitUntil([&] { return place() && stepOf(place()->place) == kWind; }));
        QCOMPARE(shownText(), QString("The wind is kind today."));
        QVERIFY(stage::waitUntil([&] { return home().model().screen() == join::Screen::over; }, 60s));
        std::vector<Place> expected{Place{}};
        for (std::optional<Place> at = startOf(kBoat); at; at = nextTurn(m_script, *at, LeftOut{kGate}))
            expected.push_back(*at);
        QVERIFY(m_trace == expected);
        QVERIFY(stage::waitUntil([&] { return lead().view().stage == lead::Stage::over; }));
    }

    void theChorusWentTheSameWay()
    {
        QVERIFY(stage::waitUntil([&] {
            return everyHome([](const chorus::Home& each) {
                return each.place() && each.place()->phase == Phase::ended && !each.hasOpenRequests();
            });
        }));
        QVERIFY(everyHome([](const chorus::Home& each) {
            return each.script()->sections[1].steps[2].text == "The wind is kind today.";
        }));
        // The turn with more time was heard whole: it lasted 13 s.
        QVERIFY(everyHome(
            [](const chorus::Home& each) { return each.resultsMade() == 0 || each.longestResult() > Millis{12s}; }));
        const auto totals = on(m_chorusLoop->loop(), [&] { return m_choir->totals(); });
        QVERIFY(totals.resultsMade > 0);
        QCOMPARE(totals.resultsAcknowledged, totals.resultsMade);
        QCOMPARE(totals.unreadable, std::uint64_t{0});
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

QTEST_MAIN(TestChangedClass)
#include "test_changed_class.moc"
