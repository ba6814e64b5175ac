#include "app/help/desk_control.h"

#include "app/help/ready_replies.h"

#include <QApplication>

namespace vh::help
{

namespace
{

constexpr std::chrono::milliseconds kBeat{500};

DeskModel::LineNow lineNow(link::LineState state)
{
    switch (state) {
    case link::LineState::in:
        return DeskModel::LineNow::up;
    case link::LineState::lost:
        return DeskModel::LineNow::lost;
    case link::LineState::ended:
        return DeskModel::LineNow::ended;
    case link::LineState::closed:
    case link::LineState::connecting:
    case link::LineState::atDoor:
        break;
    }
    return DeskModel::LineNow::connecting;
}

} // namespace

DeskControl::DeskControl(link::Line& line, const QString& folder, QObject* parent)
    : QObject(parent), m_line(line), m_folder(folder), m_follow(line), m_room(new DeskRoom)
{
    bindLine();
    bindRoom();
    bindLines();
    bindPictures();
    m_room->setReplies(keptReplies(m_folder));
    if (line.welcome()) // the line was up before this room was entered
        m_model.take(*line.welcome(), line.relayNow());
    connect(&m_timer, &QTimer::timeout, this, &DeskControl::beat);
    m_timer.start(kBeat);
    lineChanged();
}

DeskControl::~DeskControl()
{
    delete m_room;
}

void DeskControl::bindLine()
{
    connect(&m_line, &link::Line::received, this, [this](const wire::ToClient& message) {
        m_model.take(message, m_line.relayNow());
        beat();
    });
    connect(&m_line, &link::Line::binaryReceived, this, [this](const QByteArray& frame) {
        const auto* bytes = reinterpret_cast<const std::uint8_t*>(frame.constData());
        if (const auto roster = wire::decodeRoster({bytes, static_cast<std::size_t>(frame.size())}))
            m_model.take(*roster);
    });
    connect(&m_line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack&, const Error* error) { answered(id, error); });
    connect(&m_line, &link::Line::stateChanged, this, &DeskControl::lineChanged);
    connect(&m_follow, &link::ClassFollow::changed, this, [this] {
        m_model.setScript(m_follow.script());
        beat();
    });
}

void DeskControl::bindRoom()
{
    DeskRoom* room = m_room;
    connect(room, &DeskRoom::letInRequested, this, [this](quint64 door) { ask(wire::LetIn{{}, door, {}}); });
    connect(room, &DeskRoom::turnAwayRequested, this, [this](quint64 door) { ask(wire::TurnAway{{}, door}); });
    connect(room, &DeskRoom::callTakeRequested, this, [this](quint64 call) { ask(wire::HelpTake{{}, call}); });
    connect(room, &DeskRoom::callDoneRequested, this, [this](quint64 call, const QString& outcome) {
        ask(wire::HelpDone{{}, call, outcome.toStdString()});
    });
    connect(room, &DeskRoom::lookRequested, this, [this](const PersonId& person) {
        ask(wire::ContactAsk{{}, person, wire::Because::lineLost});
    });
    connect(room, &DeskRoom::lineDoneRequested, this, [this](const PersonId& person, const QString& outcome) {
        ask(wire::LineDone{{}, person, outcome.toStdString()});
    });
    connect(room, &DeskRoom::noticeRequested, this, [this](const QString& text) {
        ask(wire::Notice{{}, text.toStdString()});
    });
    connect(room, &DeskRoom::attendRequested, this, [this](const QString& name) {
        ask(wire::AttendByHand{{}, name.toStdString()}, [this, name](const Error* error) {
            if (!error)
                m_model.attended(name);
        });
    });
    connect(room, &DeskRoom::leaveRequested, this, &DeskControl::leaveRequested);
}

/// What people wrote, and people themselves.
void DeskControl::bindLines()
{
    DeskRoom* room = m_room;
    connect(room, &DeskRoom::decisionRequested, this, &DeskControl::decide);
    connect(room, &DeskRoom::takeBackRequested, this, &DeskControl::takeBack);
    connect(room, &DeskRoom::answerRequested, this, &DeskControl::answer);
    connect(room, &DeskRoom::restRequested, this, &DeskControl::rest);
    connect(room, &DeskRoom::claimRequested, this, [this](quint64 item, bool on) {
        m_line.tell(wire::Claim{item, on});
    });
    connect(room, &DeskRoom::actsRequested, this, [this] { m_line.tell(wire::ActsAsk{}); });
    connect(room, &DeskRoom::sayRequested, this, &DeskControl::sayDone);
    connect(room, &DeskRoom::repliesChanged, this, [this](const QStringList& replies) {
        if (!m_folder.isEmpty() && !keepReplies(m_folder, replies))
            say(tr("The ready-made answers cannot be kept. Is the disk full?"));
    });
}

