#pragma once
// Where a line is written: plain text of any script, no longer than a limit in code points (cut between whole signs, so
// that no emoji is halved), however much is pasted. Enter sends, Shift and Enter begins a new line. Presses of Enter
// within 400 ms count once (PressFilter). GUI thread.
#include "app/widgets/press_filter.h"

#include <QPlainTextEdit>

namespace vh::join
{

class WordsField : public QPlainTextEdit
{
    Q_OBJECT
public:
    WordsField(std::size_t most, QWidget* parent = nullptr);
    /// Nothing is signalled.
    void setWords(const QString& words);
    /// Tests hand in theirs; it must outlive the field.
    void setClock(const Clock& clock) { m_clock = &clock; }
    /// Of `lines` lines.
    [[nodiscard]] int heightOf(int lines) const;

signals:
    /// Somebody has written: all of it now.
    void wordsChanged(const QString& words);
    void sendRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void insertFromMimeData(const QMimeData* source) override;

private:
    void keepShort();

    std::size_t m_most;
    bool m_becoming = false; ///< what changes is not somebody's wish
    const Clock* m_clock;
    PressFilter m_enter;
};

/// As much of it as has at most `most` code points, cut between whole signs.
QString shortened(const QString& words, std::size_t most);

} // namespace vh::join
