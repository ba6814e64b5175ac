#include "app/write/words_side.h"

#include "app/write/flow_row.h"
#include "app/write/marked_edit.h"
#include "app/write/page_parts.h"

#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

WordsSide::WordsSide(QWidget* parent) : QWidget(parent), m_text(new MarkedEdit(this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::hair);
    m_where = labelFor(m_text, tr("What is said, or done"), this);
    column->addWidget(m_where);
    column->addWidget(m_text, 3);
    column->addWidget(plainLabel(this, "note", tr("Enter: on to the next. Shift+Enter: a new line.")));
    auto* row = new FlowRow(Space::small);
    m_mark = buttonOf(Press::mark, KeyAt::below, this);
    m_markAll = buttonOf(Press::markAll, KeyAt::below, this);
    m_split = buttonOf(Press::split, KeyAt::below, this);
    for (BigButton* each : {m_mark, m_markAll, m_split})
        row->addWidget(each);
    column->addLayout(row);
    m_note = textField(1, this);
    column->addWidget(labelFor(m_note, tr("Note, for you alone"), this));
    column->addWidget(m_note, 1);

    connect(m_text, &MarkedEdit::typed, this, &WordsSide::textTyped);
    connect(m_text, &MarkedEdit::done, this, &WordsSide::textDone);
    connect(m_text, &MarkedEdit::linesPasted, this, &WordsSide::linesPasted);
    connect(m_note, &QPlainTextEdit::textChanged, this, [this] { emit noteTyped(m_note->toPlainText()); });
    connect(m_mark, &BigButton::pressRequested, this, &WordsSide::mark);
    connect(m_markAll, &BigButton::pressRequested, this, [this] { emit pressed(Press::markAll); });
    connect(m_split, &BigButton::pressRequested, this, [this] { emit pressed(Press::split); });
}

void WordsSide::mark()
{
    const QTextCursor cursor = m_text->textCursor();
    emit markRequested(cursor.selectionStart(), cursor.selectionEnd());
}

int WordsSide::caret() const
{
    return m_text->caret();
}

void WordsSide::setState(const EditorView& view)
{
    const StepFields& step = view.step;
    m_bytes = step.marked;
    m_where->setText(step.where);
    m_text->setState(step.text, rangesOf(step.marked, step.marks), step.wouldBeGood);
    putInto(*m_note, step.note);
    m_mark->setEnabled(!step.text.isEmpty());
    m_split->setEnabled(!step.text.isEmpty());
    m_markAll->setEnabled(view.canMark);
}

void WordsSide::toText(std::uint32_t begin, std::uint32_t end)
{
    m_text->setFocus(Qt::OtherFocusReason);
    QTextCursor cursor = m_text->textCursor();
    const QVector<TextRange> at =
        begin < end && end <= m_bytes.size() ? rangesOf(m_bytes, {{begin, end}}) : QVector<TextRange>();
    if (at.isEmpty()) {
        cursor.movePosition(QTextCursor::End);
    } else {
        cursor.setPosition(static_cast<int>(at[0].begin));
        cursor.setPosition(static_cast<int>(at[0].end), QTextCursor::KeepAnchor);
    }
    m_text->setTextCursor(cursor);
}

} // namespace vh::write
