#pragma once
// The class is open and people are coming: how they get in, who is here, the door, and the press that starts it. Part
// of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"

class QFrame;
class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class ReadyPage : public QWidget
{
    Q_OBJECT
public:
    explicit ReadyPage(QWidget* parent);
    void setState(const LeadView& view);

signals:
    void startRequested();
    void takePlaceRequested();
    void inviteRequested(vh::Role role);
    void copyRequested(const QString& text);
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void groupWindowRequested();
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;

private:
    struct LinkRow {
        QWidget* box = nullptr;
        QLineEdit* link = nullptr;
        BigButton* copy = nullptr;
        BigButton* make = nullptr; ///< null: nothing to be made
    };
    QWidget* makeHead();
    QWidget* makeWayIn();
    QWidget* makePeople();
    QWidget* makeFoot();
    LinkRow makeLink(QWidget* parent, const QString& words, std::optional<Role> role);
    static void setLink(const LinkRow& row, const QString& link);

    QLabel* m_title;
    QLabel* m_group;
    LevelBar* m_level;
    BigButton* m_groupWindow;
    NoticeLine* m_notice;
    QFrame* m_wayIn;
    QLabel* m_code;
    QLabel* m_wordsHead;
    QLabel* m_words;
    LinkRow m_link;
    LinkRow m_helper;
    LinkRow m_standIn;
    LinkRow m_leader;
    CallList* m_calls;
    QLabel* m_here;
    DoorList* m_door;
    QLabel* m_clock;
    BigButton* m_take;
    BigButton* m_start;
};

} // namespace vh::lead
