#pragma once
// Calls for help: who, since when, and one button each: "I take it", which shows where to find them; then "Done" with a
// word on what was done. Stands above everything; without calls it takes no room. GUI thread.
#include "app/people/care_row.h"

#include <cstdint>
#include <vector>

class QVBoxLayout;

namespace vh
{

class CallList : public QWidget
{
    Q_OBJECT
public:
    enum class Hand { nobody, mine, another };
    struct Row {
        std::uint64_t call = 0;
        QString words;  ///< "Greta needs help, 18 s ago"
        QString detail; ///< "At the kitchen table. To ring: ..."; may be empty
        Hand hand = Hand::nobody;
        friend bool operator==(const Row&, const Row&) = default;
    };
    struct State {
        std::vector<Row> rows;
        QString more; ///< "and 3 more"; may be empty
        friend bool operator==(const State&, const State&) = default;
    };

    explicit CallList(QWidget* parent = nullptr);
    ~CallList() override;
    void setState(const State& state);

signals:
    void takeRequested(quint64 call);
    void doneRequested(quint64 call, const QString& outcome);

private:
    struct Box {
        std::uint64_t call;
        CareRow* row;
    };
    [[nodiscard]] CareRow* rowFor(std::uint64_t call);

    State m_state;
    QVBoxLayout* m_layout;
    QLabel* m_more;
    std::vector<Box> m_boxes;
};

} // namespace vh
