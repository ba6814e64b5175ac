#include "app/lead/door_strip.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::lead
{

using look::Space;

DoorStrip::DoorStrip(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::gap + 2, Space::small, Space::gap + 2, Space::hair);
    column->setSpacing(0);
    m_who = plainLabel(this);
    m_who->setFont(look::Look::current().font(look::Type::body, look::Weight::bold));
    column->addWidget(m_who);
    m_words = plainLabel(this, "note");
    column->addWidget(m_words);
    auto* row = new QHBoxLayout;
    row->setSpacing(0);
    const auto button = [&](const QString& words, auto act) {
        auto* made = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, this);
        made->setFocusPolicy(Qt::TabFocus);
        connect(made, &BigButton::pressRequested, this, act);
        row->addWidget(made);
    };
    button(tr("Let in"), [this] { emit letInRequested(m_shown); });
    button(tr("Turn away"), [this] { emit turnAwayRequested(m_shown); });
    button(tr("Later"), [this] {
        for (const DoorList::Row& each : m_state.rows)
            m_later = std::max(m_later, each.door);
        hide();
    });
    row->addStretch();
    column->addLayout(row);
    hide();
}

void DoorStrip::setState(const DoorList::State& door)
{
    m_state = door;
    const auto first =
        std::find_if(door.rows.begin(), door.rows.end(), [this](const DoorList::Row& r) { return r.door > m_later; });
    setVisible(first != door.rows.end());
    if (first == door.rows.end())
        return;
    m_shown = first->door;
    m_who->setText(first->detail.isEmpty() ? tr("%1 is at the door").arg(first->name)
                                           : tr("%1 is at the door: %2").arg(first->name, first->detail));
    m_words->setText(door.words.isEmpty() ? QString() : tr("The same four words on their screen? %1").arg(door.words));
    m_words->setVisible(!door.words.isEmpty());
}

} // namespace vh::lead
