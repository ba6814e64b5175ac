#include "app/help/desk_model.h"

#include "app/people/act_words.h"
#include "app/people/ago.h"
#include "common/live/place.h"

#include <QCoreApplication>

namespace vh::help
{

namespace
{

constexpr Millis kSaidFor{8'000};
constexpr std::size_t kDoorShown = 5;
constexpr qsizetype kCameShown = 3;

QString inWords(const char* text)
{
    return QCoreApplication::translate("vh::help::DeskModel", text);
}

QString fromStd(const std::string& text)
{
    return QString::fromStdString(text);
}

} // namespace

DeskModel::DeskModel() : m_people(std::make_unique<PeopleModel>()) {}

void DeskModel::take(const wire::ToClient& message, Instant now)
{
    m_words.setNow(now);
    m_people->setNow(now);
    if (m_calls.take(message))
        return;
    if (const auto* welcome = std::get_if<wire::Welcome>(&message)) {
        take(*welcome);
    } else if (const auto* open = std::get_if<wire::ClassOpen>(&message)) {
        classIs(*open);
        placeIs(std::nullopt);
    } else if (const auto* voice = std::get_if<wire::VoiceNow>(&message)) {
        m_voice = voice->state;
    } else if (const auto* place = std::get_if<wire::PlaceNow>(&message)) {
        placeIs(*place);
    } else if (const auto* onDesk = std::get_if<wire::OnDesk>(&message)) {
        m_words.take(*onDesk);
    } else if (const auto* claimed = std::get_if<wire::Claimed>(&message)) {
        m_words.take(*claimed);
    } else if (const auto* board = std::get_if<wire::Board>(&message)) {
        m_words.take(*board);
    } else if (const auto* desk = std::get_if<wire::DeskNow>(&message)) {
        m_boardOpen = desk->boardOpen;
        m_people->take(*desk);
        m_words.allIsSaid();
    } else if (const auto* seats = std::get_if<wire::Seats>(&message)) {
        m_people->take(*seats, now);
    } else if (const auto* door = std::get_if<wire::Door>(&message)) {
        m_door = *door;
    } else if (const auto* here = std::get_if<wire::Here>(&message)) {
        m_here = *here;
    } else if (const auto* acts = std::get_if<wire::Acts>(&message)) {
        m_done.clear();
        for (const wire::Act& act : acts->acts)
            m_done.push_back({actWords(act), {}, actDetail(act).simplified(), actTime(act)});
    }
}

void DeskModel::take(const wire::Welcome& welcome)
{
    m_groupName = fromStd(welcome.groupName);
    classIs(welcome.open);
    placeIs(welcome.place);
    m_voice = welcome.voice ? welcome.voice->state : wire::VoiceState::none;
    m_here = {welcome.here, welcome.helpers, welcome.hellos};
    m_people->setOwn(welcome.person);
    m_calls.setOwn(welcome.person);
    m_calls.clear();
    m_words.take(welcome);
}

/// Of another class nobody has come yet; the same one may be said again.
void DeskModel::classIs(const std::optional<wire::ClassOpen>& open)
{
    const bool another = open && (!m_open || m_open->classId != open->classId);
    if (another || !open)
        m_byHand.clear();
    if (another)
        m_people->beginClass();
    m_open = open;
}

void DeskModel::placeIs(const std::optional<wire::PlaceNow>& place)
{
    m_place = place;
    m_people->setBegun(place && place->phase != Phase::notStarted && place->phase != Phase::ended);
}

void DeskModel::setLine(LineNow line, const QString& ending)
{
    m_line = line;
    m_ending = ending;
}

void DeskModel::say(const QString& line, Instant now, NoticeLine::Tone tone)
{
    m_said = line;
    m_saidAs = tone;
    m_saidAt = now;
}

NoticeLine::State DeskModel::notice(Instant now) const
{
    using Tone = NoticeLine::Tone;
    switch (m_line) {
    case LineNow::ended:
        return {m_ending, Tone::heed};
    case LineNow::lost:
        return {inWords("Your line is lost; it is being tried again. What you press meanwhile goes out then."),
                Tone::heed};
    case LineNow::connecting:
        return {inWords("On the way to your group\u2026"), Tone::calm};
    case LineNow::up:
        break;
    }
    if (!m_said.isEmpty() && now - m_saidAt < kSaidFor)
        return {m_said, m_saidAs};
    if (!m_place)
        return {};
    const QString leader = m_place->leaderName.empty() ? inWords("the leader") : fromStd(m_place->leaderName);
    switch (m_place->line) {
    case HomeLine::leaderAway:
        return {
            inWords("The line of %1 is lost. The homes have been told; the class goes on by the clock.").arg(leader),
            Tone::heed};
    case HomeLine::calmPause:
        return {inWords("A calm pause, until somebody leads again."), Tone::heed};
    case HomeLine::standInLeads:
        return {inWords("%1 stands in and leads.").arg(fromStd(m_place->leaderName)), Tone::calm};
    default:
        return {};
    }
}

/// Where the class is, and how the leader's voice comes.
QString DeskModel::classLine() const
{
    QString line = placeLine();
    if (line.isEmpty())
        return line;
    switch (m_voice) {
    case wire::VoiceState::none:
        break;
    case wire::VoiceState::carried:
        return inWords("%1 \u00B7 the leader is heard").arg(line);
    case wire::VoiceState::muted:
        return inWords("%1 \u00B7 the leader is silent for now").arg(line);
    case wire::VoiceState::elsewhere:
        return inWords("%1 \u00B7 the leader is heard by another call").arg(line);
    }
    return line;
}

QString DeskModel::placeLine() const
{
    if (!m_open)
        return {};
    QString title = fromStd(m_open->title);
    if (!m_place || m_place->phase == Phase::notStarted)
        return inWords("%1, not begun yet").arg(title);
    if (m_place->phase == Phase::ended)
        return inWords("%1, over").arg(title);
    if (!m_script || m_place->place.section >= m_script->sections.size())
        return title;
    std::size_t step = m_place->place.step + 1U;
    std::size_t all = 0;
    for (std::size_t i = 0; i < m_script->sections.size(); ++i) {
        all += m_script->sections[i].steps.size();
        if (i < m_place->place.section)
            step += m_script->sections[i].steps.size();
    }
    return inWords("%1, step %2 of %3").arg(title).arg(step).arg(all);
}

DoorList::State DeskModel::door(Instant now) const
{
    DoorList::State state;
    for (const wire::Waiting& waiting : m_door.waiting) {
        if (state.rows.size() == kDoorShown) {
            state.more = inWords("and %1 more").arg(m_door.waiting.size() - kDoorShown);
            break;
        }
        QStringList detail;
        if (!waiting.device.empty())
            detail << fromStd(waiting.device);
        detail << agoWords(now - waiting.since);
        state.rows.push_back(
            {waiting.door, fromStd(waiting.name), detail.join(QStringLiteral(", ")),
             waiting.like.empty()
                 ? QString()
                 : inWords("Looks like %1, who is of the group. Ask who it is.").arg(fromStd(waiting.like))});
    }
    QStringList fourWords;
    for (const std::string& word : m_door.words)
        fourWords << fromStd(word);
    state.words = fourWords.join(QLatin1Char(' '));
    return state;
}

QString DeskModel::hereWords() const
{
    QStringList parts{inWords("Here: %1").arg(m_here.here)};
    if (m_people->lost() > 0)
        parts << inWords("line lost: %1").arg(m_people->lost());
    if (m_here.hellos > 0)
        parts << inWords("hellos: %1").arg(m_here.hellos);
    return parts.join(QStringLiteral(", "));
}

QString DeskModel::cameWords() const
{
    const QStringList came = m_people->justCame();
    if (came.isEmpty())
        return {};
    const QString names = came.mid(0, kCameShown).join(QStringLiteral(", "));
    const auto more = came.size() - kCameShown;
    return more > 0 ? inWords("Just came: %1 and %2 more").arg(names).arg(more) : inWords("Just came: %1").arg(names);
}

DeskView DeskModel::view(Instant now)
{
    m_words.setNow(now);
    m_people->setNow(now);
    DeskView view;
    view.groupName = m_groupName;
    view.classLine = classLine();
    view.notice = notice(now);
    view.calls = m_calls.state(now);
    view.lostLines = m_calls.lost(now);
    view.door = door(now);
    view.lists = {&m_words.toRead(), &m_words.inHand(), &m_words.board(), m_people.get()};
    const int toRead = m_words.toRead().waiting();
    view.toReadWords = toRead == 0 ? inWords("Nothing to read") : inWords("To read: %1").arg(toRead);
    view.boardWords = m_boardOpen ? inWords("The open board: lines unread") : inWords("The board: lines read first");
    view.hereWords = hereWords();
    view.came = cameWords();
    if (!m_byHand.isEmpty())
        view.byHand = inWords("By hand: %1").arg(m_byHand.join(QStringLiteral(", ")));
    view.acts = m_done;
    view.lineUp = m_line == LineNow::up;
    return view;
}

} // namespace vh::help
