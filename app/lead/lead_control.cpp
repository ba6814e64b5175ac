#include "app/lead/lead_control.h"

#include "app/lead/group_window.h"
#include "common/wire/join_link.h"

#include <QFutureWatcher>
#include <QtConcurrentRun>

#include <algorithm>

namespace vh::lead
{

namespace
{

constexpr std::chrono::milliseconds kBeat{100};

LeadModel::LineNow lineNow(link::LineState state)
{
    switch (state) {
    case link::LineState::in:
        return LeadModel::LineNow::up;
    case link::LineState::lost:
        return LeadModel::LineNow::lost;
    case link::LineState::ended:
        return LeadModel::LineNow::ended;
    case link::LineState::closed:
    case link::LineState::connecting:
    case link::LineState::atDoor:
        break;
    }
    return LeadModel::LineNow::connecting;
}

QString joinedWords(const std::array<std::string, 4>& words)
{
    QStringList list;
    for (const std::string& word : words)
        list << QString::fromStdString(word);
    return list.join(QLatin1Char(' '));
}

} // namespace

LeadControl::LeadControl(link::Line& line, const Clock& clock, sound::Ears& ears, QObject* parent)
    : QObject(parent), m_line(line), m_clock(clock), m_ears(ears), m_follow(line), m_room(new LeadRoom),
      m_groupWindow(new GroupWindow), m_sound(line, clock, ears), m_microphone(sound::DeviceChoice::standardDevice())
{
    connect(&line, &link::Line::received, this, &LeadControl::take);
    connect(&line, &link::Line::binaryReceived, this, &LeadControl::takeBinary);
    connect(&line, &link::Line::answered, this, &LeadControl::answered);
    connect(&line, &link::Line::stateChanged, this, [this](link::LineState state) {
        m_model.setLine(lineNow(state), m_line.ending());
        refresh();
    });
    connect(&m_follow, &link::ClassFollow::changed, this, &LeadControl::followed);
    connect(m_groupWindow, &GroupWindow::hideRequested, this, [this] {
        if (m_groupWindow->isVisible())
            toggleGroupWindow();
    });
    connect(m_groupWindow, &GroupWindow::keyboardUnwanted, this, [this] {
        if (m_room)
            m_room->window()->activateWindow();
    });
    bindRoom();
    m_model.setLine(lineNow(line.state()), line.ending());
    if (line.welcome()) // the line was up before this room was entered
        take(*line.welcome());
    m_timer.setTimerType(Qt::PreciseTimer);
    connect(&m_timer, &QTimer::timeout, this, &LeadControl::beat);
    m_timer.start(kBeat);
    refresh();
}

LeadControl::~LeadControl()
{
    if (m_listening)
        m_ears.stop();
    delete m_groupWindow;
    delete m_room;
}

void LeadControl::bindRoom()
{
    LeadRoom* room = m_room;
    connect(room, &LeadRoom::fileRequested, this, &LeadControl::chooseFile);
    connect(room, &LeadRoom::otherFileRequested, this, &LeadControl::askForFile);
    connect(room, &LeadRoom::openClassRequested, this, &LeadControl::openChosen);
    connect(room, &LeadRoom::commandRequested, this, &LeadControl::command);
    connect(room, &LeadRoom::endRequested, this, &LeadControl::endPressed);
    connect(room, &LeadRoom::changeRequested, this, &LeadControl::change);
    connect(room, &LeadRoom::deskRequested, this, &LeadControl::desk);
    connect(room, &LeadRoom::takePlaceRequested, this, &LeadControl::takePlace);
    connect(room, &LeadRoom::inviteRequested, this, &LeadControl::invite);
    connect(room, &LeadRoom::copyRequested, this, &LeadControl::handOut);
    const auto ask = [this](auto message) { m_asked[m_line.ask(std::move(message))] = {Asked::other}; };
    connect(room, &LeadRoom::letInRequested, this, [ask](quint64 door) { ask(wire::LetIn{{}, door, {}}); });
    connect(room, &LeadRoom::turnAwayRequested, this, [ask](quint64 door) { ask(wire::TurnAway{{}, door}); });
    connect(room, &LeadRoom::groupWindowRequested, this, &LeadControl::toggleGroupWindow);
    connect(room, &LeadRoom::groupWindowFillRequested, this, [this] {
        m_groupWindow->setFills(m_groupWindow->isVisible() && !m_groupWindow->fills());
        tellGroupWindow();
    });
    connect(room, &LeadRoom::groupWindowMoveRequested, this, [this] {
        if (m_groupWindow->isVisible())
            m_groupWindow->toNextDisplay();
        tellGroupWindow();
    });
    connect(room, &LeadRoom::soundCheckRequested, this, &LeadControl::openSoundCheck);
    connect(room, &LeadRoom::soundCheckCloseRequested, this, &LeadControl::closeSoundCheck);
    bindCalls();
    bindPeople();
    bindSound();
    bindPapers();
    bindPictures();
    connect(room, &LeadRoom::anotherClassRequested, this, [this] {
        m_model.leaveSummary();
        refresh();
    });
    connect(room, &LeadRoom::leaveRequested, this, &LeadControl::leaveRequested);
}

void LeadControl::say(const QString& words)
{
    m_model.say(words, m_line.relayNow());
    refresh();
}

// --- what comes ------------------------------------------------------------------------------------------------------

void LeadControl::take(const wire::ToClient& message)
{
    if (auto reassert = m_model.take(message, m_line.relayNow()))
        m_asked[m_line.ask(*reassert)] = {Asked::reassert};
    if (std::holds_alternative<wire::Welcome>(message)) {
        const link::Entry& entry = m_line.entry();
        const wire::Welcome& welcome = std::get<wire::Welcome>(message);
        m_model.setLink(welcome.code.empty() ? QString()
                                             : QString::fromStdString(wire::format(
                                                   {entry.host, entry.port, welcome.code, std::nullopt, entry.pin})));
        workOutWords();
    }
    if (std::holds_alternative<wire::ClassOpen>(message))
        m_toOpen.reset();
    if (const auto* summary = std::get_if<wire::Summary>(&message))
        tellHeld(*summary);
    followed();
}

void LeadControl::takeBinary(const QByteArray& frame)
{
    const std::span bytes(reinterpret_cast<const std::uint8_t*>(frame.constData()),
                          static_cast<std::size_t>(frame.size()));
    if (wire::binaryTypeOf(bytes) != static_cast<std::uint8_t>(wire::BinaryType::roster))
        return;
    if (const auto roster = wire::decodeRoster(bytes))
        m_model.take(*roster);
}

void LeadControl::followed()
{
    m_model.setScript(m_follow.script());
    press(m_model.moreThatWaited(m_line.relayNow()));
    if (const auto pace = m_trace.see(m_follow.script(), m_model.place(), m_model.holdsPlace(), m_line.relayNow()))
        emit classLed(*pace);
    refresh();
}

void LeadControl::answered(const RequestId& id, const wire::Ack& ack, const Error* error)
{
    const auto found = m_asked.find(id);
    if (found == m_asked.end())
        return;
    const Question question = found->second;
    m_asked.erase(found);
    const Instant now = m_line.relayNow();
    const auto sayError = [&] { m_model.say(QString::fromStdString(error->message), now); };
    switch (question.what) {
    case Asked::part:
        partAnswered(error);
        break;
    case Asked::correction:
        correctionAnswered(error);
        break;
    case Asked::open:
        m_toOpen.reset();
        if (error)
            sayError();
        else if ((m_openedHere = ack.classId))
            m_handout.offerFor(*ack.classId);
        break;
    case Asked::press:
        m_model.pressAnswered(question.press, error, now);
        press(m_model.moreThatWaited(now));
        break;
    case Asked::take:
        if (error)
            m_model.say(error->code == "not-now" ? tr("The leader is there again, so the place stays with them.")
                                                 : QString::fromStdString(error->message),
                        now);
        break;
    case Asked::invite:
        if (error)
            sayError();
        else if (ack.token) {
            const link::Entry& entry = m_line.entry();
            const auto link = wire::format({entry.host, entry.port, {}, ack.token, entry.pin});
            m_model.setInvite(question.role, QString::fromStdString(link));
            handOut(QString::fromStdString(link));
        }
        break;
    case Asked::word:
        m_model.hall().wordAnswered(question.person, error);
        break;
    case Asked::band:
        m_model.hall().bandAnswered(question.person, error);
        if (error)
            sayError();
        break;
    case Asked::speak:
        if (const QString words = m_model.hall().guest().inviteAnswered(question.person, error); !words.isEmpty())
            m_model.say(words, now);
        break;
    case Asked::item:
        if (m_model.desk().takeAnswered(question.item, error))
            sayError();
        break;
    case Asked::reassert: // refused: the relay knows better, and has said where the class is
        break;
    case Asked::other:
        if (error)
            sayError();
        break;
    }
    refresh();
}

// --- what she does ---------------------------------------------------------------------------------------------------

void LeadControl::command(CommandKind kind)
{
    press(m_model.press(kind, m_line.relayNow()));
    refresh();
}

void LeadControl::endPressed()
{
    if (m_model.pressEnd(m_line.relayNow()))
        command(CommandKind::end);
    refresh();
}

void LeadControl::takePlace()
{
    if (m_view.mayTake)
        m_asked[m_line.ask(wire::TakePlace{})] = {Asked::take};
}

void LeadControl::invite(Role role)
{
    m_asked[m_line.ask(wire::Invite{{}, role})] = {Asked::invite, role};
}

void LeadControl::toggleGroupWindow()
{
    if (m_groupWindow->isVisible())
        m_groupWindow->hide();
    else
        m_groupWindow->appear(*m_room);
    tellGroupWindow();
}

void LeadControl::tellGroupWindow()
{
    m_model.setGroupWindow({m_groupWindow->isVisible(), m_groupWindow->fills(), GroupWindow::otherDisplays()});
    refresh();
}

// --- what is shown ---------------------------------------------------------------------------------------------------

void LeadControl::beat()
{
    const Instant now = m_clock.now();
    const bool due = now - m_lastLeading >= wire::kLeadingEvery || now < m_lastLeading;
    if (m_model.holdsPlace() && due) {
        m_line.tell(wire::Leading{m_model.lease()});
        m_lastLeading = now;
    }
    refresh();
}

void LeadControl::workOutWords()
{
    const auto& pin = m_line.entry().pin;
    if (pin == m_wordsFor)
        return;
    m_wordsFor = pin;
    m_model.setFourWords({});
    if (!pin)
        return;
    auto* watcher = new QFutureWatcher<std::array<std::string, 4>>(this);
    connect(watcher, &QFutureWatcherBase::finished, this, [this, watcher, pin = *pin] {
        watcher->deleteLater();
        if (m_wordsFor == pin)
            m_model.setFourWords(joinedWords(watcher->result()));
        refresh();
    });
    watcher->setFuture(QtConcurrent::run([pin = *pin] { return wire::fourWords(pin); }));
}

QImage LeadControl::pictureOf(const std::string& file)
{
    QImage& image = m_pictures[file];
    if (image.isNull())
        if (const QByteArray png = m_follow.picture(file); !png.isEmpty())
            image.loadFromData(png, "PNG");
    return image;
}

void LeadControl::refresh()
{
    listen();
    lookAfterCalls();
    ChoiceView choice = m_choice.view();
    choice.opening = m_toOpen.has_value();
    m_model.followChanges(m_line.relayNow());
    m_model.followDesk(m_line.relayNow());
    m_view = m_model.view(m_line.relayNow(), choice, [this](const std::string& file) { return pictureOf(file); });
    m_view.papers = papersView();
    showPictures();
    if (m_room)
        m_room->setState(m_view);
    if (m_groupWindow && m_groupWindow->isVisible())
        m_groupWindow->setState(m_view.group, m_view.title, m_view.shown);
    emit viewChanged();
}

} // namespace vh::lead
