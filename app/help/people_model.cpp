#include "app/help/people_model.h"

#include "app/people/ago.h"
#include "app/widgets/standing_view.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>

namespace vh::help
{

namespace
{

constexpr Millis kJustCame{60'000};
constexpr std::size_t kCameKept = 200;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::help::PeopleModel", text);
}

QString clockOf(Instant at)
{
    const QDateTime time = QDateTime::fromMSecsSinceEpoch(at.time_since_epoch().count());
    return time.toString(QStringLiteral("HH:mm"));
}

} // namespace

std::size_t PeopleModel::placeOf(std::uint32_t seat) const
{
    const auto found = std::lower_bound(m_rows.begin(), m_rows.end(), seat,
                                        [](const PersonRow& row, std::uint32_t number) { return row.seat < number; });
    return static_cast<std::size_t>(found - m_rows.begin());
}

PersonRow* PeopleModel::rowOf(PersonId person)
{
    const auto seat = m_seatOf.find(person);
    if (seat == m_seatOf.end())
        return nullptr;
    const std::size_t at = placeOf(seat->second);
    return at < m_rows.size() && m_rows[at].seat == seat->second ? &m_rows[at] : nullptr;
}

void PeopleModel::changed(std::size_t at)
{
    const QModelIndex row = index(static_cast<int>(at));
    emit dataChanged(row, row);
}

void PeopleModel::take(const wire::Seats& message, Instant now)
{
    if (message.whole)
        m_wasTold = false; // whoever is in it may have been here for long
    for (const wire::SeatName& about : message.seats)
        take(about, now, m_wasTold);
}

void PeopleModel::take(const wire::SeatName& about, Instant now, bool isNews)
{
    m_seatOf[about.person] = about.seat;
    const std::size_t at = placeOf(about.seat);
    const bool known = at < m_rows.size() && m_rows[at].seat == about.seat;
    if (about.person == m_own || (!known && !about.here && !m_resting.contains(about.person)))
        return;
    if (!known) {
        beginInsertRows({}, static_cast<int>(at), static_cast<int>(at));
        m_rows.insert(m_rows.begin() + static_cast<std::ptrdiff_t>(at), PersonRow{});
        m_rows[at].seat = about.seat;
    }
    PersonRow& row = m_rows[at];
    row.person = about.person;
    row.name = QString::fromStdString(about.name);
    if (!about.here && row.here)
        row.lostAt = now;
    if (about.here) {
        row.lostAt.reset();
        if (!known && isNews) {
            row.cameAt = now;
            row.late = m_begun;
            m_came.emplace_back(now, row.name);
            if (m_came.size() > kCameKept)
                m_came.pop_front();
        }
    }
    row.here = about.here;
    if (const auto standing = m_standings.find(row.seat); standing != m_standings.end())
        row.standing = standing->second;
    setRest(row);
    if (known)
        changed(at);
    else
        endInsertRows();
}

void PeopleModel::take(const wire::Roster& roster)
{
    if (roster.whole)
        m_standings.clear();
    for (const wire::RosterEntry& entry : roster.entries) {
        m_standings[entry.seat] = entry.standing;
        const std::size_t at = placeOf(entry.seat);
        if (at >= m_rows.size() || m_rows[at].seat != entry.seat || m_rows[at].standing == entry.standing)
            continue;
        m_rows[at].standing = entry.standing;
        if (m_levels)
            changed(at);
    }
}

void PeopleModel::take(const wire::DeskNow& message)
{
    m_wasTold = true; // it comes after the seats: whoever comes from now on has just come
    const bool levelsChanged = std::exchange(m_levels, message.levels) != message.levels;
    const auto before = std::exchange(m_resting, {});
    for (const wire::Resting& each : message.resting)
        m_resting[each.person] = {each.rest, each.until};
    for (std::size_t at = 0; at < m_rows.size(); ++at) {
        const wire::Rest was = m_rows[at].rest;
        const Instant until = m_rows[at].restUntil;
        setRest(m_rows[at]);
        if (was != m_rows[at].rest || until != m_rows[at].restUntil)
            changed(at);
    }
    for (const wire::Resting& each : message.resting) // somebody who is out has not come in
        if (!rowOf(each.person))
            if (const auto seat = m_seatOf.find(each.person); seat != m_seatOf.end())
                take({seat->second, each.person, each.name, false, 0, Addressed::notAtAll}, m_now, false);
    if (levelsChanged && !m_rows.empty())
        emit dataChanged(index(0), index(rowCount() - 1));
}

void PeopleModel::setRest(PersonRow& row) const
{
    const auto found = m_resting.find(row.person);
    const bool rests = found != m_resting.end() && found->second.until > m_now;
    row.rest = rests ? found->second.rest : wire::Rest::none;
    row.restUntil = rests ? found->second.until : Instant{};
}

void PeopleModel::setOwn(PersonId person)
{
    m_own = person;
    if (PersonRow* own = rowOf(person)) {
        const int at = static_cast<int>(own - m_rows.data());
        beginRemoveRows({}, at, at);
        m_rows.erase(m_rows.begin() + at);
        endRemoveRows();
    }
}

void PeopleModel::beginClass()
{
    beginResetModel();
    m_came.clear();
    m_standings.clear();
    std::erase_if(m_rows, [](const PersonRow& row) { return !row.here && row.rest == wire::Rest::none; });
    for (PersonRow& row : m_rows) {
        row.cameAt.reset();
        row.lostAt.reset();
        row.standing = Standing::private_;
        row.late = false;
    }
    endResetModel();
}

void PeopleModel::setNow(Instant now)
{
    const bool another =
        std::chrono::floor<std::chrono::seconds>(now) != std::chrono::floor<std::chrono::seconds>(m_now);
    m_now = now;
    if (!another)
        return;
    while (!m_came.empty() && m_came.front().first + kJustCame < now)
        m_came.pop_front();
    for (auto each = m_resting.begin(); each != m_resting.end();) {
        if (each->second.until > now) {
            ++each;
            continue;
        }
        const PersonId person = each->first;
        each = m_resting.erase(each);
        if (PersonRow* row = rowOf(person)) {
            setRest(*row);
            changed(static_cast<std::size_t>(row - m_rows.data()));
        }
    }
    emit timePassed();
}

int PeopleModel::lost() const
{
    return static_cast<int>(std::count_if(
        m_rows.begin(), m_rows.end(), [](const PersonRow& row) { return row.lostAt && row.rest != wire::Rest::out; }));
}

QStringList PeopleModel::justCame() const
{
    QStringList names;
    for (auto each = m_came.rbegin(); each != m_came.rend(); ++each)
        names << each->second;
    return names;
}

QString PeopleModel::wordsOf(const PersonRow& row) const
{
    switch (row.rest) {
    case wire::Rest::none:
        break;
    case wire::Rest::tenMinutes:
        return words("quiet until %1").arg(clockOf(row.restUntil));
    case wire::Rest::theClass:
        return words("quiet for this class");
    case wire::Rest::out:
        return words("out of this class");
    }
    if (row.lostAt)
        return words("line lost %1").arg(agoWords(std::max(m_now - *row.lostAt, Millis{1000})));
    QStringList parts;
    if (m_levels && row.standing != Standing::private_ && row.standing != Standing::away)
        parts << vh::wordsOf(row.standing);
    if (row.cameAt)
        parts << (row.late ? words("came late at %1") : words("came at %1")).arg(clockOf(*row.cameAt));
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

int PeopleModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant PeopleModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid())
        return {};
    const PersonRow& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == Qt::DisplayRole)
        return row.name;
    if (role == restsRole)
        return row.rest != wire::Rest::none;
    if (role == Qt::AccessibleTextRole) {
        const QString about = wordsOf(row);
        return about.isEmpty() ? row.name : QStringLiteral("%1, %2").arg(row.name, about);
    }
    return {};
}

} // namespace vh::help
