#include "app/people/lost_list.h"

#include "app/look/look.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

#include <algorithm>

namespace vh
{

LostList::LostList(QWidget* parent) : QWidget(parent), m_layout(new QVBoxLayout(this)), m_more(plainLabel(this, "note"))
{
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(look::Space::hair);
    m_more->setWordWrap(false);
    m_more->hide();
    m_layout->addWidget(m_more);
    setAccessibleName(tr("Lines that are lost"));
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred); // a narrow one is higher than it would like
    hide();
}

LostList::~LostList() = default;

CareRow* LostList::rowFor(const PersonId& person)
{
    const auto found =
        std::find_if(m_boxes.begin(), m_boxes.end(), [&](const Box& box) { return box.person == person; });
    if (found != m_boxes.end())
        return found->row;
    auto* row = new CareRow(this);
    connect(row, &CareRow::pressRequested, this, [this, person] { emit lookRequested(person); });
    connect(row, &CareRow::doneRequested, this,
            [this, person](const QString& outcome) { emit doneRequested(person, outcome); });
    m_boxes.push_back({person, row});
    return row;
}

void LostList::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    std::erase_if(m_boxes, [&](const Box& box) {
        const bool stays =
            std::any_of(state.rows.begin(), state.rows.end(), [&](const Row& row) { return row.person == box.person; });
        if (!stays) {
            m_layout->removeWidget(box.row);
            box.row->hide();
            box.row->deleteLater();
        }
        return !stays;
    });
    for (std::size_t at = 0; at < state.rows.size(); ++at) {
        const Row& row = state.rows[at];
        CareRow* box = rowFor(row.person);
        if (m_layout->indexOf(box) != static_cast<int>(at))
            m_layout->insertWidget(static_cast<int>(at), box);
        box->setState(
            {row.words, row.detail, row.press == Press::look ? tr("Whom to ring") : QString(), row.mine, false});
    }
    m_more->setText(state.more);
    m_more->setVisible(!state.more.isEmpty());
    setVisible(!state.rows.empty());
}

} // namespace vh
