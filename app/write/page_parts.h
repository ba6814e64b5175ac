#pragma once
// What the sides of the editor's page are made of. GUI thread.
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"
#include "app/write/editor_view.h"

#include <QLineEdit>
#include <QPlainTextEdit>

namespace vh::write
{

/// A button of the page, with its key: below its words, where `below`, else beside them.
enum class KeyAt { beside, below };
BigButton* buttonOf(Press press, KeyAt keyAt, QWidget* parent);

/// A field with its words above it, which a reader says with it.
QLabel* labelFor(QWidget* field, const QString& words, QWidget* parent);

QLineEdit* lineField(QWidget* parent);
/// Some lines of running text, as high as `lines`; Tab leaves it.
QPlainTextEdit* textField(int lines, QWidget* parent);

/// What stands in the field becomes this; the caret stays where it can.
void putInto(QLineEdit& field, const QString& text);
void putInto(QPlainTextEdit& field, const QString& text);

/// Lets through what the page's own keys are, undo among them, when the keyboard is in a field.
class PageKeys : public QObject
{
    Q_OBJECT
public:
    using QObject::QObject;

protected:
    bool eventFilter(QObject* field, QEvent* event) override;
};

} // namespace vh::write
