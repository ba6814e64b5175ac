#pragma once
// Lines that broke off: who, since when; one press shows whom to ring, where the person agreed to that; then a word on
// what was done. Without any it takes no room. GUI thread.
#include "app/people/care_row.h"
#include "common/base/id.h"

#include <vector>

class QVBoxLayout;

namespace vh
{

class LostList : public QWidget
{
    Q_OBJECT
public:
    enum class Press { none, look };
    struct Row {
        PersonId person;
        QString words;  ///< "Jonas: line lost, 40 s ago"
        QString detail; ///< whom to ring, once it was asked for; may be empty
        Press press = Press::none;
        bool mine = false; ///< in hand here: what was done is asked
        friend bool operator==(const Row&, const Row&) = default;
    };
    struct State {
        std::vector<Row> rows;
        QString more; ///< "and 3 more"; may be empty
        friend bool operator==(const State&, const State&) = default;
    };

    explicit LostList(QWidget* parent = nullptr, CareRow::Press press = CareRow::Press::beside);
    ~LostList() override;
    void setState(const State& state);

signals:
    void lookRequested(const vh::PersonId& person);
    void doneRequested(const vh::PersonId& person, const QString& outcome);

private:
    struct Box {
        PersonId person;
        CareRow* row;
    };
    [[nodiscard]] CareRow* rowFor(const PersonId& person);

    State m_state;
    CareRow::Press m_press;
    QVBoxLayout* m_layout;
    QLabel* m_more;
    std::vector<Box> m_boxes;
};

} // namespace vh
