#include "app/widgets/row_list.h"

#include "app/look/look.h"

#include <QAbstractListModel>
#include <QKeyEvent>
#include <QPainter>
#include <QScopedValueRollback>
#include <QScrollBar>
#include <QStyledItemDelegate>

#include <algorithm>
#include <cmath>

namespace vh
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr int kPad = Space::gap + 4;
constexpr int kBetween = Space::gap; // columns

QFont headFont(const RowList::Row& row)
{
    return Look::current().font(Type::body, row.strong || row.heading ? look::Weight::bold : look::Weight::regular);
}

QString spokenOf(const RowList::Row& row)
{
    if (!row.spoken.isEmpty())
        return row.spoken;
    QStringList parts{row.before, row.head, row.beside, row.below};
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

} // namespace

class RowList::Model : public QAbstractListModel
{
public:
    explicit Model(RowList& list) : QAbstractListModel(&list), m_list(list) {}
    void become(State state)
    {
        beginResetModel();
        m_list.m_state = std::move(state);
        endResetModel();
    }
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override
    {
        return parent.isValid() ? 0 : static_cast<int>(m_list.m_state.rows.size());
    }
    [[nodiscard]] const Row& at(const QModelIndex& index) const
    {
        return m_list.m_state.rows[static_cast<std::size_t>(index.row())];
    }
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override
    {
        if (!index.isValid())
            return {};
        if (role == Qt::DisplayRole)
            return at(index).head;
        if (role == Qt::AccessibleTextRole)
            return spokenOf(at(index));
        return {};
    }
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override
    {
        if (!index.isValid() || at(index).heading)
            return Qt::NoItemFlags;
        return Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    }

private:
    RowList& m_list;
};

class RowList::Painter : public QStyledItemDelegate
{
public:
    explicit Painter(RowList& list) : QStyledItemDelegate(&list), m_list(list) {}

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override
    {
        return {m_list.viewport()->width(), m_list.rowHeight()};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const Row& row = m_list.m_model->at(index);
        const look::Palette& colours = Look::current().palette();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const QRectF whole = QRectF(option.rect).adjusted(3.5, 1.5, -3.5, -1.5);
        if (option.state & QStyle::State_Selected) {
            painter->setPen(QPen(colours.deep2, m_list.hasFocus() ? 3 : 2));
            painter->setBrush(colours.quiet);
            painter->drawRoundedRect(whole, Space::corner - 2, Space::corner - 2);
        }
        QRectF inside = whole.adjusted(kPad - 4, Space::hair, -kPad + 4, -Space::hair);
        if (row.heading)
            paintHeading(*painter, row, inside);
        else
            paintRow(*painter, row, inside);
        painter->restore();
    }

private:
    static void paintHeading(QPainter& painter, const Row& row, const QRectF& inside)
    {
        const look::Palette& colours = Look::current().palette();
        painter.setFont(headFont(row));
        painter.setPen(colours.ink);
        const QRectF line(inside.left(), inside.top(), inside.width(), inside.height() - 3);
        const QString words =
            painter.fontMetrics().elidedText(row.head, Qt::ElideRight, static_cast<int>(line.width()));
        painter.drawText(line, Qt::AlignLeft | Qt::AlignBottom, words);
        painter.setPen(QPen(colours.line, 1));
        painter.drawLine(inside.bottomLeft(), inside.bottomRight());
    }

    void paintRow(QPainter& painter, const Row& row, QRectF inside) const
    {
        const look::Palette& colours = Look::current().palette();
        const QFont body = Look::current().font(Type::body);
        const QFont note = Look::current().font(Type::note);
        const double high = QFontMetricsF(body).height();
        const double twice = m_list.m_below ? high + QFontMetricsF(note).height() : high;
        inside.setTop(inside.center().y() - twice / 2);
        const auto put = [&](const QRectF& where, const QFont& font, const QColor& ink, Qt::Alignment side,
                             const QString& words) {
            painter.setFont(font);
            painter.setPen(ink);
            painter.drawText(where, side | Qt::AlignTop,
                             QFontMetricsF(font).elidedText(words, Qt::ElideRight, where.width()));
        };
        if (m_list.m_before > 0) {
            put({inside.left(), inside.top(), m_list.m_before, high}, row.strong ? headFont(row) : body,
                row.strong ? colours.ink : colours.secondInk, Qt::AlignLeft, row.before);
            inside.setLeft(inside.left() + m_list.m_before + kBetween);
        }
        double right = inside.right();
        if (!row.beside.isEmpty()) {
            const double most = std::min(QFontMetricsF(note).horizontalAdvance(row.beside) + 2, inside.width() / 2);
            const double down = QFontMetricsF(body).ascent() - QFontMetricsF(note).ascent(); // on one line
            put({right - most, inside.top() + down, most, high}, note, colours.secondInk, Qt::AlignRight, row.beside);
            right -= most + kBetween;
        }
        put({inside.left(), inside.top(), right - inside.left(), high}, headFont(row), colours.ink, Qt::AlignLeft,
            row.head);
        if (!row.below.isEmpty())
            put({inside.left(), inside.top() + high, inside.width(), QFontMetricsF(note).height()}, note,
                colours.secondInk, Qt::AlignLeft, row.below);
    }

