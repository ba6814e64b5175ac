#include "app/widgets/seat_table.h"
#include "app/look/look.h"

#include <QEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>
#include <cmath>

namespace vh
{

using look::Look;
using look::Type;

namespace
{

constexpr int kSignWidth = 26;

bool hasReason(const SeatRow& row)
{
    return row.standing == Standing::cantTell && row.reason != Blank::none;
}

int longestReason()
{
    const QFontMetrics metrics(Look::current().font(Type::note));
    int longest = 0;
    for (const Blank reason : {Blank::noSignal, Blank::clipping, Blank::roomTooNoisy, Blank::loudspeakerTooLoud,
                               Blank::alteredByComputer, Blank::somebodyElse, Blank::setupChanged})
        longest = std::max(longest, metrics.horizontalAdvance(sentenceOf(Standing::cantTell, reason)));
    return longest;
}

/// Cells of one look: no frame around the single cell, the whole chosen row outlined instead (a tint alone is too
/// weak).
class SeatDelegate : public QStyledItemDelegate
{
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override
    {
        QStyledItemDelegate::initStyleOption(option, index);
        option->state &= ~QStyle::State_HasFocus;
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        QStyledItemDelegate::paint(painter, option, index);
        if (!(option.state & QStyle::State_Selected))
            return;
        const bool first = index.column() == 0;
        const bool last = index.column() == index.model()->columnCount() - 1;
        QRectF outline = QRectF(option.rect).adjusted(1, 1, -1, -1);
        if (!first)
            outline.setLeft(outline.left() - 20); // beyond the cell, where the clip hides it
        if (!last)
            outline.setRight(outline.right() + 20);
        painter->save();
        painter->setClipRect(option.rect);
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setPen(QPen(Look::current().palette().deep2, 2));
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(outline, 6, 6);
        painter->restore();
    }
};

/// The shape before the words, so that neither colour nor reading alone carries it.
class StandingDelegate : public SeatDelegate
{
public:
    using SeatDelegate::SeatDelegate;

    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override
    {
        SeatDelegate::initStyleOption(option, index);
        option->features |= QStyleOptionViewItem::HasDecoration;
        option->decorationSize = QSize(kSignWidth, option->rect.height());
        const auto row = index.data(SeatTableModel::rowRole).value<SeatRow>();
        const QColor colour = colourOf(row.standing, Look::current().palette());
        option->palette.setColor(QPalette::Text, colour);
        option->palette.setColor(QPalette::HighlightedText, colour);
        if (hasReason(row)) {
            option->font = Look::current().font(Type::note);
            option->features |= QStyleOptionViewItem::WrapText; // into a second line, where rows have two
        }
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        SeatDelegate::paint(painter, option, index);
        const auto row = index.data(SeatTableModel::rowRole).value<SeatRow>();
        const QRectF cell(option.rect);
        paintColumn(*painter, QRectF(cell.left() + 8, cell.top() + 4, kSignWidth, cell.height() - 8), row.standing,
                    row.overUsualDb, row.band);
    }
};

} // namespace

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
    std::stable_sort(rows.begin(), rows.end(), [](const SeatRow& a, const SeatRow& b) { return a.seat < b.seat; });
    std::size_t at = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i + 1 < rows.size() && rows[i + 1].seat == rows[i].seat)
            continue; // the later one counts
        const int row = static_cast<int>(at);
        while (at < m_rows.size() && m_rows[at].seat < rows[i].seat) {
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

SeatTable::SeatTable(QWidget* parent) : QTableView(parent), m_model(new SeatTableModel(this))
{
    setModel(m_model);
    setItemDelegate(new SeatDelegate(this));
    setItemDelegateForColumn(SeatTableModel::standingColumn, new StandingDelegate(this));
    setSelectionBehavior(SelectRows);
    setSelectionMode(SingleSelection);
    setEditTriggers(NoEditTriggers);
    setTabKeyNavigation(false); // Tab leaves the table, as everywhere
    setShowGrid(false);
    setWordWrap(false);
    setAccessibleName(tr("People"));
    verticalHeader()->hide();
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setSectionsClickable(false);
    takeSizes();
}

void SeatTable::takeSizes()
{
    const QFontMetrics metrics(Look::current().font(Type::body));
    const QFontMetrics note(Look::current().font(Type::note));
    const int name = metrics.horizontalAdvance(tr("Maximilian")) + 24;
    const int level = note.horizontalAdvance(tr("Over usual")) + 28;
    const int sign = kSignWidth + 28;
    const int standing =
        std::max(viewport()->width() - name - level, metrics.horizontalAdvance(tr("easy to hear")) + sign);
    setColumnWidth(SeatTableModel::nameColumn, name);
    setColumnWidth(SeatTableModel::standingColumn, standing);
    setColumnWidth(SeatTableModel::levelColumn, level);
    m_twoLines = longestReason() + sign > standing + level;
    verticalHeader()->setDefaultSectionSize(m_twoLines ? 2 * note.height() + 6 : metrics.height() + 8);
}

void SeatTable::takeSpans()
{
    std::vector<bool> wide;
    for (const SeatRow& row : m_model->rows())
        wide.push_back(hasReason(row));
    if (wide == m_wide)
        return;
    m_wide = std::move(wide);
    clearSpans();
    for (std::size_t row = 0; row < m_wide.size(); ++row)
        if (m_wide[row])
            setSpan(static_cast<int>(row), SeatTableModel::standingColumn, 1, 2);
}

void SeatTable::setState(std::vector<SeatRow> rows)
{
    m_model->setState(std::move(rows));
    takeSpans();
}

void SeatTable::resizeEvent(QResizeEvent* event)
{
    QTableView::resizeEvent(event);
    takeSizes();
}

void SeatTable::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && currentIndex().isValid()) {
        if (!event->isAutoRepeat())
            emit seatRequested(m_model->rows()[static_cast<std::size_t>(currentIndex().row())].seat);
        event->accept();
        return;
    }
    QTableView::keyPressEvent(event);
}

void SeatTable::changeEvent(QEvent* event)
{
    QTableView::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        takeSizes();
}

} // namespace vh
