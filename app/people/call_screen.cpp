#include "app/people/call_screen.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QAccessible>
#include <QEvent>
#include <QGridLayout>
#include <QPainter>
#include <QShortcut>
#include <QVBoxLayout>

namespace vh
{

using look::Look;
using look::Space;

namespace
{
constexpr qsizetype kLong = 160; ///< where and whom to ring, in characters
} // namespace

CallScreen::CallScreen(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel(this)), m_since(plainLabel(this)),
      m_whereHead(plainLabel(this, nullptr, tr("Where"))), m_where(plainLabel(this)),
      m_ringHead(plainLabel(this, nullptr, tr("Whom to ring"))), m_ring(plainLabel(this)), m_said(plainLabel(this)),
      m_emergency(plainLabel(this, nullptr,
                             tr("Voicehall does not call the emergency services. In an emergency ring those of the "
                                "place where the person is."))),
      m_meanwhile(plainLabel(this)),
      m_take(new BigButton(tr("I take it"), BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_aside(new BigButton(tr("Set it aside"), BigButton::Rank::plain, BigButton::Size::touch, this))
{
    for (QLabel* head : {m_whereHead, m_ringHead})
        head->setWordWrap(false);
    for (QLabel* label : {m_where, m_ring})
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_take->setKeyHint(QStringLiteral("H"));
    m_aside->setKeyHint(QStringLiteral("A"));
    m_aside->setCaption(tr("it stays in the list"));
    m_take->setCaption(tr("the caller is told"));
    for (BigButton* button : {m_take, m_aside})
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the class's keys where they were
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    auto* content = new QVBoxLayout;
    row->addStretch(1);
    row->addLayout(content, 1000);
    row->addStretch(1);
    content->setSpacing(Space::gap);
    content->addStretch(2);
    content->addWidget(m_heading);
    content->addWidget(m_since);
    content->addSpacing(Space::gap);
    auto* facts = new QGridLayout;
    facts->setHorizontalSpacing(Space::wide);
    facts->setVerticalSpacing(Space::small);
    facts->addWidget(m_whereHead, 0, 0, Qt::AlignTop);
    facts->addWidget(m_where, 0, 1);
    facts->addWidget(m_ringHead, 1, 0, Qt::AlignTop);
    facts->addWidget(m_ring, 1, 1);
    facts->addWidget(m_said, 2, 1);
    facts->setColumnStretch(1, 1);
    content->addLayout(facts);
    content->addSpacing(Space::gap);
    auto* presses = new QHBoxLayout;
    presses->setSpacing(Space::wide);
    presses->addWidget(m_take);
    presses->addWidget(m_aside);
    presses->addStretch(1);
    content->addLayout(presses);
    content->addSpacing(Space::gap);
    content->addWidget(m_emergency);
    content->addStretch(3);
    content->addWidget(m_meanwhile);
    const auto key = [this](Qt::Key code, auto act) {
        auto* shortcut = new QShortcut(QKeySequence(code), this);
        shortcut->setAutoRepeat(false);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    const auto take = [this] {
        if (m_state)
            emit takeRequested(m_state->call);
    };
    const auto aside = [this] {
        if (m_state)
            emit asideRequested(m_state->call);
    };
    key(Qt::Key_H, take);
    key(Qt::Key_A, aside);
    connect(m_take, &BigButton::pressRequested, this, take);
    connect(m_aside, &BigButton::pressRequested, this, aside);
    parent->installEventFilter(this);
    hide();
}

void CallScreen::setState(const std::optional<State>& state)
{
    if (state == m_state)
        return;
    const bool isNew = state && (!m_state || m_state->call != state->call);
    const bool hadFocus = m_take->hasFocus() || m_aside->hasFocus();
    m_state = state;
    if (!state) {
        hide();
        if (hadFocus && parentWidget())
            parentWidget()->setFocus();
        return;
    }
    m_heading->setText(state->heading);
    m_since->setText(state->since);
    const bool known = !state->where.isEmpty() || !state->ring.isEmpty();
    m_where->setText(state->where);
    m_ring->setText(state->ring);
    for (QLabel* label : {m_whereHead, m_where, m_ringHead, m_ring})
        label->setVisible(known);
    m_said->setText(state->said);
    m_said->setVisible(known && !state->said.isEmpty());
    m_meanwhile->setText(state->meanwhile);
    m_meanwhile->setVisible(!state->meanwhile.isEmpty() && !isLong());
    m_take->setAccessibleName(tr("I take it: %1").arg(state->heading));
    m_aside->setAccessibleName(tr("Set it aside: %1").arg(state->heading));
    colour();
    if (!isNew)
        return;
    setAccessibleName(state->heading);
    cover();
    show();
    QAccessibleEvent alert(this, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
}

void CallScreen::cover()
{
    setGeometry(parentWidget()->rect());
    raise();
}

bool CallScreen::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == parentWidget() && event->type() == QEvent::Resize && m_state)
        cover();
    return QWidget::eventFilter(watched, event);
}

void CallScreen::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.fillRect(rect(), Look::current().palette().deep);
}

void CallScreen::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        colour();
}

bool CallScreen::isLong() const
{
    return m_state && m_state->where.size() + m_state->ring.size() > kLong;
}

void CallScreen::colour()
{
    using look::Type;
    using look::Weight;
    const auto wear = [](QLabel* label, Type type, Weight weight) {
        const QFont font = Look::current().font(type, weight);
        if (label->font() != font)
            label->setFont(font);
        QPalette palette = label->palette();
        const QColor ink = Look::current().palette().onDeep;
        if (palette.color(QPalette::WindowText) != ink) {
            palette.setColor(QPalette::WindowText, ink);
            label->setPalette(palette);
        }
    };
    wear(m_heading, Type::cue, Weight::bold);
    const Type facts = isLong() ? Type::body : Type::title; // all of it is seen, if not as large
    wear(m_since, facts, Weight::regular);
    for (QLabel* label : {m_whereHead, m_ringHead})
        wear(label, facts, Weight::regular);
    for (QLabel* label : {m_where, m_ring})
        wear(label, facts, Weight::bold);
    for (QLabel* label : {m_said, m_emergency, m_meanwhile})
        wear(label, Type::body, Weight::regular);
}

} // namespace vh
