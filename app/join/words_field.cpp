#include "app/join/words_field.h"

#include "app/look/look.h"
#include "common/base/text.h"

#include <QKeyEvent>
#include <QMimeData>
#include <QTextBoundaryFinder>

#include <algorithm>

namespace vh::join
{

namespace
{

/// Of what is pasted, so that a whole book costs no time.
constexpr qsizetype kMostPasted = 10'000;

std::size_t codePoints(const QString& words)
{
    return static_cast<std::size_t>(
        std::count_if(words.begin(), words.end(), [](QChar each) { return !each.isLowSurrogate(); }));
}

const Clock& machineClock()
{
    static const SystemClock clock;
    return clock;
}

} // namespace

QString shortened(const QString& words, std::size_t most)
{
    if (codePoints(words) <= most)
        return words;
    QTextBoundaryFinder signs(QTextBoundaryFinder::Grapheme, words);
    qsizetype end = 0;
    while (signs.toNextBoundary() != -1 && codePoints(words.left(signs.position())) <= most)
        end = signs.position();
    return words.left(end);
}

WordsField::WordsField(std::size_t most, QWidget* parent)
    : QPlainTextEdit(parent), m_most(most), m_clock(&machineClock())
{
    setProperty(look::kRoleProperty, "words");
    setTabChangesFocus(true);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setWordWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    setContextMenuPolicy(Qt::NoContextMenu); // no menu during class; the keys for it work
    setUndoRedoEnabled(true);
    connect(this, &QPlainTextEdit::textChanged, this, [this] {
        if (m_becoming)
            return;
        keepShort();
        emit wordsChanged(toPlainText());
    });
}

void WordsField::setWords(const QString& words)
{
    if (words == toPlainText())
        return;
    m_becoming = true;
    setPlainText(words);
    moveCursor(QTextCursor::End);
    m_becoming = false;
}

int WordsField::heightOf(int lines) const
{
    constexpr int kAround = 2 * (4 + 10) + 8; // the look's border and padding, and the document's own margin
    // Of the size it gets from the look's style sheet, which may not have been applied yet.
    return lines * QFontMetrics(look::Look::current().font(look::Type::touch)).lineSpacing() + kAround;
}

/// What is over the limit goes from where it was put in, not from the end of what stood there.
void WordsField::keepShort()
{
    const QString words = toPlainText();
    const std::size_t all = codePoints(words);
    if (all <= m_most)
        return;
    const qsizetype here = textCursor().position();
    const QString after = words.mid(here);
    const std::size_t room = m_most > codePoints(after) ? m_most - codePoints(after) : 0;
    const QString before = shortened(words.left(here), room);
    m_becoming = true;
    setPlainText(shortened(before + after, m_most));
    QTextCursor cursor = textCursor();
    cursor.setPosition(static_cast<int>(before.size()));
    setTextCursor(cursor);
    m_becoming = false;
}

void WordsField::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (!enter || (event->modifiers() & Qt::ShiftModifier))
        return QPlainTextEdit::keyPressEvent(event);
    event->accept();
    if (m_enter.accept(m_clock->now()) && !event->isAutoRepeat())
        emit sendRequested();
}

void WordsField::resizeEvent(QResizeEvent* event)
{
    QPlainTextEdit::resizeEvent(event);
    ensureCursorVisible();
}

void WordsField::insertFromMimeData(const QMimeData* source)
{
    if (!source->hasText())
        return;
    const QString pasted = source->text().left(kMostPasted);
    const auto clean = cleanLine(pasted.toStdString(), static_cast<std::size_t>(kMostPasted), LineBreaks::keep);
    insertPlainText(QString::fromStdString(clean.value_or(std::string())));
    ensureCursorVisible();
}

} // namespace vh::join
