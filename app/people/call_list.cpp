#include "app/people/call_list.h"

#include "app/look/look.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

#include <algorithm>

namespace vh
{

CallList::CallList(QWidget* parent) : QWidget(parent), m_layout(new QVBoxLayout(this)), m_more(plainLabel(this))
{
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(look::Space::small);
    m_more->setWordWrap(false);
    m_more->hide();
    m_layout->addWidget(m_more);
    setAccessibleName(tr("Calls for help"));
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    hide();
}

CallList::~CallList() = default;

CareRow* CallList::rowFor(std::uint64_t call)
{
    const auto found = std::find_if(m_boxes.begin(), m_boxes.end(), [&](const Box& box) { return box.call == call; });
    if (found != m_boxes.end())
        return found->row;
    auto* row = new CareRow(this);
    connect(row, &CareRow::pressRequested, this, [this, call] { emit takeRequested(call); });
    connect(row, &CareRow::doneRequested, this,
            [this, call](const QString& outcome) { emit doneRequested(call, outcome); });
    m_boxes.push_back({call, row});
    return row;
}

void CallList::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    std::erase_if(m_boxes, [&](const Box& box) {
        const bool stays =
            std::any_of(state.rows.begin(), state.rows.end(), [&](const Row& row) { return row.call == box.call; });
        if (!stays) {
            m_layout->removeWidget(box.row);
            box.row->hide();
            box.row->deleteLater();
        }
        return !stays;
    });
    for (std::size_t at = 0; at < state.rows.size(); ++at) {
        const Row& row = state.rows[at];
        CareRow* box = rowFor(row.call);
        if (m_layout->indexOf(box) != static_cast<int>(at))
            m_layout->insertWidget(static_cast<int>(at), box);
        box->setState({row.words, row.detail, row.hand == Hand::nobody ? tr("I take it") : QString(),
                       row.hand == Hand::mine, row.hand == Hand::nobody});
    }
    m_more->setText(state.more);
    m_more->setVisible(!state.more.isEmpty());
    setVisible(!state.rows.empty());
}

} // namespace vh
