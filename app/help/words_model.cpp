#include "app/help/words_model.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::help
{

using wire::DeskState;

namespace
{

/// So long the last of what was dealt with stays to be seen, when nothing else is to read.
constexpr Millis kLingers{8'000};

QString words(const char* text)
{
    return QCoreApplication::translate("vh::help::WordsModel", text);
}

/// So that what was done stays to be seen beside a long name.
QString shortName(const QString& name)
{
    constexpr qsizetype kLong = 16;
    return name.size() > kLong ? name.left(kLong - 1) + QChar(0x2026) : name;
}

QString goingUp(const WordRow& row, Instant now)
{
    const Millis left = row.due ? std::max(*row.due - now, Millis{0}) : Millis{0};
    const auto seconds = std::chrono::ceil<std::chrono::seconds>(left).count();
    return seconds > 0 ? words("Going up in %1 s").arg(seconds) : words("Going up now");
}

} // namespace

bool isSettled(const WordRow& row)
{
    return row.state != DeskState::held;
}

int WordsModel::placeOf(std::uint64_t order) const
{
    return static_cast<int>(std::lower_bound(m_orders.begin(), m_orders.end(), order) - m_orders.begin());
}

int WordsModel::rowOf(std::uint64_t item) const
{
    const auto found = m_orderOf.find(item);
    return found == m_orderOf.end() ? -1 : placeOf(found->second);
}

const WordRow* WordsModel::find(std::uint64_t item) const
{
    const int row = rowOf(item);
    return row < 0 ? nullptr : &m_rows[static_cast<std::size_t>(row)];
}

void WordsModel::put(WordRow row, std::uint64_t order)
{
    int at = rowOf(row.item);
    if (at >= 0 && m_orders[static_cast<std::size_t>(at)] != order) {
        removeRows_(at, 1);
        at = -1;
    }
    if (at < 0) {
        at = placeOf(order);
        beginInsertRows({}, at, at);
        m_waiting += isSettled(row) ? 0 : 1;
        m_orderOf[row.item] = order;
        m_orders.insert(m_orders.begin() + at, order);
        m_rows.insert(m_rows.begin() + at, std::move(row));
        endInsertRows();
        return;
    }
    WordRow& old = m_rows[static_cast<std::size_t>(at)];
    row.readBy = isSettled(row) ? QString() : old.readBy;
    row.onItsWay = old.onItsWay && row.change == old.change;
    if (row.picture.isNull())
        row.picture = old.picture;
    if (!isSettled(old) && isSettled(row))
        m_settledAt = m_now;
    m_waiting += (isSettled(row) ? 0 : 1) - (isSettled(old) ? 0 : 1);
    old = std::move(row);
    changed(at);
}

void WordsModel::remove(std::uint64_t item)
{
    if (const int row = rowOf(item); row >= 0)
        removeRows_(row, 1);
}

void WordsModel::removeRows_(int first, int count)
{
    beginRemoveRows({}, first, first + count - 1);
    for (int row = first; row < first + count; ++row) {
        m_waiting -= isSettled(m_rows[static_cast<std::size_t>(row)]) ? 0 : 1;
        m_orderOf.erase(m_rows[static_cast<std::size_t>(row)].item);
    }
    m_orders.erase(m_orders.begin() + first, m_orders.begin() + first + count);
    m_rows.erase(m_rows.begin() + first, m_rows.begin() + first + count);
    endRemoveRows();
}

void WordsModel::changed(int row)
{
    emit dataChanged(index(row), index(row));
}

void WordsModel::setReadBy(std::uint64_t item, const QString& name)
{
    const int row = rowOf(item);
    if (row < 0 || m_rows[static_cast<std::size_t>(row)].readBy == name)
        return;
    m_rows[static_cast<std::size_t>(row)].readBy = name;
    changed(row);
}

void WordsModel::setOnItsWay(std::uint64_t item, bool is)
{
    const int row = rowOf(item);
    if (row < 0 || m_rows[static_cast<std::size_t>(row)].onItsWay == is)
        return;
    m_rows[static_cast<std::size_t>(row)].onItsWay = is;
    changed(row);
}

void WordsModel::setPicture(std::uint64_t item, const QImage& picture)
{
    const int row = rowOf(item);
    if (row < 0 || m_rows[static_cast<std::size_t>(row)].picture.cacheKey() == picture.cacheKey())
        return;
    m_rows[static_cast<std::size_t>(row)].picture = picture;
    changed(row);
}

void WordsModel::setNow(Instant now)
{
    const bool another =
        std::chrono::floor<std::chrono::seconds>(now) != std::chrono::floor<std::chrono::seconds>(m_now);
    m_now = now;
    if (another && !m_rows.empty())
        emit timePassed();
}

void WordsModel::forgetSettled(int first, int last)
{
    if (static_cast<int>(m_rows.size()) == m_waiting)
        return;
    if (m_waiting == 0 && m_now - m_settledAt >= kLingers)
        last = first - 1; // nobody is reading: nothing can move under the eyes
    for (int row = static_cast<int>(m_rows.size()) - 1; row >= 0;) { // whole runs, from the end
        const auto goes = [&](int each) {
            return (each < first || each > last) && isSettled(m_rows[static_cast<std::size_t>(each)]);
        };
        int count = 0;
        while (row - count >= 0 && goes(row - count))
            ++count;
        if (count > 0)
            removeRows_(row - count + 1, count);
        row -= std::max(count, 1);
    }
}

QString WordsModel::stateWords(const WordRow& row) const
{
    if (row.isNotice)
        return {};
    if (row.onItsWay)
        return words("On its way\u2026");
    const bool own = row.by == m_own;
    switch (row.state) {
    case DeskState::held:
        return row.readBy.isEmpty() ? QString() : words("%1 is reading this").arg(shortName(row.readBy));
    case DeskState::goingUp:
        return goingUp(row, m_now);
    case DeskState::shown:
        return m_isBoard ? QString() : words("On the board");
    case DeskState::setAside:
        if (!row.by.isEmpty() && row.by == row.name)
            return words("%1 has taken it back").arg(shortName(row.by));
        return own ? words("You have set it aside") : words("%1 has set it aside").arg(shortName(row.by));
    case DeskState::withLeader:
        return words("With the leader");
    case DeskState::withClinician:
        return words("Clinician called");
    case DeskState::forWindow:
        return words("For the group's window");
    case DeskState::seenTo:
        return own ? words("You have seen to it") : words("%1 has seen to it").arg(shortName(row.by));
    }
    return {};
}

int WordsModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant WordsModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid())
        return {};
    const WordRow& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == itemRole)
        return QVariant::fromValue<quint64>(row.item);
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole)
        return {};
    QString spoken = row.name.isEmpty() ? row.text : QStringLiteral("%1: %2").arg(row.name, row.text);
    if (row.isPicture)
        spoken = words("A picture. %1").arg(spoken);
    const QString state = stateWords(row);
    return state.isEmpty() ? spoken : QStringLiteral("%1. %2").arg(spoken, state);
}

} // namespace vh::help
