#pragma once
// The helper's desk: what is to read, what becomes of it, the board, the door, calls for help above everything, a line
// to all, who is here. Becomes the DeskView it is given; presses go out as requests. Keys act only while a list has the
// focus (desk_task.h). What is written (answers, a reason) stands in the middle; the lists stay where they are.
// GUI thread.
#include "app/help/answer_page.h"
#include "app/help/desk_task.h"
#include "app/help/desk_view.h"

#include <QPointer>
#include <QWidget>

class QStackedWidget;

namespace vh::help
{

class ActsPage;
class BoardColumn;
class HeadLine;
class PeopleColumn;
class PeopleList;
class RepliesPage;
class WordList;
class WordsColumn;

class DeskRoom : public QWidget
{
    Q_OBJECT
public:
    explicit DeskRoom(QWidget* parent = nullptr);
    void setState(const DeskView& view);
    void setReplies(const QStringList& replies);
    /// A line that was taken back is to be read: it is chosen, now or once it is there.
    void chooseToRead(quint64 item);
    /// On which a picture is looked at; it stands in the place of the columns while there is one.
    [[nodiscard]] pictures::PictureSheet& picture() { return *m_picture; }
    /// The list of what is to read.
    [[nodiscard]] WordList& toRead();

signals:
    void decisionRequested(quint64 item, vh::wire::Decision decision);
    /// What was done with this line; 0: the last that was done here.
    void takeBackRequested(quint64 item);
    void answerRequested(quint64 item, bool toAll, const QString& text);
    void restRequested(vh::PersonId person, const QString& name, vh::wire::Rest rest, const QString& reason);
    void claimRequested(quint64 item, bool on);
    void actsRequested();
    void repliesChanged(const QStringList& replies);
    void pictureOpenRequested(quint64 item);
    /// Words about a press that did nothing.
    void sayRequested(const QString& words);
    void letInRequested(quint64 door);
    void turnAwayRequested(quint64 door);
    void callTakeRequested(quint64 call);
    void callDoneRequested(quint64 call, const QString& outcome);
    void lookRequested(const vh::PersonId& person);
    void lineDoneRequested(const vh::PersonId& person, const QString& outcome);
    void noticeRequested(const QString& text);
    void attendRequested(const QString& name);
    void leaveRequested();

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    QWidget* makeHead();
    QWidget* makeColumns();
    void passOn();
    void follow(WordList& list);
    void follow(PeopleList& list);
    void showTarget();
    void turnTo(QStackedWidget* stack, QWidget* page);
    void openPage(QWidget* page);
    void closePage();
    void showPicture(const pictures::SheetView& view);

    void doTask(DeskTask task);
    void takeBack();
    void doWithLine(DeskTask task, const WordRow& row);
    void doWithPerson(DeskTask task, PersonId person, const QString& name, quint64 item);
    void send(AnswerPage::Kind kind, const AnswerPage::About& about, const QString& text);

    HeadLine* m_head = nullptr;
    CallList* m_calls;
    WordsColumn* m_words = nullptr;
    BoardColumn* m_board = nullptr;
    PeopleColumn* m_people = nullptr;
    AnswerPage* m_answer = nullptr;
    RepliesPage* m_repliesPage = nullptr;
    ActsPage* m_acts = nullptr;
    pictures::PictureSheet* m_picture = nullptr;
    QStackedWidget* m_whole = nullptr;  ///< the columns, or a picture
    QStackedWidget* m_middle = nullptr; ///< the board, or what is being written
    QStackedWidget* m_right = nullptr;  ///< that and the people, or what was done
    QStringList m_replies;
    WordList* m_lines = nullptr;     ///< that had the keyboard last, or null: a list of people had
    PeopleList* m_persons = nullptr; ///< likewise
    bool m_turning = false;          ///< pages: the keyboard goes where nobody sent it
    QPointer<QWidget> m_backTo;      ///< had the keyboard before a page was opened
};

} // namespace vh::help
