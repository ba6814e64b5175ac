#include "app/lead/hall_model.h"

#include "app/lead/group_line.h"
#include "app/lead/worth_words.h"
#include "app/widgets/hall_layout.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace vh::lead
{

namespace
{

constexpr float kBandStepDb = 1;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::lead::HallModel", text);
}

QString refusalOf(const Error& error, const QString& name)
{
    if (error.code == "not-agreed")
        return words("Not sent: %1 has not agreed to be addressed so.").arg(name);
    if (error.code == "not-here")
        return words("Not sent: %1 is not here just now.").arg(name);
    return words("Not sent: %1").arg(QString::fromStdString(error.message));
}

} // namespace

void HallModel::take(const wire::Roster& roster)
{
    m_seats.take(roster);
    if (m_section < 0)
        return;
    if (const SeatCounts now = counts(); now.readable() > 0)
        m_sectionCounts[m_section] = now;
}

void HallModel::setSection(std::optional<SectionKind> kind, int index)
{
    m_seats.setSection(kind);
    m_section = kind && bandFor(*kind) ? index : -1;
}

void HallModel::beginClass()
{
    m_seats.beginClass();
    m_worth.clear();
    m_open.reset();
    m_said.clear();
    m_worthSaid.clear();
    m_lastSaid.reset();
    m_guest.forget();
    m_undo.clear();
    m_section = -1;
    m_sectionCounts.clear();
}

void HallModel::toggleCover()
{
    m_covered = !m_covered;
    m_open.reset();
}

void HallModel::openSeat(int seat)
{
    if (!m_covered && m_seats.seat(seat))
        m_open = seat;
}

// --- private words ---------------------------------------------------------------------------------------------------

std::optional<wire::PrivateWord> HallModel::send(PersonId person, WordKind kind, const QString& text)
{
    m_said[person] = {Word::onItsWay, text, {}};
    m_lastSaid = person;
    return wire::PrivateWord{{}, person, kind, text.toStdString()};
}

std::optional<wire::PrivateWord> HallModel::worthWord(int line)
{
    if (m_covered || line < 0 || static_cast<std::size_t>(line) >= m_worth.size())
        return {};
    const wire::WorthOne& one = m_worth[static_cast<std::size_t>(line)];
    if (!m_worthSaid.emplace(one.person, one.reason).second)
        return {}; // once is enough
    return send(one.person, wordKindOf(one.reason), wordFor(one.reason));
}

std::optional<wire::PrivateWord> HallModel::ownWord(int which)
{
    const wire::SeatName* seat = m_open ? m_seats.seat(*m_open) : nullptr;
    const auto own = ownWords();
    if (!seat || which < 0 || static_cast<std::size_t>(which) >= own.size())
        return {};
    const OwnWord& word = own[static_cast<std::size_t>(which)];
    Agreements agreements;
    agreements.addressed = seat->addressed;
    if (!mayAddress(agreements, word.kind))
        return {};
    return send(seat->person, word.kind, QCoreApplication::translate("vh::lead", word.text));
}

void HallModel::wordAnswered(PersonId person, const Error* error)
{
    const auto found = m_said.find(person);
    if (found == m_said.end())
        return;
    const wire::SeatName* seat = m_seats.seatOf(person);
    const QString name = seat ? QString::fromStdString(seat->name) : words("this person");
    found->second.word = error ? Word::refused : Word::said;
    found->second.refusal = error ? refusalOf(*error, name) : QString();
    if (error)
        m_worthSaid.erase(person); // may be tried again
}

QString HallModel::sentWords() const
{
    if (!m_lastSaid)
        return {};
    const Said& said = m_said.at(*m_lastSaid);
    const wire::SeatName* seat = m_seats.seatOf(*m_lastSaid);
    const QString name = seat ? QString::fromStdString(seat->name) : QString();
    switch (said.word) {
    case Word::onItsWay:
        return words("On its way to %1\u2026").arg(name);
    case Word::said:
        return words("Sent to %1.").arg(name);
    case Word::refused:
        return said.refusal;
    }
    return {};
}

// --- heard by all
// ------------------------------------------------------------------------------------------------------

std::optional<wire::InviteToSpeak> HallModel::inviteOpen()
{
    const wire::SeatName* seat = m_open ? m_seats.seat(*m_open) : nullptr;
    if (!seat || !m_mayInvite)
        return {};
    return m_guest.invite(seat->person, QString::fromStdString(seat->name));
}

// --- bands -----------------------------------------------------------------------------------------------------------

float HallModel::offsetOf(const wire::SeatName& seat) const
{
    const auto moving = m_moving.find(seat.person);
    return moving != m_moving.end() ? moving->second.offsetDb : seat.bandOffsetDb;
}

