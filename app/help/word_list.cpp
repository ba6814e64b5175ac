#include "app/help/word_list.h"

#include "app/look/look.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>

namespace vh::help
{

using look::Look;

namespace
{

const Clock& machineClock()
{
    static const SystemClock clock;
    return clock;
}

} // namespace

WordList::WordList(Shows shows, const QString& accessibleName, const QString& whenEmpty, QWidget* parent)
    : QListView(parent), m_shows(shows), m_whenEmpty(whenEmpty),
      m_cards(
          new WordCards(shows == Shows::oldest ? WordCards::Settled::standsBack : WordCards::Settled::isPlain, this)),
      m_clock(&machineClock())
{
    setAccessibleName(accessibleName);
    setItemDelegate(m_cards);
    setSelectionMode(SingleSelection);
    setEditTriggers(NoEditTriggers);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFrameShape(NoFrame);
    setStyleSheet(QStringLiteral("QListView, QListView:focus { background: transparent; border: none; }"));
    connect(verticalScrollBar(), &QScrollBar::valueChanged, this, [this](int value) {
        if (!m_held.isValid()) // somebody scrolls
            m_atEnd = value >= verticalScrollBar()->maximum();
    });
}

void WordList::setWords(WordsModel* words)
{
    if (words == m_words)
        return;
    if (m_words)
        m_words->disconnect(this);
    m_words = words;
    m_cards->forgetHeights();
    if (words) { // before the view itself hears of it
        connect(words, &QAbstractItemModel::rowsAboutToBeInserted, this, &WordList::holdStill);
        connect(words, &QAbstractItemModel::rowsAboutToBeRemoved, this, &WordList::holdStill);
        connect(words, &WordsModel::timePassed, this, [this] {
            forget();
            viewport()->update();
        });
    }
    setModel(words);
    if (words) { // after it
        connect(words, &QAbstractItemModel::rowsInserted, this, &WordList::chooseIfWanted);
        connect(words, &QAbstractItemModel::dataChanged, this, &WordList::chooseIfWanted);
    }
    m_waitsForNext = m_shows == Shows::oldest;
    chooseIfWanted();
}

const WordRow* WordList::chosen() const
{
    const QModelIndex current = currentIndex();
    const bool is = m_words && current.isValid() && selectionModel()->isSelected(current); // a press beside all of them
    return is ? &m_words->rows()[static_cast<std::size_t>(current.row())] : nullptr;
}

void WordList::choose(std::uint64_t item)
{
    m_wanted = item;
    chooseIfWanted();
}

void WordList::goOn()
{
    if (!m_words)
        return;
    const auto& rows = m_words->rows();
    const int from = currentIndex().isValid() ? currentIndex().row() : -1;
    const auto isNext = [&](int row) {
        const WordRow& each = rows[static_cast<std::size_t>(row)];
        return row != from && !isSettled(each) && !each.onItsWay;
    };
    for (int step = 1; step <= static_cast<int>(rows.size()); ++step) {
        const int row = (from + step) % static_cast<int>(rows.size()); // below, then from the top
        if (!isNext(row))
            continue;
        m_waitsForNext = false;
        setCurrentIndex(m_words->index(row));
        return;
    }
    m_waitsForNext = true;
}

void WordList::chooseIfWanted()
{
    if (!m_words)
        return;
    if (const int row = m_wanted ? m_words->rowOf(m_wanted) : -1;
        row >= 0 && !isSettled(m_words->rows()[static_cast<std::size_t>(row)])) {
        m_wanted = 0;
        m_waitsForNext = false;
        setCurrentIndex(m_words->index(row));
    }
    if (m_waitsForNext && m_words->waiting() > 0)
        goOn();
}

void WordList::currentChanged(const QModelIndex& current, const QModelIndex& previous)
{
    QListView::currentChanged(current, previous);
    m_waitsForNext = false; // somebody has looked elsewhere
}

void WordList::selectionChanged(const QItemSelection& selected, const QItemSelection& deselected)
{
    QListView::selectionChanged(selected, deselected);
    emit chosenChanged();
}

// --- keeping still -------------------------------------------------------------------------------------------------

/// After a layout that is still to be done: it may scroll, and indexAt() would look where the cards were before.
QModelIndex WordList::cardAt(int y)
{
    executeDelayedItemsLayout();
    return indexAt(QPoint(2, y));
}

/// Before rows come or go: the uppermost card in sight is to be where it is, afterwards.
void WordList::holdStill()
{
    if (m_held.isValid() || !m_words || m_words->rows().empty())
        return;
    const QModelIndex top = cardAt(2);
    if (!top.isValid())
        return;
    m_heldTop = visualRect(top).top();
    m_held = top;
}

void WordList::doItemsLayout()
{
    QListView::doItemsLayout();
    QScrollBar* bar = verticalScrollBar();
    if (m_shows == Shows::newest && m_atEnd)
        bar->setValue(bar->maximum());
    else if (m_held.isValid())
        bar->setValue(bar->value() + visualRect(m_held).top() - m_heldTop);
    m_held = QPersistentModelIndex();
}

/// Nothing is chosen in place of a card that goes.
void WordList::rowsAboutToBeRemoved(const QModelIndex& parent, int start, int end)
{
    if (const QModelIndex current = currentIndex(); current.row() >= start && current.row() <= end) {
        selectionModel()->clear();
        m_waitsForNext = m_shows == Shows::oldest && m_words->waiting() == 0;
    }
    for (int row = start; row <= end; ++row)
        m_cards->forgetHeight(m_words->rows()[static_cast<std::size_t>(row)].item);
    QListView::rowsAboutToBeRemoved(parent, start, end);
}

/// What was dealt with and is out of sight.
void WordList::forget()
{
    if (m_shows != Shows::oldest || m_words->rows().empty())
        return;
    const QModelIndex top = cardAt(2);
    const QModelIndex bottom = cardAt(viewport()->height() - 2);
    const int last = static_cast<int>(m_words->rows().size()) - 1;
    const int chosen = currentIndex().row();
    int first = top.isValid() ? top.row() : 0;
    int end = bottom.isValid() ? bottom.row() : last;
    if (chosen >= 0) {
        first = std::min(first, chosen);
        end = std::max(end, chosen);
    }
    m_words->forgetSettled(first, end);
}

void WordList::resizeEvent(QResizeEvent* event)
{
    QListView::resizeEvent(event);
    if (event->size().width() != event->oldSize().width()) {
        holdStill();
        m_cards->forgetHeights();
    }
    scheduleDelayedItemsLayout();
}

void WordList::changeEvent(QEvent* event)
{
    QListView::changeEvent(event);
    if (event->type() != QEvent::StyleChange)
        return;
    m_cards->forgetHeights();
    scheduleDelayedItemsLayout();
}

// --- keys and looks ------------------------------------------------------------------------------------------------

void WordList::keyPressEvent(QKeyEvent* event)
{
    const auto task = taskOf(*event);
    if (!task) {
        if (event->key() == Qt::Key_Space) // nothing: the chosen one stays chosen
            return event->accept();
        return QListView::keyPressEvent(event);
    }
    const bool counts = m_filter.accept(m_clock->now()) || m_lastTask != task; // tremor, or a key held down
    m_lastTask = task;
    if (counts && !event->isAutoRepeat())
        emit taskRequested(*task);
    event->accept();
}

void WordList::mouseDoubleClickEvent(QMouseEvent* event)
{
    if (const WordRow* row = chosen(); row && row->isPicture)
        emit taskRequested(DeskTask::openPicture);
    event->accept();
}

void WordList::focusInEvent(QFocusEvent* event)
{
    QListView::focusInEvent(event);
    viewport()->update();
    emit focusChanged(true);
}

void WordList::focusOutEvent(QFocusEvent* event)
{
    QListView::focusOutEvent(event);
    viewport()->update();
    emit focusChanged(false);
}

void WordList::paintEvent(QPaintEvent* event)
{
    QListView::paintEvent(event);
    const bool isEmpty = !m_words || m_words->rows().empty();
    if (!isEmpty)
        return;
    QPainter painter(viewport());
    painter.setRenderHint(QPainter::Antialiasing);
    const look::Palette& colours = Look::current().palette();
    const QRectF whole = QRectF(viewport()->rect()).adjusted(1.5, 1.5, -1.5, -1.5);
    painter.setPen(hasFocus() ? QPen(colours.deep, look::Space::focusRing) : QPen(colours.line, 1));
    painter.drawRoundedRect(whole, look::Space::corner, look::Space::corner);
    painter.setPen(colours.secondInk);
    painter.setFont(Look::current().font(look::Type::note));
    painter.drawText(whole.adjusted(16, 16, -16, -16), Qt::AlignHCenter | Qt::AlignTop | Qt::TextWordWrap, m_whenEmpty);
}

} // namespace vh::help
