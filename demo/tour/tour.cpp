#include "demo/tour/tour.h"

#include "common/script/reader.h"
#include "common/script/spoken_pace.h"
#include "demo/stage/leader_voice_file.h"
#include "demo/stage/press.h"

#include <QDir>
#include <QFile>

#include <future>
#include <iostream>
#include <sys/resource.h>

namespace vh::tour
{

namespace
{

constexpr QSize kScreen(1366, 700); ///< 1366x768 less title and task bars
const char kGroupName[] = "Lakeside voices";

template <class Ask>
auto on(net::Loop& loop, Ask ask)
{
    std::promise<decltype(ask())> answer;
    loop.post([&] { answer.set_value(ask()); });
    return answer.get_future().get();
}

} // namespace

Tour::Tour(TourOptions options) : m_options(std::move(options)), m_clock(m_options.speed) {}

Tour::~Tour()
{
    m_participant.reset();
    m_helper.reset();
    m_leader.reset();
    if (m_choir)
        (void)on(m_chorusLoop->loop(), [this] {
            m_choir->stop();
            m_choir.reset();
            return true;
        });
    m_chorusLoop.reset();
    m_relay.reset();
}

int Tour::run()
{
    try {
        openHouse();
        leaderOpensClass();
        helperComes();
        chorusComes();
        participantComes();
        classGoesOn();
        participantIsGreeted();
        voiceCannotBeJudged();
        wordsGoRound();
        helpIsCalled();
        lineIsLost();
        leaderIsAway();
        classEnds();
        somebodyElseComes();
        leaderWrites();
        tellCost();
    } catch (const Failed& failed) {
        std::cerr << "the tour stopped: " << failed.what << '\n';
        return 1;
    }
    if (m_pictures > 0)
        std::cout << m_pictures << " pictures in " << m_options.pictures.toStdString() << '\n';
    return 0;
}

void Tour::need(bool held, const char* what) const
{
    if (!held)
        throw Failed{what};
}

void Tour::until(const std::function<bool()>& condition, const char* what) const
{
    need(stage::waitUntil(condition, std::chrono::seconds(60)), what);
}

void Tour::pressIn(QWidget& room, const QString& words) const
{
    until([&] { return stage::canPress(room, words); }, qPrintable("no control \"" + words + "\""));
    need(stage::press(room, words), "a control that went away");
}

void Tour::picture(QWidget& of, const QString& name)
{
    if (m_options.pictures.isEmpty())
        return;
    of.window()->activateWindow();
    stage::letRun(std::chrono::milliseconds(60));
    pictureAsItIs(of, name);
}

void Tour::pictureAsItIs(QWidget& of, const QString& name)
{
    if (m_options.pictures.isEmpty())
        return;
    need(of.grab().save(QDir(m_options.pictures).filePath(name + ".png")), "a picture could not be written");
    ++m_pictures;
}

std::unique_ptr<Program> Tour::window(const QString& who, const sound::DeviceChoice& sound)
{
    ProgramSetup setup;
    setup.clock = &m_clock;
    setup.folder = m_folder.filePath(who);
    setup.sound = sound;
    setup.loudspeaker = sound::DeviceChoice::fileOf({}); // nobody is in the room
    setup.classes = QStringLiteral(VH_CONTENT_DIR "/classes");
    auto program = std::make_unique<Program>(setup);
    program->resize(kScreen);
    program->show();
    return program;
}

QString Tour::oneTimeLink(Role role)
{
    const auto token = stage::makeLink(m_config, m_group.id, role);
    need(token.has_value(), "no link could be made");
    wire::JoinLink link;
    link.host = "127.0.0.1";
    link.port = m_relay->port();
    link.pin = m_relay->pin();
    link.token = *token;
    return QString::fromStdString(wire::format(link));
}

void Tour::openHouse()
{
    need(m_folder.isValid(), "no temporary folder");
    if (!m_options.pictures.isEmpty())
        need(QDir().mkpath(m_options.pictures), "the folder for pictures could not be made");
    m_config.data = m_folder.filePath("relay").toStdString();
    m_config.port = 0;
    m_config.ops = false;
    m_relay = std::make_unique<ops::Relay>(m_config, &m_clock);
    const auto started = m_relay->start();
    need(started.has_value(), started ? "" : started.error().message.c_str());
    const auto group = stage::makeGroup(m_config, kGroupName);
    need(group.has_value(), "no group could be made");
    m_group = *group;
}

void Tour::leaderOpensClass()
{
    QFile file(m_options.script);
    need(file.open(QIODevice::ReadOnly), "the class script cannot be read");
    const auto script = readClassScript(file.readAll().toStdString(), m_options.script.toStdString(), plannedAsSpoken);
    need(script.has_value(), "the class script has mistakes");
    const QString voice = m_folder.filePath("leader.wav");
    need(stage::writeLeaderVoice(voice.toStdString(), *script, 60 * 25), "no voice could be written for the leader");
    m_leader = window("leader", sound::DeviceChoice::fileOf(voice));
    picture(*m_leader, "first-new");
    m_leader->redeem(oneTimeLink(Role::leader), "Anna");
    until([&] { return m_leader->leadControl() != nullptr; }, "the leader did not come in");
    m_leader->leadControl()->chooseFile(m_options.script);
    picture(*m_leader, "lead-choose");
    m_leader->leadControl()->openChosen();
    until([&] { return m_leader->leadControl()->view().stage == lead::Stage::ready; }, "the class did not open");
}

void Tour::helperComes()
{
    m_helper = window("helper", sound::DeviceChoice::nothing());
    m_helper->redeem(oneTimeLink(Role::moderator), "Piet");
    until([&] { return m_helper->deskControl() != nullptr; }, "the helper did not come in");
}

void Tour::chorusComes()
{
    m_chorusLoop = std::make_unique<net::LoopThread>();
    chorus::ChoirOptions options;
    options.relay.port = m_relay->port();
    const auto tls = net::TlsContext::client(m_relay->pin());
    need(tls.has_value(), "no TLS");
    options.relay.tls = *tls;
    options.code = m_group.code;
    options.homes = m_options.homes;
    options.voices = m_options.onlyAlone ? chorus::Voices::whenAlone : chorus::Voices::always;
    const auto token = stage::makeLink(m_config, m_group.id, Role::moderator);
    need(token.has_value(), "no link could be made");
    (void)on(m_chorusLoop->loop(), [&] {
        m_choir = std::make_unique<chorus::Choir>(m_chorusLoop->loop(), m_clock, options);
        m_choir->addHelper(*token, {true, false});
        m_choir->start();
        m_choir->letLateComersCome();
        return true;
    });
    const auto arrived = [&] { return m_choir->everybodyIn() && m_choir->everybodyChecked(); };
    until([&] { return on(m_chorusLoop->loop(), arrived); }, "not all homes came in");
    picture(*m_leader, "lead-ready");
    pressIn(*m_leader, "Your sound");
    picture(*m_leader, "lead-sound-check");
    pressIn(*m_leader, "Back to the class");
}

std::optional<TurnAt> Tour::now()
{
    return m_participant->joinControl()->follow().turn();
}

void Tour::skipTo(SectionKind kind, TurnKind turn)
{
    auto& lead = *m_leader->leadControl();
    const auto inSection = [&] {
        const auto at = now();
        return at && at->section->kind == kind;
    };
    for (int presses = 0; !inSection() && presses < 200; ++presses) {
        const auto before = m_participant->joinControl()->follow().place();
        lead.command(CommandKind::skip);
        until([&] { return m_participant->joinControl()->follow().place()->serial != before->serial; },
              "a skip did nothing");
        stage::letRun(std::chrono::milliseconds(30)); // until the leader's own screen knows it too
    }
    until([&] { return inSection() && now()->turn->kind == turn; }, "a turn did not come");
}

void Tour::classGoesOn()
{
    auto& lead = *m_leader->leadControl();
    lead.command(CommandKind::start);
    until([&] { return now().has_value() && lead.view().stage == lead::Stage::inClass; }, "the class did not start");
    picture(*m_participant, "join-opening");
    skipTo(SectionKind::sustainedVowel, TurnKind::yours);
    picture(*m_participant, "join-vowel");
    picture(*m_leader, "lead-vowel");
    skipTo(SectionKind::pause, TurnKind::listen);
    picture(*m_participant, "join-water");
    skipTo(SectionKind::phrases, TurnKind::yours);
    // Three steps of phrases, so that there are standings to show.
    for (int step = 0; step < 3; ++step) {
        const auto place = m_participant->joinControl()->follow().place()->place;
        until([&] { return m_participant->joinControl()->follow().place()->place.step != place.step; },
              "the clock did not go on");
    }
    until([&] { return now()->turn->kind == TurnKind::yours && now()->round->moreVoice; }, "no second round came");
    stage::letRun(std::chrono::milliseconds(150));
    picture(*m_participant, "join-phrase");
    picture(*m_leader, "lead-phrase");
    picture(*m_helper, "desk-class");
    lookAtPeople();
    emit lead.room().groupWindowRequested();
    picture(lead.groupWindow(), "group-window");
}

/// The leader's side of the class: its table, one seat, worth a word, covered, and with the keyboard elsewhere.
void Tour::lookAtPeople()
{
    auto& lead = *m_leader->leadControl();
    const auto hall = [&]() -> const lead::HallState& { return lead.view().hall; };
    pressIn(*m_leader, "Table");
    until([&] { return hall().asTable; }, "the table did not come");
    picture(*m_leader, "lead-table");
    stage::letRun(std::chrono::milliseconds(450)); // the same control: sooner it would be one press
    pressIn(*m_leader, "Hall");
    until([&] { return !hall().asTable; }, "the hall did not come back");
    need(!hall().seats.empty(), "nobody sits in the hall");
    emit lead.room().seatRequested(hall().seats.front().seat);
    picture(*m_leader, "lead-seat");
    pressIn(*m_leader, "Close");
    if (stage::canPress(*m_helper, "I take it")) { // a simulated home has called; its call stands over worth a word
        pressIn(*m_helper, "I take it");
        pressIn(*m_helper, "Done");
        until([&] { return lead.view().calls.rows.empty(); }, "a call was not closed");
    }
    if (!hall().worth.empty()) {
        lead.sendWorthWord(0);
        stage::letRun(std::chrono::milliseconds(200));
    }
    picture(*m_leader, "lead-worth");
    pressIn(*m_leader, "Cover the hall");
    until([&] { return hall().covered; }, "the hall was not covered");
    picture(*m_leader, "lead-covered");
    stage::letRun(std::chrono::milliseconds(450)); // the same control: sooner it would be one press
    pressIn(*m_leader, "Uncover the hall");
    m_helper->activateWindow(); // the keyboard goes elsewhere
    stage::letRun(std::chrono::milliseconds(60));
    pictureAsItIs(*m_leader, "lead-keyboard");
    m_leader->activateWindow();
}

void Tour::leaderIsAway()
{
    const QString folder = m_folder.filePath("leader");
    m_leader->toFirst(); // her program is gone; a crash says no more than this
    picture(*m_leader, "first-known");
    const auto& follow = m_participant->joinControl()->follow();
    until([&] { return follow.place()->line == HomeLine::leaderAway; }, "nobody noticed that the leader was away");
    picture(*m_participant, "join-leader-away");
    until([&] { return follow.place()->line == HomeLine::calmPause; }, "the calm pause did not come");
    picture(*m_participant, "join-calm-pause");
    pressIn(*m_leader, "Anna");
    until([&] { return m_leader->leadControl() && m_leader->leadControl()->view().stage == lead::Stage::inClass; },
          "the leader did not find her class");
    picture(*m_leader, "lead-back");
    m_leader->leadControl()->command(CommandKind::resume);
    until([&] { return follow.place()->phase == Phase::running; }, "the class did not go on");
}

void Tour::classEnds()
{
    skipTo(SectionKind::closing, TurnKind::listen);
    picture(*m_leader, "lead-closing");
    auto& lead = *m_leader->leadControl();
    lead.endPressed();
    picture(*m_leader, "lead-end-asked");
    lead.endPressed();
    until([&] { return lead.view().stage == lead::Stage::over && !lead.view().summary.lines.isEmpty(); },
          "no summary came");
    until([&] { return m_participant->joinControl()->model().screen() == join::Screen::over; },
          "the class did not end");
    picture(*m_leader, "lead-over");
    picture(*m_participant, "join-over");
    need(m_participant->joinControl()->ears().state() == sound::EarsState::off, "the microphone was not released");
    const lead::LeadView& view = lead.view();
    std::cout << view.summary.headline.toStdString() << '\n';
    for (const QString& line : view.summary.lines)
        std::cout << "  " << line.toStdString() << '\n';
}

/// All of it in one process: relay, homes with their voices, three windows.
void Tour::tellCost()
{
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    const double processor = seconds(used.ru_utime) + seconds(used.ru_stime);
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - m_began;
    const auto [spoken, voices] =
        on(m_chorusLoop->loop(), [&] { return std::pair(m_choir->totals().spoken, m_choir->voiceSeconds()); });
    std::cout << m_options.homes << " homes spoke " << spoken.count() / 1000 << " s in all; clock " << m_options.speed
              << " times as fast; " << processor / wall.count() << " cores used, " << voices / wall.count()
              << " of them for voices\n";
}

} // namespace vh::tour
