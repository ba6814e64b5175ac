#include "app/help/people_column.h"

#include "app/help/desk_view.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

namespace
{
QVBoxLayout* columnIn(QWidget* side)
{
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    return column;
}
} // namespace

PeopleColumn::PeopleColumn(QWidget* parent) : QWidget(parent), m_byHand(plainLabel(this, "note"))
{
    auto* column = columnIn(this);
    column->addWidget(makeNames(), 1);
    column->addWidget(m_byHand);
    column->addWidget(makeByHand());
}

QWidget* PeopleColumn::makeNames()
{
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    auto* inside = new QWidget(scroll);
    auto* column = columnIn(inside);
    column->setContentsMargins(0, 0, Space::small, 0);
    m_door = new DoorList(inside);
    connect(m_door, &DoorList::letInRequested, this, &PeopleColumn::letInRequested);
    connect(m_door, &DoorList::turnAwayRequested, this, &PeopleColumn::turnAwayRequested);
    column->addWidget(m_door);
    column->addSpacing(Space::gap);
    m_here = plainLabel(inside, "second");
    column->addWidget(m_here);
    auto* sheet = new QFrame(inside);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* names = new QVBoxLayout(sheet);
    names->setContentsMargins(Space::gap + 4, Space::gap, Space::gap + 4, Space::gap);
    m_lost = plainLabel(sheet);
    m_lost->setFont(look::Look::current().font(look::Type::body, look::Weight::bold));
    m_names = plainLabel(sheet);
    names->addWidget(m_lost);
    names->addWidget(m_names);
    column->addWidget(sheet);
    column->addStretch();
    scroll->setWidget(inside);
    return scroll;
}

QWidget* PeopleColumn::makeByHand()
{
    auto* side = new QWidget(this);
    auto* row = new QHBoxLayout(side);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::small);
    m_byHandName = new QLineEdit(side);
    m_byHandName->setPlaceholderText(tr("Who phoned in?"));
    m_byHandName->setAccessibleName(tr("Name of somebody who only phoned in"));
    m_byHandName->setMaxLength(40);
    m_byHandName->setProperty(look::kRoleProperty, "desk");
    auto* note = new BigButton(tr("Was here"), BigButton::Rank::plain, BigButton::Size::desk, side);
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
    m_door->setState(view.door);
    m_here->setText(view.hereWords);
    m_lost->setText(view.lost);
    m_lost->setVisible(!view.lost.isEmpty());
    m_names->setText(view.names);
    m_names->parentWidget()->setVisible(!view.lost.isEmpty() || !view.names.isEmpty());
    m_byHand->setText(view.byHand);
    m_byHand->setVisible(!view.byHand.isEmpty());
}

} // namespace vh::help
