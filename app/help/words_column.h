#pragma once
// The left side of the helper's desk: what is to read, and below it what can be done with the chosen line of whichever
// list has the keyboard; its key stands on every control. While a line has been chosen for a moment the others at the
// desk are told that it is being read here. GUI thread.
#include "app/help/word_list.h"

#include <QTimer>

#include <map>

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::help
{

struct DeskView;

class WordsColumn : public QWidget
{
    Q_OBJECT
public:
    explicit WordsColumn(QWidget* parent = nullptr);
    void setState(const DeskView& view);
    /// What the controls act on: a line, a person alone, or nothing.
    enum class Target { nothing, line, person };
    void setTarget(Target target);
    [[nodiscard]] WordList& list() { return *m_toRead; }
    /// Nobody reads here any more: another room, or the window is hidden.
    void stopReading();

signals:
    /// A control, or a key of this list.
    void taskRequested(vh::help::DeskTask task);
    /// A line is being read here, or no longer.
    void claimRequested(quint64 item, bool on);

private:
    QWidget* makeTasks();
    BigButton* makeButton(DeskTask task, QWidget* parent);
    void readingChanged();
    void startReading();

    QLabel* m_head;
    WordList* m_toRead;
    std::map<DeskTask, BigButton*> m_buttons;
    QTimer m_soon; ///< until it is said that the line is being read
    QTimer m_idle; ///< until nobody is taken to be reading any more
    quint64 m_reads = 0;
};

} // namespace vh::help
