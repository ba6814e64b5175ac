#pragma once
// The right side of the helper's desk: who waits at the door, whose line is lost, who is here, who is quiet or out, and
// who only phoned in. GUI thread.
#include "app/help/people_list.h"
#include "app/people/door_list.h"
#include "app/people/lost_list.h"

class QLabel;
class QLineEdit;
class QScrollArea;

namespace vh::help
{

struct DeskView;

class PeopleColumn : public QWidget
{
    Q_OBJECT
public:
    explicit PeopleColumn(QWidget* parent = nullptr);
    void setState(const DeskView& view);
    [[nodiscard]] PeopleList& resting() { return *m_resting; }
    [[nodiscard]] PeopleList& everybody() { return *m_everybody; }
    /// Where there is little room (many calls for help stand above) less of it is shown.
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void attendRequested(const QString& name);
    void lookRequested(const vh::PersonId& person);
    void lineDoneRequested(const vh::PersonId& person, const QString& outcome);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void makeDoor();
    QWidget* makeByHand();
    void fit();

    struct Shown {
        DoorList::State door;
        LostList::State lost;
        QStringList words;
        int resting = 0;
        friend bool operator==(const Shown&, const Shown&) = default;
    };
    Shown m_shown; ///< what the room that each has depends on

    QWidget* m_atHand = nullptr; ///< the two below
    LostList* m_lostLines = nullptr;
    DoorList* m_door = nullptr;
    QScrollArea* m_doorScroll = nullptr;
    QLabel* m_here;
    QLabel* m_came;
    PeopleList* m_resting;
    PeopleList* m_everybody;
    QWidget* m_byHandRow = nullptr;
    QLabel* m_byHand;
    QLineEdit* m_byHandName = nullptr;
};

} // namespace vh::help
