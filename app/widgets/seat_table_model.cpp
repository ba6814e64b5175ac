#include "app/widgets/seat_table_model.h"

#include <QCollator>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace vh
{

namespace
{

/// Standings in the order of who may need a word.
int voiceGroupOf(Standing standing)
{
    switch (standing) {
    case Standing::noVoice:
        return 0;
    case Standing::straining:
        return 1;
    case Standing::below:
        return 2;
    case Standing::above:
        return 3;
    case Standing::cantTell:
        return 4;
    case Standing::inBand:
        return 5;
    case Standing::notYet:
        return 6;
    case Standing::resting:
        return 7;
    case Standing::private_:
        return 8;
    case Standing::away:
        return 9;
    }
    return 10;
}

} // namespace

QString wordsOf(HeardByAll heard)
{
    switch (heard) {
    case HeardByAll::no:
        break;
    case HeardByAll::asked:
        return SeatTableModel::tr("asked to be heard by all");
    case HeardByAll::yes:
        return SeatTableModel::tr("heard by all");
    }
    return {};
}

QString levelWords(std::optional<float> overUsualDb)
{
    if (!overUsualDb || !std::isfinite(*overUsualDb))
        return {};
    const auto rounded = static_cast<int>(std::lround(*overUsualDb));
    if (rounded == 0)
        return SeatTableModel::tr("0 dB");
    return SeatTableModel::tr("%1%2 dB")
        .arg(rounded > 0 ? QStringLiteral("+") : QStringLiteral("\u2212"))
        .arg(std::abs(rounded));
}

void SeatTableModel::setState(std::vector<SeatRow> rows)
{
    std::stable_sort(rows.begin(), rows.end(), [this](const SeatRow& a, const SeatRow& b) { return isBefore(a, b); });
    std::size_t at = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i + 1 < rows.size() && rows[i + 1].seat == rows[i].seat)
            continue; // the later one counts
        const int row = static_cast<int>(at);
        while (at < m_rows.size() && isBefore(m_rows[at], rows[i])) {
            beginRemoveRows({}, row, row);
            m_rows.erase(m_rows.begin() + row);
            endRemoveRows();
        }
        if (at == m_rows.size() || m_rows[at].seat != rows[i].seat) {
            beginInsertRows({}, row, row);
            m_rows.insert(m_rows.begin() + row, std::move(rows[i]));
            endInsertRows();
        } else if (m_rows[at] != rows[i]) {
            m_rows[at] = std::move(rows[i]);
            emit dataChanged(index(row, 0), index(row, columnCount_ - 1));
        }
        ++at;
    }
    if (at < m_rows.size()) {
        beginRemoveRows({}, static_cast<int>(at), static_cast<int>(m_rows.size()) - 1);
        m_rows.resize(at);
        endRemoveRows();
    }
}

bool SeatTableModel::isBefore(const SeatRow& one, const SeatRow& other) const
{
    const auto keyOf = [this](const SeatRow& row) {
        const auto rank = m_ranks.find(row.seat);
        return std::pair(rank == m_ranks.end() ? std::numeric_limits<int>::max() : rank->second, row.seat);
    };
    return keyOf(one) < keyOf(other);
}

void SeatTableModel::arrange(SeatOrder order)
{
    QCollator names;
    names.setCaseSensitivity(Qt::CaseInsensitive);
    beginResetModel();
    m_order = order;
    m_ranks.clear();
    std::sort(m_rows.begin(), m_rows.end(), [&](const SeatRow& one, const SeatRow& other) {
        if (order == SeatOrder::names)
            if (const int compared = names.compare(one.name, other.name); compared != 0)
                return compared < 0;
        if (order == SeatOrder::voices && one.standing != other.standing)
            return voiceGroupOf(one.standing) < voiceGroupOf(other.standing);
        return one.seat < other.seat;
    });
    if (order != SeatOrder::seats)
        for (std::size_t at = 0; at < m_rows.size(); ++at)
            m_ranks[m_rows[at].seat] = static_cast<int>(at);
    endResetModel();
}

int SeatTableModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int SeatTableModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : columnCount_;
}

QVariant SeatTableModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const SeatRow& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == rowRole)
        return QVariant::fromValue(row);
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole)
        return {};
    switch (index.column()) {
    case nameColumn:
        if (role == Qt::AccessibleTextRole && row.heard != HeardByAll::no)
            return tr("%1, %2").arg(row.name, wordsOf(row.heard));
        return row.name;
    case standingColumn:
        return sentenceOf(row.standing, row.reason);
    case levelColumn:
        if (role == Qt::AccessibleTextRole && row.overUsualDb)
            return tr("%1 over the usual level").arg(levelWords(row.overUsualDb));
        return levelWords(row.overUsualDb);
    default:
        return row.note;
    }
}

QVariant SeatTableModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal)
        return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(Qt::Alignment(Qt::AlignLeft | Qt::AlignVCenter));
    if (role == Qt::ToolTipRole && section == nameColumn)
        return tr("Arrange by name; again: by seat (A, where the table has the keyboard)");
    if (role == Qt::ToolTipRole && section == standingColumn)
        return tr("Arrange by voice, whoever may need a word first; again: by seat (A, where the table has the "
                  "keyboard)");
    const bool arranged = (section == nameColumn && m_order == SeatOrder::names) ||
                          (section == standingColumn && m_order == SeatOrder::voices);
    if (role == Qt::AccessibleTextRole && arranged)
        return section == nameColumn ? tr("Name, arranged by it") : tr("Voice, arranged by it");
    if (role != Qt::DisplayRole)
        return {};
    switch (section) {
    case nameColumn:
        return tr("Name");
    case standingColumn:
        return tr("Voice");
    case levelColumn:
        return tr("Over usual");
    case noteColumn:
        return tr("Note");
    default:
        return {};
    }
}

} // namespace vh
