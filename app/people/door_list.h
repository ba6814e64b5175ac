#pragma once
// Who waits at the door: a name, "let in" and "turn away" for each, and above them the four words to read out where the
// relay has a key of its own. Without anybody at the door it says so in one line. GUI thread.
#include <QWidget>

#include <cstdint>
#include <vector>

class QLabel;
class QVBoxLayout;

namespace vh
{

class DoorList : public QWidget
{
    Q_OBJECT
public:
    struct Row {
        std::uint64_t door = 0;
        QString name;
        QString detail; ///< "on a tablet, 12 s"
        QString heed{}; ///< "Looks like Marta, who is of the group."; may be empty
        friend bool operator==(const Row&, const Row&) = default;
    };
    struct State {
        std::vector<Row> rows;
        QString words;  ///< the four words; empty with a public certificate
        QString more{}; ///< "and 12 more"; may be empty
        friend bool operator==(const State&, const State&) = default;
    };

    explicit DoorList(QWidget* parent = nullptr);
    ~DoorList() override;
    void setState(const State& state);

signals:
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);

private:
    class RowBox;
    State m_state;
    QVBoxLayout* m_layout;
    QLabel* m_head;
    QLabel* m_ask;
    QLabel* m_words;
    QLabel* m_more;
    std::vector<RowBox*> m_boxes;
};

} // namespace vh
