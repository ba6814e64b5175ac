#include "app/write/marked_edit.h"

#include "app/look/look.h"

#include <QKeyEvent>
#include <QMimeData>
#include <QPainter>
#include <QTextBlock>
#include <QTextLayout>

namespace vh::write
{

namespace
{
constexpr double kBarHeight = 4;
}

MarkedEdit::MarkedEdit(QWidget* parent) : QPlainTextEdit(parent)
{
    setUndoRedoEnabled(false); // the document's own undo covers it
    setTabChangesFocus(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setProperty(look::kRoleProperty, "words"); // large: see app/look/style_sheet.cpp
    connect(this, &QPlainTextEdit::textChanged, this, [this] {
        if (!m_putting)
            emit typed(toPlainText(), caret());
    });
}

QSize MarkedEdit::minimumSizeHint() const
{
    const double line = QFontMetricsF(look::Look::current().font(look::Type::touch)).height();
    return {200, static_cast<int>(2 * line) + 36};
}

void MarkedEdit::setState(const QString& text, const QVector<TextRange>& marks, const QString& placeholder)
{
    if (text != toPlainText())
        putText(text);
    m_placeholder = placeholder;
    m_marks = marks;
    viewport()->update();
}

void MarkedEdit::putText(const QString& text)
{
    m_putting = true;
    const QString now = toPlainText();
    const qsizetype shorter = std::min(now.size(), text.size());
    qsizetype before = 0;
    while (before < shorter && now[before] == text[before])
        ++before;
    qsizetype after = 0;
    while (after < shorter - before && now[now.size() - 1 - after] == text[text.size() - 1 - after])
        ++after;
    QTextCursor cursor(document());
    cursor.setPosition(static_cast<int>(before));
    cursor.setPosition(static_cast<int>(now.size() - after), QTextCursor::KeepAnchor);
    cursor.insertText(text.mid(before, text.size() - before - after));
    setTextCursor(cursor);
    m_putting = false;
}

bool MarkedEdit::event(QEvent* event)
{
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool own = key->matches(QKeySequence::Copy) || key->matches(QKeySequence::Paste) ||
                         key->matches(QKeySequence::Cut) || key->matches(QKeySequence::SelectAll);
        if (!own && (key->modifiers() & (Qt::ControlModifier | Qt::AltModifier))) {
            event->ignore(); // a key of the page, if it is one
            return true;
        }
    }
    return QPlainTextEdit::event(event);
}

void MarkedEdit::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && (event->modifiers() & Qt::ShiftModifier)) {
        insertPlainText(QStringLiteral("\n"));
        ensureCursorVisible();
        return;
    }
    if (enter) {
        if (!event->isAutoRepeat())
            emit done();
        return;
    }
    QPlainTextEdit::keyPressEvent(event);
}

void MarkedEdit::insertFromMimeData(const QMimeData* source)
{
    const QString text = source->text();
    if (document()->isEmpty() && text.trimmed().contains(QLatin1Char('\n')))
        emit linesPasted(text);
    else
        QPlainTextEdit::insertFromMimeData(source);
}

/// One bar for each line that the mark lies on.
QVector<QRectF> MarkedEdit::barsOf(const TextRange& mark) const
{
    QVector<QRectF> bars;
    const QTextBlock block = document()->findBlock(static_cast<int>(mark.begin));
    if (!block.isValid() || !block.layout())
        return bars;
    const QPointF origin = blockBoundingGeometry(block).translated(contentOffset()).topLeft();
    const int begin = static_cast<int>(mark.begin) - block.position();
    const int end = static_cast<int>(mark.end) - block.position();
    for (int i = 0; i < block.layout()->lineCount(); ++i) {
        const QTextLine line = block.layout()->lineAt(i);
        const int from = std::max(begin, line.textStart());
        const int to = std::min(end, line.textStart() + line.textLength());
        if (from >= to)
            continue;
        const double left = line.cursorToX(from);
        const double right = line.cursorToX(to);
        bars.append(
            QRectF(origin.x() + left, origin.y() + line.y() + line.height() - kBarHeight, right - left, kBarHeight));
    }
    return bars;
}

void MarkedEdit::paintEvent(QPaintEvent* event)
{
    QPlainTextEdit::paintEvent(event);
    QPainter painter(viewport());
    painter.setRenderHint(QPainter::Antialiasing);
    const look::Palette& colours = look::Look::current().palette();
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.stretch);
    for (const TextRange& mark : m_marks)
        for (const QRectF& bar : barsOf(mark))
            painter.drawRoundedRect(bar, 1.5, 1.5);
    if (!document()->isEmpty() || m_placeholder.isEmpty())
        return;
    painter.setFont(look::Look::current().font(look::Type::body));
    painter.setPen(colours.secondInk);
    const int margin = static_cast<int>(document()->documentMargin());
    painter.drawText(viewport()->rect().adjusted(margin + 4, margin, -margin, -margin), Qt::TextWordWrap,
                     m_placeholder);
}

} // namespace vh::write
