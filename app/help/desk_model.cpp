#include "app/help/desk_model.h"

#include "app/people/ago.h"
#include "common/live/place.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::help
{

namespace
{

constexpr Millis kSaidFor{8'000};

QString words(const char* text)
{
    return QCoreApplication::translate("vh::help::DeskModel", text);
}

QString fromStd(const std::string& text)
{
    return QString::fromStdString(text);
}

} // namespace

void DeskModel::take(const wire::ToClient& message, Instant now)
{
    if (m_calls.take(message))
        return;
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        take(*welcome);
    } else if (const auto* open = std::get_if<wire::ClassOpen>(&message)) {
        m_open = *open;
        m_place.reset();
        m_seats.beginClass();
        m_byHand.clear();
    } else if (const auto* voice = std::get_if<wire::VoiceNow>(&message)) {
        m_voice = voice->state;
    } else if (const auto* place = std::get_if<wire::PlaceNow>(&message)) {
        m_place = *place;
    } else if (const auto* desk = std::get_if<wire::OnDesk>(&message)) {
        if (desk->whole)
            m_toRead.clear();
        for (const wire::DeskItem& item : desk->items) {
            m_toRead.erase(item.item);
            if (item.state == wire::DeskState::held)
                m_toRead.emplace(item.item, item);
        }
    } else if (const auto* board = std::get_if<wire::Board>(&message)) {
        for (const wire::BoardItem& item : board->items)
            addToBoard(item);
    } else if (const auto* seats = std::get_if<wire::Seats>(&message)) {
        m_seats.take(*seats, now);
    } else if (const auto* door = std::get_if<wire::Door>(&message)) {
        m_door = *door;
    } else if (const auto* here = std::get_if<wire::Here>(&message)) {
        m_here = here->here;
    }
}

void DeskModel::take(const wire::Welcome& welcome)
{
    m_groupName = fromStd(welcome.groupName);
    if (m_open && (!welcome.open || welcome.open->classId != m_open->classId))
        m_byHand.clear();
    m_open = welcome.open;
    m_place = welcome.place;
    m_voice = welcome.voice ? welcome.voice->state : wire::VoiceState::none;
    m_here = welcome.here;
    m_seats.setOwn(welcome.person);
    m_calls.setOwn(welcome.person);
    m_calls.clear();
    for (const wire::BoardItem& item : welcome.board)
        addToBoard(item);
}

void DeskModel::addToBoard(const wire::BoardItem& item)
{
    std::erase_if(m_board, [&](const wire::BoardItem& each) { return each.item == item.item; });
    if (item.gone)
        return;
    m_board.push_back(item);
    if (m_board.size() > wire::kBoardTail)
        m_board.pop_front();
}

void DeskModel::setLine(LineNow line, const QString& ending)
{
    m_line = line;
    m_ending = ending;
}

void DeskModel::say(const QString& line, Instant now)
{
    m_said = line;
    m_saidAt = now;
}

NoticeLine::State DeskModel::notice(Instant now) const
{
    using Tone = NoticeLine::Tone;
    switch (m_line) {
    case LineNow::ended:
        return {m_ending, Tone::heed};
    case LineNow::lost:
        return {words("Your line is lost; it is being tried again. What you press meanwhile goes out then."),
                Tone::heed};
    case LineNow::connecting:
        return {words("On the way to your group\u2026"), Tone::calm};
    case LineNow::up:
        break;
    }
    if (!m_said.isEmpty() && now - m_saidAt < kSaidFor)
        return {m_said, Tone::heed};
    if (!m_place)
        return {};
    const QString leader = m_place->leaderName.empty() ? words("the leader") : fromStd(m_place->leaderName);
    switch (m_place->line) {
    case HomeLine::leaderAway:
        return {words("The line of %1 is lost. The homes have been told; the class goes on by the clock.").arg(leader),
                Tone::heed};
    case HomeLine::calmPause:
        return {words("A calm pause, until somebody leads again."), Tone::heed};
    case HomeLine::standInLeads:
        return {words("%1 stands in and leads.").arg(fromStd(m_place->leaderName)), Tone::calm};
    default:
        return {};
    }
}

/// Where the class is, and how the leader's voice comes.
QString DeskModel::classLine() const
{
    const QString line = placeLine();
    if (line.isEmpty())
        return line;
    switch (m_voice) {
    case wire::VoiceState::none:
        break;
    case wire::VoiceState::carried:
        return words("%1 \u00B7 the leader is heard").arg(line);
    case wire::VoiceState::muted:
        return words("%1 \u00B7 the leader is silent for now").arg(line);
    case wire::VoiceState::elsewhere:
        return words("%1 \u00B7 the leader is heard by another call").arg(line);
    }
    return line;
}

QString DeskModel::placeLine() const
{
    if (!m_open)
        return {};
    QString title = fromStd(m_open->title);
    if (!m_place || m_place->phase == Phase::notStarted)
        return words("%1, not begun yet").arg(title);
    if (m_place->phase == Phase::ended)
        return words("%1, over").arg(title);
    if (!m_script || m_place->place.section >= m_script->sections.size())
        return title;
    std::size_t step = m_place->place.step + 1U;
    std::size_t all = 0;
    for (std::size_t i = 0; i < m_script->sections.size(); ++i) {
        all += m_script->sections[i].steps.size();
        if (i < m_place->place.section)
            step += m_script->sections[i].steps.size();
    }
    return words("%1, step %2 of %3").arg(title).arg(step).arg(all);
}

std::optional<wire::Decide> DeskModel::decide(std::uint64_t item, wire::Decision decision) const
{
    const auto found = m_toRead.find(item);
    return found == m_toRead.end() ? std::nullopt
                                   : std::optional(wire::Decide{{}, item, found->second.change, decision});
}

DeskView DeskModel::view(Instant now) const
{
    DeskView view;
    view.groupName = m_groupName;
    view.classLine = classLine();
    view.notice = notice(now);
    view.calls = m_calls.state(now);
    view.lostLines = m_calls.lost(now);
    view.lineUp = m_line == LineNow::up;
    for (const auto& [item, line] : m_toRead)
        view.toRead.push_back({item, line.name.empty() ? words("Somebody") : fromStd(line.name),
                               agoWords(now - line.at), fromStd(line.text), false});
    for (const wire::BoardItem& item : m_board) {
        const bool isNotice = item.kind == wire::ItemKind::notice;
        view.board.push_back(
            {item.item, isNotice ? words("From the desk") : fromStd(item.name), {}, fromStd(item.text), isNotice});
    }
    for (const wire::Waiting& waiting : m_door.waiting) {
        QStringList detail;
        if (!waiting.device.empty())
            detail << fromStd(waiting.device);
        detail << agoWords(now - waiting.since);
        view.door.rows.push_back({waiting.door, fromStd(waiting.name), detail.join(QStringLiteral(", "))});
    }
    QStringList fourWords;
    for (const std::string& word : m_door.words)
        fourWords << fromStd(word);
    view.door.words = fourWords.join(QLatin1Char(' '));
    QStringList here;
    QStringList lost;
    for (const SeatBook::Somebody& each : m_seats.people()) {
        if (each.lostAt)
            lost << words("%1: line lost %2 ago").arg(each.name, agoWords(std::max(now - *each.lostAt, Millis{1000})));
        else
            here << each.name;
    }
    view.hereWords =
        lost.isEmpty() ? words("Here: %1").arg(m_here) : words("Here: %1, line lost: %2").arg(m_here).arg(lost.size());
    view.lost = lost.join(QLatin1Char('\n'));
    view.names = here.join(QStringLiteral(", "));
    if (!m_byHand.isEmpty())
        view.byHand = words("By hand: %1").arg(m_byHand.join(QStringLiteral(", ")));
    return view;
}

} // namespace vh::help