void DeskControl::decide(quint64 item, wire::Decision decision)
{
    const auto wanted = m_model.words().decide(item, decision);
    if (!wanted)
        return;
    m_model.words().setOnItsWay(item, true);
    m_model.acts().did(item);
    ask(*wanted, [this, item](const Error* error) {
        m_model.words().setOnItsWay(item, false);
        const bool back = m_thenBack.erase(item) > 0;
        if (error)
            m_model.acts().didNot(item);
        else if (back)
            takeBack(item);
    });
}

void DeskControl::takeBack(quint64 item)
{
    if (item == 0)
        return takeBackLast();
    if (const WordRow* row = m_model.words().find(item); row && row->onItsWay) {
        m_thenBack.insert(item); // as soon as it is known what became of it
        return;
    }
    const auto wanted = m_model.words().decide(item, wire::Decision::hold);
    if (!wanted)
        return;
    m_model.acts().didNot(item);
    m_model.words().setOnItsWay(item, true);
    ask(*wanted, [this, item](const Error* error) {
        m_model.words().setOnItsWay(item, false);
        if (!error && m_room)
            m_room->chooseToRead(item);
    });
}

void DeskControl::takeBackLast()
{
    const auto last = m_model.acts().takeLast(m_model.words());
    if (!last)
        return sayDone(tr("There is nothing of yours to take back."));
    if (last->item != 0)
        return takeBack(last->item);
    QString name;
    for (const PersonRow& row : m_model.people().rows())
        if (row.person == last->person)
            name = row.name;
    rest(last->person, name, wire::Rest::none, {});
}

void DeskControl::answer(quint64 item, bool toAll, const QString& text)
{
    const WordRow* row = m_model.words().find(item);
    const QString name = row ? row->name : QString();
    m_model.words().setOnItsWay(item, true);
    ask(wire::Reply{{}, item, toAll, text.toStdString()}, [this, item, toAll, name](const Error* error) {
        m_model.words().setOnItsWay(item, false);
        if (!error)
            sayDone(toAll ? tr("Your answer is on the board.") : tr("%1 has your answer.").arg(name));
    });
}

void DeskControl::rest(PersonId person, const QString& name, wire::Rest rest, const QString& reason)
{
    if (person.isNull())
        return say(tr("Who wrote this is no longer known here. Look for the name among those who are here."));
    if (rest != wire::Rest::none)
        m_model.acts().rested(person);
    ask(wire::SetRest{{}, person, rest, reason.toStdString()}, [this, name, rest](const Error* error) {
        if (error)
            return;
        switch (rest) {
        case wire::Rest::none:
            return sayDone(tr("%1 may write and come in again.").arg(name));
        case wire::Rest::tenMinutes:
            return sayDone(tr("%1 is asked to be quiet for 10 minutes. 0 takes it back.").arg(name));
        case wire::Rest::theClass:
            return sayDone(tr("%1 is asked to be quiet for this class. 0 takes it back.").arg(name));
        case wire::Rest::out:
            return sayDone(tr("%1 is out of this class. 0 takes it back.").arg(name));
        }
    });
}

void DeskControl::answered(const RequestId& id, const Error* error)
{
    const auto found = m_asked.find(id);
    if (found == m_asked.end())
        return;
    const Done done = std::move(found->second);
    m_asked.erase(found);
    if (error) // in words: what somebody else has done with it, or why it cannot be
        sayDone(QString::fromStdString(error->message));
    if (done)
        done(error);
    beat();
}

void DeskControl::say(const QString& words)
{
    m_model.say(words, m_line.relayNow());
    beat();
}

void DeskControl::sayDone(const QString& words)
{
    m_model.say(words, m_line.relayNow(), NoticeLine::Tone::calm);
    beat();
}

void DeskControl::lineChanged()
{
    m_model.setLine(lineNow(m_line.state()), m_line.ending());
    beat();
}

/// Heard, and shown to whoever has another window in front.
void DeskControl::ringForCalls()
{
    if (!m_model.calls().rings(RingsFor::helper, m_line.relayNow()))
        return;
    m_bell.ring();
    if (m_room)
        QApplication::alert(m_room->window());
}

void DeskControl::beat()
{
    ringForCalls();
    m_view = m_model.view(m_line.relayNow());
    m_view.picture = m_pictures.view(m_line.relayNow());
    if (m_room)
        m_room->setState(m_view);
    emit viewChanged();
}

} // namespace vh::help