std::optional<wire::SetBand> HallModel::moveBand(BandMove move)
{
    const wire::SeatName* seat = m_open ? m_seats.seat(*m_open) : nullptr;
    if (!seat)
        return {};
    const float before = offsetOf(*seat);
    std::vector<float>& undo = m_undo[seat->person];
    float after = before;
    switch (move) {
    case BandMove::askLess:
        after = before - kBandStepDb;
        break;
    case BandMove::askMore:
        after = before + kBandStepDb;
        break;
    case BandMove::asUsual:
        after = 0;
        break;
    case BandMove::undo:
        after = undo.empty() ? before : undo.back();
        break;
    }
    after = std::clamp(after, -kLargestOffsetDb, kLargestOffsetDb);
    if (after == before)
        return {};
    if (move == BandMove::undo)
        undo.pop_back();
    else
        undo.push_back(before);
    Moving& moving = m_moving[seat->person];
    moving.offsetDb = after;
    ++moving.unanswered;
    return wire::SetBand{{}, seat->person, after};
}

void HallModel::bandAnswered(PersonId person, const Error* error)
{
    const auto moving = m_moving.find(person);
    if (moving == m_moving.end())
        return;
    if (!error) // refused: what the relay last said of the seat stands
        m_seats.setBandOffset(person, moving->second.offsetDb);
    if (--moving->second.unanswered <= 0 || error)
        m_moving.erase(moving);
    if (error)
        m_undo.erase(person);
}

// --- what is shown ---------------------------------------------------------------------------------------------------

SeatCounts HallModel::counts() const
{
    SeatCounts counts = m_seats.counts();
    counts.here = static_cast<int>(m_here); // the seats also have helpers, who are not asked to speak
    return counts;
}

std::vector<WorthLineState> HallModel::worthLines(const QStringList& titles) const
{
    std::vector<WorthLineState> lines;
    for (const wire::WorthOne& one : m_worth) {
        const wire::SeatName* seat = m_seats.seatOf(one.person);
        if (!seat)
            continue;
        WorthLineState line;
        line.seat = static_cast<int>(one.seat);
        line.words = worthWords(QString::fromStdString(seat->name), one.reason, one.turns,
                                titles.value(static_cast<qsizetype>(one.section)));
        line.word = wordFor(one.reason);
        line.said = m_worthSaid.contains(one.person);
        lines.push_back(std::move(line));
    }
    return lines;
}

std::optional<SeatPanelState> HallModel::panel(const std::vector<SeatRow>& rows) const
{
    const wire::SeatName* seat = m_open ? m_seats.seat(*m_open) : nullptr;
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const SeatRow& r) { return m_open && r.seat == *m_open; });
    if (!seat || row == rows.end())
        return {};
    SeatPanelState panel;
    panel.seat = *m_open;
    panel.row = *row;
    panel.addressed = addressedWords(seat->addressed);
    const float offset = offsetOf(*seat);
    panel.band = bandWords(offset);
    panel.mayAskLess = offset > -kLargestOffsetDb;
    panel.mayAskMore = offset < kLargestOffsetDb;
    panel.mayReset = offset != 0;
    const auto undo = m_undo.find(seat->person);
    panel.mayUndo = undo != m_undo.end() && !undo->second.empty();
    Agreements agreements;
    agreements.addressed = seat->addressed;
    const auto own = ownWords();
    for (std::size_t i = 0; i < own.size(); ++i)
        if (mayAddress(agreements, own[i].kind))
            panel.words.push_back({static_cast<int>(i), QCoreApplication::translate("vh::lead", own[i].text)});
    if (m_lastSaid == seat->person)
        panel.sent = sentWords();
    panel.guest = m_guest.state(false);
    panel.mayInvite = m_mayInvite && m_guest.standing() == Guest::Standing::nobody && row->standing != Standing::away;
    return panel;
}

QString HallModel::aboutGroup(const QStringList& titles) const
{
    const auto here = m_sectionCounts.find(m_section);
    if (m_seats.places() <= HallLayout::kMostNamed || here == m_sectionCounts.end())
        return {};
    SeatCounts before;
    QString title;
    if (here != m_sectionCounts.begin()) {
        const auto previous = std::prev(here);
        before = previous->second;
        title = titles.value(previous->first);
    }
    return groupLine(counts(), before, title);
}

HallState HallModel::state(const QStringList& titles) const
{
    HallState state;
    state.covered = m_covered;
    state.guest = m_guest.state(m_covered);
    if (m_covered)
        return state;
    state.asTable = m_asTable;
    state.seats = m_seats.rows();
    for (SeatRow& row : state.seats)
        if (const wire::SeatName* seat = m_seats.seat(row.seat))
            row.heard = m_guest.heard(row.seat, seat->person);
    state.places = m_seats.places();
    state.counts = counts();
    state.group = aboutGroup(titles);
    state.worth = worthLines(titles);
    state.sent = sentWords();
    state.panel = panel(state.seats);
    return state;
}

} // namespace vh::lead
