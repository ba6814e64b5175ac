#pragma once
// One row of somebody who needs looking after: words, what is known, and one press; or, once it is in hand here, a
// place to say what was done. Keeps its widgets, so that nothing jumps and nothing being written is lost while seconds
// pass. Part of CallList and LostList. GUI thread.
#include <QWidget>

class QLabel;
class QLineEdit;

namespace vh
{

class BigButton;

class CareRow : public QWidget
{
    Q_OBJECT
public:
    struct State {
        QString words;       ///< "Greta needs help, 18 s ago"
        QString detail;      ///< may be empty
        QString press;       ///< "I take it"; empty: nothing to press
        bool asks = false;   ///< what was done
        bool urgent = false; ///< on the deep ground
        friend bool operator==(const State&, const State&) = default;
    };

    /// Where the press stands: beside the words, or below them in a narrow column.
    enum class Press { beside, below };
    explicit CareRow(QWidget* parent, Press press = Press::beside);
    void setState(const State& state);

signals:
    void pressRequested();
    void doneRequested(const QString& outcome);

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void colour();

    State m_state;
    bool m_shown = false;
    QLabel* m_words;
    QLabel* m_detail;
    QLineEdit* m_outcome;
    BigButton* m_press;
    BigButton* m_done;
};

} // namespace vh
