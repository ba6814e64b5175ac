#include "app/people/door_list.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>

namespace vh
{

using look::Space;

class DoorList::RowBox : public QFrame
{
public:
    RowBox(std::uint64_t doorId, DoorList* list)
        : QFrame(list), door(doorId), m_name(plainLabel(this)), m_heed(plainLabel(this)),
          m_detail(plainLabel(this, "note")),
          m_letIn(new BigButton(DoorList::tr("Let in"), BigButton::Rank::plain, BigButton::Size::desk, this)),
          m_turnAway(new BigButton(DoorList::tr("Turn away"), BigButton::Rank::plain, BigButton::Size::desk, this))
    {
        setProperty(look::kRoleProperty, "sheet");
        for (BigButton* button : {m_letIn, m_turnAway}) // a click leaves the keys, and the clicker, where they were
            button->setFocusPolicy(Qt::TabFocus);
        m_name->setFont(look::Look::current().font(look::Type::body, look::Weight::bold));
        m_heed->setFont(look::Look::current().font(look::Type::note, look::Weight::bold));
        auto* box = new QVBoxLayout(this);
        box->setContentsMargins(Space::gap + 4, Space::small, Space::gap, Space::small);
        box->setSpacing(2);
        auto* who = new QHBoxLayout;
        who->setSpacing(Space::small);
        who->addWidget(m_name, 1);
        who->addWidget(m_detail, 0, Qt::AlignRight | Qt::AlignVCenter);
        m_detail->setWordWrap(false);
        box->addLayout(who);
        box->addWidget(m_heed);
        auto* row = new QHBoxLayout;
        row->setSpacing(Space::small);
        row->addWidget(m_letIn);
        row->addWidget(m_turnAway);
        row->addStretch();
        box->addLayout(row);
        connect(m_letIn, &BigButton::pressRequested, list, [this, list] { emit list->letInRequested(door); });
        connect(m_turnAway, &BigButton::pressRequested, list, [this, list] { emit list->turnAwayRequested(door); });
    }
    void setState(const Row& row)
    {
        m_name->setText(row.name);
        m_heed->setText(row.heed);
        m_heed->setVisible(!row.heed.isEmpty());
        m_detail->setText(row.detail);
        m_letIn->setAccessibleName(DoorList::tr("Let in %1").arg(row.name));
        m_letIn->setAccessibleDescription(row.heed);
        m_turnAway->setAccessibleName(DoorList::tr("Turn away %1").arg(row.name));
    }
    const std::uint64_t door;

private:
    QLabel* m_name;
    QLabel* m_heed;
    QLabel* m_detail;
    BigButton* m_letIn;
    BigButton* m_turnAway;
};

DoorList::DoorList(QWidget* parent)
    : QWidget(parent), m_layout(new QVBoxLayout(this)), m_head(plainLabel(this, "second")),
      m_ask(plainLabel(this, "note")), m_words(plainLabel(this)), m_more(plainLabel(this, "note"))
{
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(Space::small);
    m_layout->addWidget(m_head);
    m_layout->addWidget(m_ask);
    m_layout->addWidget(m_words);
    m_ask->setText(tr("Let in only who reads out these words:"));
    m_ask->hide();
    m_words->setFont(look::Look::current().font(look::Type::body, look::Weight::bold));
    m_head->setText(tr("Nobody is at the door"));
    m_words->hide();
    m_more->hide();
    m_layout->addWidget(m_more);
    setAccessibleName(tr("The door"));
}

DoorList::~DoorList() = default;

void DoorList::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    m_head->setText(state.rows.empty() ? tr("Nobody is at the door") : tr("At the door: %1").arg(state.rows.size()));
    m_words->setText(state.words);
    m_more->setText(state.more);
    m_more->setVisible(!state.more.isEmpty());
    m_ask->setVisible(!state.words.isEmpty() && !state.rows.empty());
    m_words->setVisible(!state.words.isEmpty() && !state.rows.empty());
    std::erase_if(m_boxes, [&](RowBox* box) {
        const bool stays =
            std::any_of(state.rows.begin(), state.rows.end(), [&](const Row& row) { return row.door == box->door; });
        if (!stays) {
            m_layout->removeWidget(box);
            box->hide();
            box->deleteLater();
        }
        return !stays;
    });
    for (const Row& row : state.rows) {
        auto found = std::find_if(m_boxes.begin(), m_boxes.end(), [&](RowBox* box) { return box->door == row.door; });
        if (found == m_boxes.end()) {
            m_boxes.push_back(new RowBox(row.door, this));
            m_layout->insertWidget(m_layout->indexOf(m_more), m_boxes.back());
            m_boxes.back()->show();
            m_boxes.back()->setState(row);
        } else {
            (*found)->setState(row);
        }
    }
}

} // namespace vh
