#include "app/help/people_list.h"

#include "app/look/look.h"

#include <QKeyEvent>
#include <QPainter>
#include <QSortFilterProxyModel>
#include <QStyledItemDelegate>

#include <cmath>

namespace vh::help
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr int kPad = Space::gap;

class Resting : public QSortFilterProxyModel
{
public:
    using QSortFilterProxyModel::QSortFilterProxyModel;

protected:
    [[nodiscard]] bool filterAcceptsRow(int row, const QModelIndex& parent) const override
    {
        return sourceModel()->index(row, 0, parent).data(PeopleModel::restsRole).toBool();
    }
};

} // namespace

class PeopleList::Painter : public QStyledItemDelegate
{
public:
    explicit Painter(PeopleList& list) : QStyledItemDelegate(&list), m_list(list) {}

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override
    {
        return {m_list.viewport()->width(), m_list.rowHeight()};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const PersonRow* row = m_list.rowAt(index);
        if (!row)
            return;
        const look::Palette& colours = Look::current().palette();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const QRectF whole = QRectF(option.rect).adjusted(3.5, 1.5, -3.5, -1.5);
        if (option.state & QStyle::State_Selected) {
            painter->setPen(QPen(colours.deep2, m_list.hasFocus() ? 3 : 1.5));
            painter->setBrush(colours.quiet);
            painter->drawRoundedRect(whole, Space::corner - 2, Space::corner - 2);
        }
        const QRectF inside = whole.adjusted(kPad, 0, -kPad, 0);
        const bool strong = m_list.m_shows == Shows::resting;
        const QFont body = Look::current().font(Type::body, strong ? look::Weight::bold : look::Weight::regular);
        const QFontMetricsF metrics(body);
        const QFont note = Look::current().font(Type::note);
        const QString about = m_list.m_people->wordsOf(*row);
        const double wide = std::min(QFontMetricsF(note).horizontalAdvance(about) + 1, inside.width() * 0.65);
        const double room = inside.width() - (about.isEmpty() ? 0 : wide + kPad);
        painter->setFont(body);
        painter->setPen(colours.ink);
        painter->drawText(inside, Qt::AlignLeft | Qt::AlignVCenter,
                          metrics.elidedText(row->name, Qt::ElideRight, room));
        painter->setFont(note);
        painter->setPen(colours.secondInk);
        painter->drawText(inside, Qt::AlignRight | Qt::AlignVCenter,
                          QFontMetricsF(note).elidedText(about, Qt::ElideRight, wide));
        painter->restore();
    }

private:
    PeopleList& m_list;
};

PeopleList::PeopleList(Shows shows, const QString& accessibleName, const QString& whenEmpty, QWidget* parent)
    : QListView(parent), m_shows(shows), m_whenEmpty(whenEmpty)
{
    setAccessibleName(accessibleName);
    setItemDelegate(new Painter(*this));
    setUniformItemSizes(true);
    setSelectionMode(SingleSelection);
    setEditTriggers(NoEditTriggers);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setViewportMargins(2, 2, 2, 2); // clear of the frame, which grows with the focus
}

int PeopleList::rowHeight() const
{
    return static_cast<int>(std::ceil(QFontMetricsF(Look::current().font(Type::body)).height())) + Space::hair;
}

void PeopleList::setPeople(PeopleModel* people)
{
    if (people == m_people)
        return;
    if (m_people)
        m_people->disconnect(this);
    m_people = people;
    if (m_some)
        m_some->deleteLater();
    m_some = nullptr;
    if (people && m_shows == Shows::resting) {
        m_some = new Resting(this);
        m_some->setSourceModel(people);
        setModel(m_some);
    } else {
        setModel(people);
    }
    if (people)
        connect(people, &PeopleModel::timePassed, viewport(), qOverload<>(&QWidget::update));
}

const PersonRow* PeopleList::rowAt(const QModelIndex& index) const
{
    if (!m_people || !index.isValid())
        return nullptr;
    const int row = m_some ? m_some->mapToSource(index).row() : index.row();
    return &m_people->rows()[static_cast<std::size_t>(row)];
}

const PersonRow* PeopleList::chosen() const
{
    const QModelIndex current = currentIndex();
    const bool is = current.isValid() && selectionModel()->isSelected(current); // a press beside all of them
    return is ? rowAt(current) : nullptr;
}

void PeopleList::selectionChanged(const QItemSelection& selected, const QItemSelection& deselected)
{
    QListView::selectionChanged(selected, deselected);
    emit chosenChanged();
}

/// Nobody is chosen in place of somebody who goes.
void PeopleList::rowsAboutToBeRemoved(const QModelIndex& parent, int start, int end)
{
    if (const QModelIndex current = currentIndex(); current.row() >= start && current.row() <= end)
        selectionModel()->clear();
    QListView::rowsAboutToBeRemoved(parent, start, end);
}

void PeopleList::keyPressEvent(QKeyEvent* event)
{
    const auto task = taskOf(*event);
    const bool isForPeople = task == DeskTask::quietShort || task == DeskTask::quietClass || task == DeskTask::out ||
                             task == DeskTask::takeBack;
    if (!isForPeople)
        return QListView::keyPressEvent(event);
    if (!event->isAutoRepeat())
        emit taskRequested(*task);
    event->accept();
}

void PeopleList::changeEvent(QEvent* event)
{
    QListView::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        scheduleDelayedItemsLayout();
}

void PeopleList::focusInEvent(QFocusEvent* event)
{
    QListView::focusInEvent(event);
    viewport()->update();
    emit focusChanged(true);
}

void PeopleList::focusOutEvent(QFocusEvent* event)
{
    QListView::focusOutEvent(event);
    viewport()->update();
    emit focusChanged(false);
}

void PeopleList::paintEvent(QPaintEvent* event)
{
    QListView::paintEvent(event);
    if (model() && model()->rowCount() > 0)
        return;
    QPainter painter(viewport());
    painter.setPen(Look::current().palette().secondInk);
    painter.setFont(Look::current().font(Type::note));
    painter.drawText(viewport()->rect().adjusted(kPad, Space::small, -kPad, -Space::small),
                     Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, m_whenEmpty);
}

} // namespace vh::help
