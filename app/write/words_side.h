#pragma once
// A step's words: its text with the marks, and the leader's note. GUI thread.
#include "app/write/editor_view.h"

#include <QWidget>

class QLabel;
class QPlainTextEdit;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class MarkedEdit;

class WordsSide : public QWidget
{
    Q_OBJECT
public:
    explicit WordsSide(QWidget* parent = nullptr);
    void setState(const EditorView& view);
    /// The keyboard goes to the text; its caret to bytes [begin, end) of it, or to its end.
    void toText(std::uint32_t begin = 0, std::uint32_t end = 0);
    [[nodiscard]] int caret() const;
    /// Asks for the mark of what is chosen, or where the caret stands.
    void mark();

signals:
    void textTyped(const QString& text, int caret);
    void textDone();
    void linesPasted(const QString& lines);
    void noteTyped(const QString& note);
    void markRequested(int begin, int end);
    void pressed(vh::write::Press press);

private:
    MarkedEdit* m_text;
    QLabel* m_where;
    BigButton* m_mark;
    BigButton* m_markAll;
    BigButton* m_split;
    QPlainTextEdit* m_note;
    std::string m_bytes;
};

} // namespace vh::write
