#include "app/people/care_row.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QVBoxLayout>

namespace vh
{

using look::Look;
using look::Space;

CareRow::CareRow(QWidget* parent, Press press)
    : QWidget(parent), m_words(plainLabel(this)), m_detail(plainLabel(this)), m_outcome(new QLineEdit(this)),
      m_press(new BigButton({}, BigButton::Rank::plain, BigButton::Size::desk, this)),
      m_done(new BigButton(tr("Done"), BigButton::Rank::plain, BigButton::Size::desk, this))
{
    for (BigButton* button : {m_press, m_done}) // a click leaves the keys, and the clicker, where they were
        button->setFocusPolicy(Qt::TabFocus);
    m_outcome->setPlaceholderText(tr("What was done?"));
    m_outcome->setMaxLength(200);
    m_outcome->setProperty(look::kRoleProperty, "desk");
    auto* text = new QVBoxLayout;
    text->setSpacing(0);
    text->addWidget(m_words);
    text->addWidget(m_detail);
    const bool beside = press == Press::beside;
    auto* top = new QBoxLayout(beside ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    top->setSpacing(beside ? Space::gap : Space::hair);
    top->addLayout(text, 1);
    top->addWidget(m_press, 0, beside ? Qt::AlignVCenter : Qt::AlignLeft);
    auto* close = new QHBoxLayout;
    close->setSpacing(Space::small);
    close->addWidget(m_outcome, 1);
    close->addWidget(m_done);
    auto* box = new QVBoxLayout(this);
    box->setContentsMargins(Space::gap + 4, Space::hair + 2, Space::gap, Space::hair + 2);
    box->setSpacing(Space::hair);
    box->addLayout(top);
    box->addLayout(close);
    connect(m_press, &BigButton::pressRequested, this, &CareRow::pressRequested);
    const auto done = [this] { emit doneRequested(m_outcome->text().trimmed()); };
    connect(m_done, &BigButton::pressRequested, this, done);
    connect(m_outcome, &QLineEdit::returnPressed, this, done);
}

void CareRow::setState(const State& state)
{
    if (state == m_state && m_shown)
        return;
    const bool isNew = !m_shown || state.asks != m_state.asks || state.urgent != m_state.urgent;
    m_shown = true;
    m_state = state;
    m_words->setText(state.words);
    m_detail->setText(state.detail);
    m_detail->setVisible(!state.detail.isEmpty());
    m_press->setText(state.press);
    m_press->setVisible(!state.press.isEmpty());
    m_press->setAccessibleName(QStringLiteral("%1: %2").arg(state.press, state.words));
    m_outcome->setVisible(state.asks);
    m_outcome->setAccessibleName(tr("What was done? %1").arg(state.words));
    m_done->setVisible(state.asks);
    m_done->setAccessibleName(tr("Done: %1").arg(state.words));
    colour();
    if (isNew) { // readers say who it is, not every second that passes
        setAccessibleName(state.words);
        QAccessibleEvent event(this, QAccessible::Alert);
        QAccessible::updateAccessibility(&event);
    }
    update();
}

void CareRow::keyPressEvent(QKeyEvent* event)
{
    // Enter closes the row (QLineEdit lets the key pass on), and must mean nothing else to the room.
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return event->accept();
    QWidget::keyPressEvent(event);
}

void CareRow::paintEvent(QPaintEvent*)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5),
                     m_state.urgent ? colours.deep : colours.quiet);
}

void CareRow::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        colour();
}

void CareRow::colour()
{
    const look::Palette& colours = Look::current().palette();
    const QFont bold = Look::current().font(look::Type::body, look::Weight::bold);
    if (m_words->font() != bold)
        m_words->setFont(bold);
    const QColor ink = m_state.urgent ? colours.onDeep : colours.ink;
    for (QLabel* label : {m_words, m_detail}) {
        QPalette palette = label->palette();
        if (palette.color(QPalette::WindowText) == ink)
            continue;
        palette.setColor(QPalette::WindowText, ink);
        label->setPalette(palette);
    }
}

} // namespace vh
