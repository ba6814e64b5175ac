#include "app/lead/trim_box.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QScrollArea>
#include <QScrollBar>

namespace vh::lead
{

using look::Space;

TrimBox::TrimBox(QWidget* parent) : QWidget(parent)
{
    setFocusPolicy(Qt::StrongFocus);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    m_headline = plainLabel(this);
    column->addWidget(m_headline);
    m_scroll = new QScrollArea(this);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setAccessibleName(tr("To be left out"));
    m_list = new QWidget(m_scroll);
    m_rows = new QVBoxLayout(m_list);
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setSpacing(Space::gap);
    m_rows->addStretch();
    m_scroll->setWidget(m_list);
    column->addWidget(m_scroll, 1);
    m_already = plainLabel(this, "second");
    column->addWidget(m_already);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(Space::gap);
    const auto button = [&](const QString& words, const QString& key, BigButton::Rank rank, ChangeRequest::Kind kind) {
        auto* made = new BigButton(words, rank, BigButton::Size::desk, this);
        made->setKeyHint(key);
        made->setHintGivesWay();
        connect(made, &BigButton::pressRequested, this, [this, kind] { emit changeRequested({kind, {}, {}}); });
        buttons->addWidget(made);
        return made;
    };
    m_agree = button(tr("Leave them out"), tr("Enter"), BigButton::Rank::main, ChangeRequest::Kind::agree);
    m_putBack = button(tr("Put back"), QStringLiteral("Z"), BigButton::Rank::plain, ChangeRequest::Kind::putBack);
    m_putBack->setAccessibleName(tr("Put back what is left out and still comes"));
    buttons->addStretch(1);
    column->addLayout(buttons);
}

void TrimBox::setRows(const std::vector<StepRow>& rows)
{
    while (m_rows->count() > 1) {
        QLayoutItem* item = m_rows->takeAt(0);
        delete item->widget();
        delete item;
    }
    for (const StepRow& each : rows) {
        auto* row = new QWidget(m_list);
        auto* across = new QHBoxLayout(row);
        across->setContentsMargins(0, 0, Space::small, 0);
        across->setSpacing(Space::gap);
        auto* texts = new QVBoxLayout;
        texts->setSpacing(0);
        texts->addWidget(plainLabel(row, nullptr, each.words));
        texts->addWidget(plainLabel(row, "note", each.section));
        across->addLayout(texts, 1);
        auto* saved = plainLabel(row, nullptr, each.beside);
        saved->setWordWrap(false);
        across->addWidget(saved, 0, Qt::AlignTop);
        m_rows->insertWidget(m_rows->count() - 1, row);
    }
}

void TrimBox::setState(const TrimView& view)
{
    if (view == m_shown)
        return;
    if (view.rows != m_shown.rows)
        setRows(view.rows);
    const bool news = view.headline != m_shown.headline;
    m_shown = view;
    m_headline->setText(view.headline);
    m_already->setText(view.already);
    m_already->setVisible(!view.already.isEmpty());
    m_agree->setText(view.agree);
    m_agree->setVisible(!view.agree.isEmpty());
    m_putBack->setVisible(!view.already.isEmpty());
    setAccessibleName(view.headline);
    if (news) {
        QAccessibleEvent alert(this, QAccessible::Alert);
        QAccessible::updateAccessibility(&alert);
    }
}

void TrimBox::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter: // never leads the class on: a press that agrees to nothing does nothing
        if (!event->isAutoRepeat() && !m_shown.agree.isEmpty())
            emit changeRequested({ChangeRequest::Kind::agree, {}, {}});
        return;
    case Qt::Key_Z:
        if (!event->isAutoRepeat() && !m_shown.already.isEmpty())
            emit changeRequested({ChangeRequest::Kind::putBack, {}, {}});
        return;
    case Qt::Key_Up:
        return m_scroll->verticalScrollBar()->triggerAction(QAbstractSlider::SliderSingleStepSub);
    case Qt::Key_Down:
        return m_scroll->verticalScrollBar()->triggerAction(QAbstractSlider::SliderSingleStepAdd);
    default:
        QWidget::keyPressEvent(event); // the class's keys
    }
}

} // namespace vh::lead
