#include "app/people/call_list.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace vh
{

using look::Look;
using look::Space;

/// One call. The ground is deep while nobody has taken it; then a quiet sheet.
class CallList::RowBox : public QWidget
{
public:
    RowBox(std::uint64_t callId, CallList* list)
        : QWidget(list), call(callId), m_words(new QLabel(this)), m_detail(new QLabel(this)),
          m_outcome(new QLineEdit(this)),
          m_take(new BigButton(CallList::tr("I take it"), BigButton::Rank::plain, BigButton::Size::desk, this)),
          m_done(new BigButton(CallList::tr("Done"), BigButton::Rank::plain, BigButton::Size::desk, this))
    {
        for (BigButton* button : {m_take, m_done}) // a click leaves the keys, and the clicker, where they were
            button->setFocusPolicy(Qt::TabFocus);
        for (QLabel* label : {m_words, m_detail}) {
            label->setTextFormat(Qt::PlainText);
            label->setWordWrap(true);
        }
        m_outcome->setPlaceholderText(CallList::tr("What was done?"));
        m_outcome->setMaxLength(200);
        m_outcome->setProperty(look::kRoleProperty, "desk");
        auto* text = new QVBoxLayout;
        text->setSpacing(0);
        text->addWidget(m_words);
        text->addWidget(m_detail);
        auto* top = new QHBoxLayout;
        top->setSpacing(Space::gap);
        top->addLayout(text, 1);
        top->addWidget(m_take, 0, Qt::AlignVCenter);
        m_close = new QHBoxLayout;
        m_close->setSpacing(Space::small);
        m_close->addWidget(m_outcome, 1);
        m_close->addWidget(m_done);
        auto* box = new QVBoxLayout(this);
        box->setContentsMargins(Space::gap + 4, Space::hair + 2, Space::gap, Space::hair + 2);
        box->setSpacing(Space::hair);
        box->addLayout(top);
        box->addLayout(m_close);
        connect(m_take, &BigButton::pressRequested, list, [this, list] { emit list->takeRequested(call); });
        const auto done = [this, list] { emit list->doneRequested(call, m_outcome->text().trimmed()); };
        connect(m_done, &BigButton::pressRequested, list, done);
        connect(m_outcome, &QLineEdit::returnPressed, list, done);
    }

    void setState(const Row& row)
    {
        if (row == m_row && m_shown)
            return;
        const bool isNew = !m_shown || row.hand != m_row.hand;
        m_shown = true;
        m_row = row;
        m_words->setText(row.words);
        m_detail->setText(row.detail);
        m_detail->setVisible(!row.detail.isEmpty());
        m_take->setVisible(row.hand == Hand::nobody);
        m_take->setAccessibleName(CallList::tr("I take it: %1").arg(row.words));
        m_outcome->setVisible(row.hand == Hand::mine);
        m_outcome->setAccessibleName(CallList::tr("What was done? %1").arg(row.words));
        m_done->setVisible(row.hand == Hand::mine);
        m_done->setAccessibleName(CallList::tr("Done: %1").arg(row.words));
        colour();
        if (isNew) { // readers say who calls, not every second that passes
            setAccessibleName(row.words);
            QAccessibleEvent event(this, QAccessible::Alert);
            QAccessible::updateAccessibility(&event);
        }
        update();
    }

    const std::uint64_t call;

protected:
    void paintEvent(QPaintEvent*) override
    {
        const look::Palette& colours = Look::current().palette();
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5),
                         m_row.hand == Hand::nobody ? colours.deep : colours.quiet);
    }
    void changeEvent(QEvent* event) override
    {
        QWidget::changeEvent(event);
        if (event->type() == QEvent::StyleChange)
            colour();
    }

private:
    void colour()
    {
        const look::Palette& colours = Look::current().palette();
        QFont bold = Look::current().font(look::Type::body, look::Weight::bold);
        if (m_words->font() != bold)
            m_words->setFont(bold);
        for (QLabel* label : {m_words, m_detail}) {
            QPalette palette = label->palette();
            const QColor ink = m_row.hand == Hand::nobody ? colours.onDeep : colours.ink;
            if (palette.color(QPalette::WindowText) == ink)
                continue;
            palette.setColor(QPalette::WindowText, ink);
            label->setPalette(palette);
        }
    }

    Row m_row;
    bool m_shown = false;
    QLabel* m_words;
    QLabel* m_detail;
    QLineEdit* m_outcome;
    BigButton* m_take;
    BigButton* m_done;
    QHBoxLayout* m_close = nullptr;
};

CallList::CallList(QWidget* parent) : QWidget(parent), m_layout(new QVBoxLayout(this)), m_more(new QLabel(this))
{
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(Space::small);
    m_more->setTextFormat(Qt::PlainText);
    m_more->hide();
    m_layout->addWidget(m_more);
    setAccessibleName(tr("Calls for help"));
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    hide();
}

CallList::~CallList() = default;

void CallList::keyPressEvent(QKeyEvent* event)
{
    // Enter in a row closes its call (QLineEdit lets the key pass on), and must mean nothing else to the room.
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return event->accept();
    QWidget::keyPressEvent(event);
}

void CallList::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    std::erase_if(m_boxes, [&](RowBox* box) {
        const bool stays =
            std::any_of(state.rows.begin(), state.rows.end(), [&](const Row& row) { return row.call == box->call; });
        if (!stays) {
            m_layout->removeWidget(box);
            box->hide();
            box->deleteLater();
        }
        return !stays;
    });
    for (std::size_t at = 0; at < state.rows.size(); ++at) {
        const Row& row = state.rows[at];
        auto found = std::find_if(m_boxes.begin(), m_boxes.end(), [&](RowBox* box) { return box->call == row.call; });
        RowBox* box = found == m_boxes.end() ? m_boxes.emplace_back(new RowBox(row.call, this)) : *found;
        if (m_layout->indexOf(box) != static_cast<int>(at))
            m_layout->insertWidget(static_cast<int>(at), box);
        box->setState(row);
    }
    m_more->setText(state.more);
    m_more->setVisible(!state.more.isEmpty());
    setVisible(!state.rows.empty());
}

} // namespace vh
