#include "app/pictures/window_strip.h"

#include "app/look/look.h"
#include "app/pictures/picture_box.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

namespace vh::pictures
{

using look::Space;

WindowStrip::WindowStrip(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::gap, Space::small, Space::gap, Space::small);
    row->setSpacing(Space::gap);
    m_picture = new PictureBox(this, look::Type::fine);
    m_picture->setFixedSize(112, 84);
    row->addWidget(m_picture);
    auto* column = new QVBoxLayout;
    column->setSpacing(0);
    m_caption = plainLabel(this);
    m_caption->setWordWrap(false);
    m_caption->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    m_more = plainLabel(this, "note");
    m_more->setWordWrap(false);
    auto* head = new QHBoxLayout;
    head->setSpacing(Space::small);
    head->addWidget(m_caption, 1);
    head->addWidget(m_more);
    column->addLayout(head);
    auto* keys = new QHBoxLayout;
    keys->setSpacing(Space::small);
    m_show = new BigButton({}, BigButton::Rank::plain, BigButton::Size::desk, this);
    m_show->setKeyHint("P");
    m_show->setHintGivesWay();
    m_done = new BigButton(tr("Done with it"), BigButton::Rank::plain, BigButton::Size::desk, this);
    for (BigButton* button : {m_show, m_done}) {
        button->setFocusPolicy(Qt::TabFocus);
        keys->addWidget(button);
    }
    keys->addStretch(1);
    column->addLayout(keys);
    row->addLayout(column, 1);
    connect(m_show, &BigButton::pressRequested, this, &WindowStrip::press);
    connect(m_done, &BigButton::pressRequested, this, [this] { emit doneRequested(m_view.item); });
    hide();
}

void WindowStrip::press()
{
    if (m_view.item != 0)
        emit showRequested(m_view.item, !m_view.shown);
}

void WindowStrip::setState(const WindowStripView& view)
{
    m_view = view;
    setVisible(view.item != 0);
    const QString caption = view.caption.isEmpty() ? tr("A picture") : view.caption;
    m_picture->setState({view.picture, caption, view.picture.isNull() ? QStringLiteral("\u2026") : QString()});
    m_caption->setAccessibleName(caption);
    m_more->setText(view.more == 0 ? QString() : tr("%1 more").arg(view.more));
    m_more->setVisible(view.more > 0);
    m_show->setText(view.shown ? tr("Take it away") : tr("Show to all"));
    m_done->setVisible(!view.shown);
    fitCaption();
}

/// As much of it as there is room for; a reader says all of it.
void WindowStrip::fitCaption()
{
    const QString& all = m_caption->accessibleName();
    m_caption->setText(QFontMetrics(m_caption->font()).elidedText(all, Qt::ElideRight, m_caption->width()));
}

void WindowStrip::resizeEvent(QResizeEvent* event)
{
    QFrame::resizeEvent(event);
    layout()->activate(); // the caption's own place first
    fitCaption();
}

} // namespace vh::pictures
