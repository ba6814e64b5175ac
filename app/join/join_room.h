#pragma once
// The participant's room: shows one JoinView, and says what the person asks for. It changes nothing itself. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QStackedWidget;

namespace vh::pictures
{
class SendPage;
}

namespace vh::join
{

class AnswerPage;
class AskPage;
class BoardPage;
class CallPage;
class CheckPage;
class ChoicesPage;
class ClassPage;
class HeardSign;
class InvitationPage;
class ScreenGuard;
class WaitPage;

class JoinRoom : public QWidget
{
    Q_OBJECT
public:
    explicit JoinRoom(QWidget* parent = nullptr);
    void setState(const JoinView& view);
    /// "Everyone hears you", over whatever is shown, until it is not so any more.
    void setHeard(bool heard);
    /// Tests hand in theirs; it must outlive the room.
    void setClock(const Clock& clock);
    /// The page that is shown.
    [[nodiscard]] QWidget* currentWidget() const;

signals:
    void submitRequested(const QStringList& fields);
    void choiceRequested(int choice);
    void backRequested();
    void waitButtonRequested();
    /// After the class; before it, it is the control beside the notices.
    void handoutRequested();
    void checkPressed(vh::join::CheckPress press);
    void deviceRequested(int device);
    void helpRequested();
    void helloRequested();
    void writeRequested();
    void choicesRequested();
    void privateRequested();
    void leaveRequested();
    void noticeRequested(vh::join::NoticeAction action);
    void pickRequested(int row, int answer);
    void undoRequested();
    void moreRequested();
    /// At the board.
    void draftChanged(const QString& words);
    void sendRequested();
    void lineRequested(quint64 line);
    void peopleRequested();
    void putAwayRequested(bool writeBack);
    /// Pictures: one is to be sent; from a file, or pasted; with these words; back; one's own is taken back.
    void pictureRequested();
    void pictureFileRequested();
    void picturePasteRequested();
    void pictureSendRequested(const QString& caption);
    void pictureAgreementRequested(bool yes);
    void pictureBackRequested();
    void pictureTakeBackRequested();
    /// The answer to whether everybody may hear this person, and the one press that ends it.
    void invitationAnswered(bool yes);
    void endBeingHeardRequested();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void bindPictures();
    void placeSign();

    HeardSign* m_heard; ///< first for the keyboard
    QStackedWidget* m_pages;
    AskPage* m_ask;
    WaitPage* m_wait;
    CheckPage* m_check;
    ChoicesPage* m_choices;
    ClassPage* m_class;
    BoardPage* m_board;
    AnswerPage* m_answer;
    pictures::SendPage* m_sendPicture;
    pictures::LargePage* m_largePicture;
    CallPage* m_call;
    InvitationPage* m_invitation;
    ScreenGuard* m_guard;
    QString m_heading; ///< of the screen that is shown
};

} // namespace vh::join
