#include "app/help/desk_control.h"

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

DeskControl::DeskControl(link::Line& line, QObject* parent)
    : QObject(parent), m_line(line), m_follow(line), m_room(new DeskRoom)
{
    connect(&line, &link::Line::received, this, [this](const wire::ToClient& message) {
        m_model.take(message, m_line.relayNow());
        beat();
    });
    connect(&line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack&, const Error* error) { answered(id, error); });
    connect(&line, &link::Line::stateChanged, this, &DeskControl::lineChanged);
    connect(&m_follow, &link::ClassFollow::changed, this, [this] {
        m_model.setScript(m_follow.script());
        beat();
    });
    bindRoom();
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

void DeskControl::bindRoom()
{
    const auto ask = [this](auto message) { m_asked.insert(m_line.ask(std::move(message))); };
    DeskRoom* room = m_room;
    const auto decide = [this, ask](quint64 item, wire::Decision decision) {
        if (const auto wanted = m_model.decide(item, decision))
            ask(*wanted);
    };
    connect(room, &DeskRoom::showRequested, this, [decide](quint64 item) { decide(item, wire::Decision::show); });
    connect(room, &DeskRoom::setAsideRequested, this,
            [decide](quint64 item) { decide(item, wire::Decision::setAside); });
    connect(room, &DeskRoom::letInRequested, this, [ask](quint64 door) { ask(wire::LetIn{{}, door, {}}); });
    connect(room, &DeskRoom::turnAwayRequested, this, [ask](quint64 door) { ask(wire::TurnAway{{}, door}); });
    connect(room, &DeskRoom::callTakeRequested, this, [ask](quint64 call) { ask(wire::HelpTake{{}, call}); });
    connect(room, &DeskRoom::callDoneRequested, this, [ask](quint64 call, const QString& outcome) {
        ask(wire::HelpDone{{}, call, outcome.toStdString()});
    });
    connect(room, &DeskRoom::lookRequested, this, [ask](const PersonId& person) {
        ask(wire::ContactAsk{{}, person, wire::Because::lineLost});
    });
    connect(room, &DeskRoom::lineDoneRequested, this, [ask](const PersonId& person, const QString& outcome) {
        ask(wire::LineDone{{}, person, outcome.toStdString()});
    });
    connect(room, &DeskRoom::noticeRequested, this, [ask](const QString& text) {
        ask(wire::Notice{{}, text.toStdString()});
    });
    connect(room, &DeskRoom::attendRequested, this, [this](const QString& name) {
        m_byHand[m_line.ask(wire::AttendByHand{{}, name.toStdString()})] = name;
    });
    connect(room, &DeskRoom::leaveRequested, this, &DeskControl::leaveRequested);
}

void DeskControl::answered(const RequestId& id, const Error* error)
{
    const auto byHand = m_byHand.find(id);
    const bool mine = m_asked.erase(id) > 0 || byHand != m_byHand.end();
    if (!mine)
        return;
    if (error)
        m_model.say(QString::fromStdString(error->message), m_line.relayNow());
    if (byHand != m_byHand.end()) {
        if (!error)
            m_model.attended(byHand->second);
        m_byHand.erase(byHand);
    }
    beat();
}

void DeskControl::say(const QString& words)
{
    m_model.say(words, m_line.relayNow());
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
    if (m_room)
        m_room->setState(m_view);
    emit viewChanged();
}

} // namespace vh::help
