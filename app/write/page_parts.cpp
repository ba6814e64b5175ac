#include "app/write/page_parts.h"

#include <QKeyEvent>
#include <QSignalBlocker>

namespace vh::write
{

BigButton* buttonOf(Press press, KeyAt keyAt, QWidget* parent)
{
    const Keyed keyed = keyedOf(press);
    auto* button = new BigButton(keyed.words, BigButton::Rank::plain, BigButton::Size::desk, parent);
    if (keyAt == KeyAt::below)
        button->setCaption(keyed.keyWords);
    if (!keyed.keyWords.isEmpty() && keyAt == KeyAt::beside) {
        button->setKeyHint(keyed.keyWords);
        button->setHintGivesWay();
    }
    button->setSizePolicy(keyAt == KeyAt::beside ? QSizePolicy::Preferred : QSizePolicy::Fixed, QSizePolicy::Fixed);
    return button;
}

QLabel* labelFor(QWidget* field, const QString& words, QWidget* parent)
{
    QLabel* label = plainLabel(parent, "note", words);
    label->setBuddy(field);
    field->setAccessibleName(words);
    return label;
}

QLineEdit* lineField(QWidget* parent)
{
    auto* field = new QLineEdit(parent);
    field->setProperty(look::kRoleProperty, "desk");
    field->installEventFilter(new PageKeys(field));
    return field;
}

QPlainTextEdit* textField(int lines, QWidget* parent)
{
    auto* field = new QPlainTextEdit(parent);
    field->setUndoRedoEnabled(false);
    field->setTabChangesFocus(true);
    field->installEventFilter(new PageKeys(field));
    field->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    const double line = QFontMetricsF(look::Look::current().font(look::Type::body)).height();
    field->setFixedHeight(static_cast<int>(lines * line) + 40);
    return field;
}

void putInto(QLineEdit& field, const QString& text)
{
    if (field.text() == text)
        return;
    const int caret = field.cursorPosition();
    field.setText(text);
    field.setCursorPosition(std::min(caret, static_cast<int>(text.size())));
}

void putInto(QPlainTextEdit& field, const QString& text)
{
    if (field.toPlainText() == text)
        return;
    const QSignalBlocker quiet(&field);
    const int caret = field.textCursor().position();
    field.setPlainText(text);
    QTextCursor cursor = field.textCursor();
    cursor.setPosition(std::min(caret, static_cast<int>(text.size())));
    field.setTextCursor(cursor);
}

bool PageKeys::eventFilter(QObject*, QEvent* event)
{
    if (event->type() != QEvent::ShortcutOverride)
        return false;
    const auto* key = static_cast<QKeyEvent*>(event);
    for (int i = 0; i < kPresses; ++i) {
        const QKeySequence keys = keyedOf(static_cast<Press>(i)).keys;
        if (!keys.isEmpty() && keys == QKeySequence(key->keyCombination())) {
            event->ignore();
            return true;
        }
    }
    return false;
}

} // namespace vh::write
