#include "app/lead/whom_to_ring.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Space;

WhomToRing::WhomToRing(QWidget* parent)
    : QWidget(parent), m_text(new QLineEdit(this)),
      m_keep(new BigButton(tr("Keep"), BigButton::Rank::plain, BigButton::Size::desk, this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::hair);
    column->addWidget(
        plainLabel(this, "note", tr("Whom to ring when nobody is here to help (and the emergency number):")));
    m_text->setMaxLength(200);
    m_text->setProperty(look::kRoleProperty, "desk");
    m_text->setAccessibleName(tr("Whom people are to ring when nobody is here to help"));
    m_text->setPlaceholderText(tr("a name and a number"));
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::small);
    row->addWidget(m_text, 1);
    row->addWidget(m_keep);
    column->addLayout(row);
    m_keep->setAccessibleName(tr("Keep whom to ring"));
    connect(m_text, &QLineEdit::textChanged, this, &WhomToRing::showState);
    connect(m_text, &QLineEdit::returnPressed, this, &WhomToRing::keep);
    connect(m_keep, &BigButton::pressRequested, this, &WhomToRing::keep);
    showState();
}

void WhomToRing::setText(const QString& text)
{
    if (text == m_kept)
        return;
    const bool untouched = m_text->text() == m_kept;
    m_kept = text;
    if (untouched)
        m_text->setText(text);
    showState();
}

void WhomToRing::keep()
{
    const QString text = m_text->text().simplified();
    if (text != m_kept)
        emit keepRequested(text);
}

/// "Keep" means something while there is something new.
void WhomToRing::showState()
{
    m_keep->setEnabled(m_text->text().simplified() != m_kept);
}

void WhomToRing::keyPressEvent(QKeyEvent* event)
{
    // Enter keeps what was written (QLineEdit lets the key pass on), and must mean nothing else to the room.
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return event->accept();
    QWidget::keyPressEvent(event);
}

} // namespace vh::lead
