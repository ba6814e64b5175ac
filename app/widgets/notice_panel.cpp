#include "app/widgets/notice_panel.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QEvent>

#include <algorithm>

namespace vh
{

using look::Space;
using look::Type;

namespace
{

constexpr int kBetween = Space::hair;
constexpr int kSpare = 6; // so that one large line and two small ones have room too
constexpr Type kSizes[] = {Type::touch, Type::title, Type::body, Type::note}; // the first in which all of it fits

} // namespace

NoticePanel::NoticePanel(QWidget* parent)
    : QWidget(parent), m_first(new NoticeLine(this, Type::touch)), m_second(new NoticeLine(this, Type::touch)),
      m_calm(plainLabel(this, "second")),
      m_action(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_second->setTight(true);
    m_calm->setAlignment(Qt::AlignVCenter | Qt::AlignLeft);
    m_action->hide();
    connect(m_action, &BigButton::pressRequested, this, &NoticePanel::actionRequested);
}

void NoticePanel::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    m_first->setState(state.first);
    m_second->setState(state.second);
    m_calm->setText(state.calm);
    m_action->setText(state.action);
    m_action->setSign(state.sign);
    place();
}

QSize NoticePanel::sizeHint() const
{
    const int two = 2 * NoticeLine::heightOf({}, Type::touch, 500, true) + kBetween + kSpare;
    return {900, std::max(two, BigButton({}, BigButton::Rank::plain, BigButton::Size::touch).sizeHint().height())};
}

QSize NoticePanel::minimumSizeHint() const
{
    return {400, sizeHint().height()};
}

void NoticePanel::place()
{
    const bool two = !m_state.second.words.isEmpty();
    const bool acts = !m_state.action.isEmpty();
    const QSize action = m_action->sizeHint();
    if (acts)
        m_action->setGeometry(width() - action.width(), (height() - action.height()) / 2, action.width(),
                              action.height());
    m_action->setVisible(acts);
    const int wide = width() - (acts ? action.width() + Space::gap : 0);
    m_calm->setVisible(m_state.first.words.isEmpty());
    m_calm->setGeometry(0, 0, wide, height());
    m_first->setVisible(!m_state.first.words.isEmpty());
    m_second->setVisible(two);

    for (const Type type : kSizes) {
        const int first = NoticeLine::heightOf(m_state.first.words, type, wide, true);
        const int second = two ? NoticeLine::heightOf(m_state.second.words, type, wide, true) + kBetween : 0;
        if (first + second > height() && type != std::end(kSizes)[-1])
            continue;
        m_first->setTight(true);
        m_first->setType(type);
        m_second->setType(type);
        const int left = std::max(0, height() - first - second) / (two ? 2 : 1); // shared out
        m_first->setGeometry(0, 0, wide, first + left);
        m_second->setGeometry(0, first + left + kBetween, wide, height() - first - left - kBetween);
        break;
    }
}

void NoticePanel::resizeEvent(QResizeEvent*)
{
    place();
}

void NoticePanel::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange) {
        updateGeometry();
        place();
    }
    QWidget::changeEvent(event);
}

} // namespace vh
