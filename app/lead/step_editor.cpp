#include "app/lead/step_editor.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"
#include "common/script/limits.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPlainTextEdit>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Look;
using look::Space;
using look::Type;

StepEditor::StepEditor(QWidget* parent) : QWidget(parent)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_where = plainLabel(this, "second");
    column->addWidget(m_where);
    m_text = new QPlainTextEdit(this);
    m_text->setAccessibleName(tr("Text of the step"));
    m_text->setTabChangesFocus(true);
    m_text->setMinimumHeight(60); // a line of the largest type, beside a fault of four lines
    m_text->installEventFilter(this);
    connect(m_text, &QPlainTextEdit::textChanged, this, &StepEditor::tellSend);
    column->addWidget(m_text, 1);
    m_hint = plainLabel(this, "note");
    column->addWidget(m_hint);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(Space::gap);
    m_send = new BigButton(tr("Send to the homes"), BigButton::Rank::main, BigButton::Size::desk, this);
    m_send->setKeyHint(tr("Ctrl+Enter"));
    m_send->setHintGivesWay();
    connect(m_send, &BigButton::pressRequested, this, &StepEditor::send);
    buttons->addWidget(m_send);
    m_file = new BigButton(tr("Take the file"), BigButton::Rank::plain, BigButton::Size::desk, this);
    m_file->setAccessibleName(tr("Take the whole class from its file, as it has been saved since"));
    m_file->setToolTip(m_file->accessibleName());
    connect(m_file, &BigButton::pressRequested, this, [this] {
        emit changeRequested({ChangeRequest::Kind::takeFile, {}, {}});
    });
    buttons->addWidget(m_file);
    buttons->addStretch(1);
    column->addLayout(buttons);
}

void StepEditor::setState(const TextView& view, bool fresh)
{
    if (view == m_shown && !fresh)
        return;
    const bool news = view.fault != m_shown.fault && !view.fault.isEmpty();
    m_shown = view;
    m_where->setText(view.where);
    m_text->setFont(Look::current().font(Type::title));
    if (fresh)
        m_text->setPlainText(view.text);
    m_text->setReadOnly(view.sending);
    m_hint->setText(view.fault.isEmpty() ? tr("A vowel to be held stands between < and >: b<oa>t.") : view.fault);
    m_send->setText(view.sending ? tr("On its way\u2026") : tr("Send to the homes"));
    m_file->setVisible(view.fromFile);
    m_file->setEnabled(!view.sending);
    tellSend();
    if (news) {
        QAccessibleEvent alert(m_hint, QAccessible::Alert);
        QAccessible::updateAccessibility(&alert);
    }
}

/// Nothing goes out that says what the homes have already.
void StepEditor::tellSend()
{
    m_send->setEnabled(!m_shown.sending && m_text->toPlainText().trimmed() != m_shown.text);
}

void StepEditor::send()
{
    if (m_send->isEnabled())
        emit changeRequested({ChangeRequest::Kind::correct, m_shown.at, m_text->toPlainText().trimmed()});
}

void StepEditor::takeFocus()
{
    m_text->setFocus();
    m_text->moveCursor(QTextCursor::End);
}

bool StepEditor::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_text || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (!enter || !(key->modifiers() & Qt::ControlModifier))
        return QWidget::eventFilter(watched, event);
    if (!key->isAutoRepeat())
        send();
    return true;
}

} // namespace vh::lead