    RowList& m_list;
};

RowList::RowList(const QString& accessibleName, QWidget* parent) : QListView(parent), m_model(new Model(*this))
{
    setAccessibleName(accessibleName);
    setModel(m_model);
    setItemDelegate(new Painter(*this));
    setUniformItemSizes(true);
    setSelectionMode(SingleSelection);
    setEditTriggers(NoEditTriggers);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(ScrollPerPixel);
    setMinimumHeight(3 * rowHeight());
    setViewportMargins(2, 2, 2, 2); // clear of the frame, which grows with the focus
    connect(this, &QListView::doubleClicked, this, [this](const QModelIndex& index) {
        if (index.isValid())
            emit enterRequested(index.row());
    });
}

int RowList::rowHeight() const
{
    const double body = QFontMetricsF(Look::current().font(Type::body)).height();
    const double note = QFontMetricsF(Look::current().font(Type::note)).height();
    return static_cast<int>(std::ceil(m_below ? body + note + 2 * Space::small : body + Space::small + Space::hair));
}

void RowList::setState(const State& state)
{
    if (state == m_state)
        return;
    const QScopedValueRollback quiet(m_becoming, true);
    if (state.rows != m_state.rows) {
        const int before = verticalScrollBar()->value();
        m_below =
            std::any_of(state.rows.begin(), state.rows.end(), [](const Row& row) { return !row.below.isEmpty(); });
        m_model->become(state);
        measureBefore();
        doItemsLayout();
        verticalScrollBar()->setValue(before);
    }
    m_state.chosen = state.chosen;
    const QModelIndex chosen = m_model->index(state.chosen);
    setCurrentIndex(chosen);
    if (!chosen.isValid())
        return clearSelection();
    if (const QModelIndex above = m_model->index(state.chosen - 1); above.isValid() && m_model->at(above).heading)
        scrollTo(above);
    scrollTo(chosen);
}

void RowList::measureBefore()
{
    m_before = 0;
    for (const Row& row : m_state.rows)
        if (!row.before.isEmpty())
            m_before = std::max(
                m_before,
                std::ceil(
                    QFontMetricsF(Look::current().font(Type::body, look::Weight::bold)).horizontalAdvance(row.before)) +
                    2);
}

bool RowList::moveBy(int key)
{
    if (key != Qt::Key_Down && key != Qt::Key_Up && key != Qt::Key_PageDown && key != Qt::Key_PageUp)
        return false;
    QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier);
    QListView::keyPressEvent(&event);
    return true;
}

void RowList::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        if (currentIndex().isValid() && !event->isAutoRepeat())
            emit enterRequested(currentIndex().row());
        return;
    }
    QListView::keyPressEvent(event);
}

void RowList::currentChanged(const QModelIndex& current, const QModelIndex& previous)
{
    QListView::currentChanged(current, previous);
    if (m_becoming || !current.isValid() || m_model->at(current).heading)
        return;
    m_state.chosen = current.row();
    emit rowRequested(current.row());
}

void RowList::changeEvent(QEvent* event)
{
    QListView::changeEvent(event);
    if (event->type() != QEvent::StyleChange)
        return;
    measureBefore();
    setMinimumHeight(3 * rowHeight());
    doItemsLayout();
}

void RowList::resizeEvent(QResizeEvent* event)
{
    QListView::resizeEvent(event);
    if (currentIndex().isValid())
        scrollTo(currentIndex());
}

} // namespace vh
