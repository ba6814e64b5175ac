#include "app/widgets/seat_table.h"
#include "app/look/look.h"

#include <QAccessible>
#include <QApplication>
#include <QEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>

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

/// The name of whoever is heard by all stands on a deep ground, as in the hall; asked only, in an outline.
class NameDelegate : public SeatDelegate
{
public:
    using SeatDelegate::SeatDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const auto row = index.data(SeatTableModel::rowRole).value<SeatRow>();
        if (row.heard == HeardByAll::no)
            return SeatDelegate::paint(painter, option, index);
        QStyleOptionViewItem blank = option;
        initStyleOption(&blank, index);
        blank.text.clear();
        QApplication::style()->drawControl(QStyle::CE_ItemViewItem, &blank, painter, option.widget);
        const look::Palette& colours = Look::current().palette();
        const bool yes = row.heard == HeardByAll::yes;
        const QFontMetrics metrics(option.font);
        const QString words = metrics.elidedText(row.name, Qt::ElideRight, option.rect.width() - 20);
        QRectF ground(option.rect.left() + 4, 0, metrics.horizontalAdvance(words) + 16, metrics.height());
        ground.moveCenter(QPointF(ground.center().x(), QRectF(option.rect).center().y()));
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setFont(option.font);
        painter->setPen(QPen(yes ? colours.deep : colours.deep2, 2, yes ? Qt::SolidLine : Qt::DashLine));
        painter->setBrush(yes ? colours.deep : colours.sheet);
        painter->drawRoundedRect(ground, 6, 6);
        painter->setPen(yes ? colours.onDeep : colours.ink);
        painter->drawText(ground, Qt::AlignCenter, words);
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

SeatTable::SeatTable(QWidget* parent) : QTableView(parent), m_model(new SeatTableModel(this))
{
    setModel(m_model);
    setItemDelegate(new SeatDelegate(this));
    setItemDelegateForColumn(SeatTableModel::nameColumn, new NameDelegate(this));
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
    horizontalHeader()->setSectionsClickable(true);
    connect(horizontalHeader(), &QHeaderView::sectionClicked, this, [this](int section) {
        if (section != SeatTableModel::nameColumn && section != SeatTableModel::standingColumn)
            return;
        const auto wanted = section == SeatTableModel::nameColumn ? SeatOrder::names : SeatOrder::voices;
        arrange(wanted == m_model->order() ? SeatOrder::seats : wanted);
    });
    horizontalHeader()->setSortIndicatorShown(false);
    takeSizes();
}

void SeatTable::takeSizes()
{
    const QFontMetrics metrics(Look::current().font(Type::body));
    const QFontMetrics note(Look::current().font(Type::note));
    const int name = metrics.horizontalAdvance(tr("Maximilia")) + 20;
    const int level = note.horizontalAdvance(tr("Over usual")) + 28;
    const int sign = kSignWidth + 20;
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

void SeatTable::arrange(SeatOrder order)
{
    const QModelIndex current = currentIndex();
    const int seat = current.isValid() ? m_model->rows()[static_cast<std::size_t>(current.row())].seat : -1;
    m_model->arrange(order);
    m_wide.clear();
    takeSpans();
    showOrder();
    for (std::size_t row = 0; row < m_model->rows().size(); ++row)
        if (m_model->rows()[row].seat == seat)
            setCurrentIndex(m_model->index(static_cast<int>(row), std::max(current.column(), 0)));
}

/// The sign in the head of the column by which they are arranged. There is none for seats: that is how a hall is.
void SeatTable::showOrder()
{
    const SeatOrder order = m_model->order();
    horizontalHeader()->setSortIndicatorShown(order != SeatOrder::seats);
    if (order != SeatOrder::seats)
        horizontalHeader()->setSortIndicator(order == SeatOrder::names ? SeatTableModel::nameColumn
                                                                       : SeatTableModel::standingColumn,
                                             Qt::AscendingOrder);
    const QString by = order == SeatOrder::names    ? tr("People, by name")
                       : order == SeatOrder::voices ? tr("People, by voice")
                                                    : tr("People");
    setAccessibleName(by);
    QAccessibleEvent changed(this, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&changed);
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
    if (event->key() == Qt::Key_A && event->modifiers() == Qt::NoModifier) {
        if (!event->isAutoRepeat())
            arrange(m_model->order() == SeatOrder::seats   ? SeatOrder::names
                    : m_model->order() == SeatOrder::names ? SeatOrder::voices
                                                           : SeatOrder::seats);
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
