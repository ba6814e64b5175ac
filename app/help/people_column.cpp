#include "app/help/people_column.h"

#include "app/help/desk_view.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::help
{

using look::Space;

PeopleColumn::PeopleColumn(QWidget* parent)
    : QWidget(parent), m_here(plainLabel(this, "second")), m_came(plainLabel(this, "note")),
      m_resting(new PeopleList(PeopleList::Shows::resting, tr("Quiet or out"), tr("Nobody is quiet or out."), this)),
      m_everybody(new PeopleList(PeopleList::Shows::everybody, tr("Who is here"), tr("Nobody has come yet."), this)),
      m_byHand(plainLabel(this, "note"))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    makeDoor();
    column->addWidget(m_doorScroll);
    column->addWidget(m_here);
    column->addWidget(m_resting);
    column->addWidget(m_came);
    column->addWidget(m_everybody, 1);
    column->addWidget(m_byHand);
    m_byHandRow = makeByHand();
    column->addWidget(m_byHandRow);
    m_everybody->setMinimumHeight(40);
    fit();
}

void PeopleColumn::makeDoor()
{
    m_doorScroll = new QScrollArea(this);
    m_doorScroll->setWidgetResizable(true);
    m_doorScroll->setFrameShape(QFrame::NoFrame);
    m_doorScroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_doorScroll->setFocusPolicy(Qt::NoFocus);
    m_atHand = new QWidget(m_doorScroll);
    auto* column = new QVBoxLayout(m_atHand);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_lostLines = new LostList(m_atHand, CareRow::Press::below);
    m_lostLines->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred); // as high as its words need
    column->addWidget(m_lostLines);
    m_door = new DoorList(m_atHand);
    column->addWidget(m_door);
    column->addStretch();
    m_doorScroll->setWidget(m_atHand);
    connect(m_lostLines, &LostList::lookRequested, this, &PeopleColumn::lookRequested);
    connect(m_lostLines, &LostList::doneRequested, this, &PeopleColumn::lineDoneRequested);
    connect(m_door, &DoorList::letInRequested, this, &PeopleColumn::letInRequested);
    connect(m_door, &DoorList::turnAwayRequested, this, &PeopleColumn::turnAwayRequested);
}

QWidget* PeopleColumn::makeByHand()
{
    auto* side = new QWidget(this);
    auto* row = new QHBoxLayout(side);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::small);
    m_byHandName = new QLineEdit(side);
    m_byHandName->setPlaceholderText(tr("By phone"));
    m_byHandName->setAccessibleName(tr("Name of somebody who only phoned in"));
    m_byHandName->setMaxLength(40);
    m_byHandName->setProperty(look::kRoleProperty, "desk");
    auto* note = new BigButton(tr("Note"), BigButton::Rank::plain, BigButton::Size::desk, side);
    const auto noteNow = [this] {
        const QString name = m_byHandName->text().trimmed();
        if (name.isEmpty())
            return;
        m_byHandName->clear();
        emit attendRequested(name);
    };
    connect(note, &BigButton::pressRequested, this, noteNow);
    connect(m_byHandName, &QLineEdit::returnPressed, this, noteNow);
    row->addWidget(m_byHandName, 1);
    row->addWidget(note);
    return side;
}

void PeopleColumn::setState(const DeskView& view)
{
    m_resting->setPeople(view.lists.people);
    m_everybody->setPeople(view.lists.people);
    const int resting = m_resting->model() ? m_resting->model()->rowCount() : 0;
    Shown now{view.door, view.lostLines, {view.hereWords, view.came, view.byHand}, resting};
    if (now == m_shown)
        return;
    m_shown = std::move(now);
    m_lostLines->setState(view.lostLines);
    m_door->setState(view.door);
    m_here->setText(view.hereWords);
    m_came->setText(view.came);
    m_byHand->setText(view.byHand);
    fit();
}

QSize PeopleColumn::minimumSizeHint() const
{
    const int bar = m_doorScroll->verticalScrollBar()->sizeHint().width();
    return {m_atHand->minimumSizeHint().width() + bar, 300};
}

/// Everything gets its least; what is left goes to the row for who phoned in, to who is quiet or out, to who has just
/// come, to the door as far as who waits there needs it, and to the list of all.
void PeopleColumn::fit()
{
    const auto wants = [this](const QLabel* label) {
        return label->text().isEmpty() ? 0 : label->heightForWidth(width()) + Space::small;
    };
    const int row = m_resting->rowHeight();
    const int bar = m_doorScroll->verticalScrollBar()->sizeHint().width();
    const int inside = std::max(width() - bar, 100);
    const int door = m_atHand->layout()->hasHeightForWidth() ? m_atHand->layout()->heightForWidth(inside)
                                                             : m_atHand->sizeHint().height();
    const int lost = m_lostLines->isHidden() ? 0 : std::max(m_lostLines->heightForWidth(inside), 0) + Space::small;
    const int least = std::min({door, lost + 6 * row, std::max(height() / 2, 90)}); // the first one who waits
    int left = height() - wants(m_here) - least - 2 * row - 4 * Space::small;
    const auto fits = [&left](int wanted) {
        const bool is = wanted > 0 && left >= wanted;
        left -= is ? wanted : 0;
        return is;
    };
    m_byHandRow->setVisible(fits(m_byHandRow->sizeHint().height() + Space::small));
    m_resting->setVisible(m_shown.resting > 0 && fits(row + 8 + Space::small));
    m_resting->setFixedHeight((m_shown.resting > 1 && fits(row) ? 2 : 1) * row + 8);
    m_came->setVisible(fits(wants(m_came)));
    m_byHand->setVisible(fits(wants(m_byHand)));
    m_doorScroll->setFixedHeight(least + std::clamp(left, 0, door - least));
}

void PeopleColumn::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    fit();
}

void PeopleColumn::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange && m_atHand)
        fit();
}

} // namespace vh::help
