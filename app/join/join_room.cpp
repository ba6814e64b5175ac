#include "app/join/join_room.h"

#include "app/join/answer_page.h"
#include "app/join/ask_page.h"
#include "app/join/board_page.h"
#include "app/join/call_page.h"
#include "app/join/check_page.h"
#include "app/join/choices_page.h"
#include "app/join/class_page.h"
#include "app/join/heard_sign.h"
#include "app/join/invitation_page.h"
#include "app/join/screen_guard.h"
#include "app/join/wait_page.h"
#include "app/look/look.h"
#include "app/pictures/send_page.h"

#include <QEvent>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace vh::join
{

JoinRoom::JoinRoom(QWidget* parent)
    : QWidget(parent), m_heard(new HeardSign(this)), m_pages(new QStackedWidget(this)), m_ask(new AskPage(m_pages)),
      m_wait(new WaitPage(m_pages)), m_check(new CheckPage(m_pages)), m_choices(new ChoicesPage(m_pages)),
      m_class(new ClassPage(m_pages)), m_board(new BoardPage(m_pages)), m_answer(new AnswerPage(m_pages)),
      m_sendPicture(new pictures::SendPage(m_pages)), m_largePicture(new pictures::LargePage(m_pages)),
      m_call(new CallPage(m_pages)), m_invitation(new InvitationPage(m_pages)), m_guard(new ScreenGuard(*this))
{
    setObjectName("room"); // the look's paper
    setAttribute(Qt::WA_StyledBackground);
    for (QWidget* page :
         {static_cast<QWidget*>(m_ask), static_cast<QWidget*>(m_wait), static_cast<QWidget*>(m_check),
          static_cast<QWidget*>(m_choices), static_cast<QWidget*>(m_class), static_cast<QWidget*>(m_board),
          static_cast<QWidget*>(m_answer), static_cast<QWidget*>(m_sendPicture), static_cast<QWidget*>(m_largePicture),
          static_cast<QWidget*>(m_invitation), static_cast<QWidget*>(m_call)})
        m_pages->addWidget(page);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_pages);
    connect(m_ask, &AskPage::submitRequested, this, &JoinRoom::submitRequested);
    connect(m_ask, &AskPage::choiceRequested, this, &JoinRoom::choiceRequested);
    connect(m_ask, &AskPage::backRequested, this, &JoinRoom::backRequested);
    connect(m_wait, &WaitPage::buttonRequested, this, &JoinRoom::waitButtonRequested);
    connect(m_wait, &WaitPage::handoutRequested, this, &JoinRoom::handoutRequested);
    connect(m_wait, &WaitPage::helpRequested, this, &JoinRoom::helpRequested);
    connect(m_call, &CallPage::backRequested, this, &JoinRoom::backRequested);
    connect(m_call, &CallPage::againRequested, this, &JoinRoom::helpRequested);
    connect(m_call, &CallPage::takeBackRequested, this, [this] { emit noticeRequested(NoticeAction::takeBackCall); });
    connect(m_check, &CheckPage::pressed, this, &JoinRoom::checkPressed);
    connect(m_check, &CheckPage::deviceRequested, this, &JoinRoom::deviceRequested);
    connect(m_class, &ClassPage::helpRequested, this, &JoinRoom::helpRequested);
    connect(m_class, &ClassPage::writeRequested, this, &JoinRoom::writeRequested);
    connect(m_class, &ClassPage::helloRequested, this, &JoinRoom::helloRequested);
    connect(m_class, &ClassPage::choicesRequested, this, &JoinRoom::choicesRequested);
    connect(m_class, &ClassPage::noticeRequested, this, &JoinRoom::noticeRequested);
    connect(m_choices, &ChoicesPage::pickRequested, this, &JoinRoom::pickRequested);
    connect(m_choices, &ChoicesPage::undoRequested, this, &JoinRoom::undoRequested);
    connect(m_choices, &ChoicesPage::moreRequested, this, &JoinRoom::moreRequested);
    connect(m_choices, &ChoicesPage::backRequested, this, &JoinRoom::backRequested);
    connect(m_board, &BoardPage::draftChanged, this, &JoinRoom::draftChanged);
    connect(m_board, &BoardPage::sendRequested, this, &JoinRoom::sendRequested);
    connect(m_board, &BoardPage::lineRequested, this, &JoinRoom::lineRequested);
    connect(m_board, &BoardPage::peopleRequested, this, &JoinRoom::peopleRequested);
    connect(m_board, &BoardPage::backRequested, this, &JoinRoom::backRequested);
    connect(m_answer, &AnswerPage::putAwayRequested, this, &JoinRoom::putAwayRequested);
    bindPictures();
    connect(m_invitation, &InvitationPage::answered, this, &JoinRoom::invitationAnswered);
    connect(m_heard, &HeardSign::endRequested, this, &JoinRoom::endBeingHeardRequested);
    connect(m_class, &ClassPage::privateRequested, this, &JoinRoom::privateRequested);
    connect(m_class, &ClassPage::leaveRequested, this, &JoinRoom::leaveRequested);
}

void JoinRoom::bindPictures()
{
    using pictures::LargePage;
    using pictures::SendPage;
    connect(m_board, &BoardPage::pictureRequested, this, &JoinRoom::pictureRequested);
    connect(m_sendPicture, &SendPage::chooseRequested, this, &JoinRoom::pictureFileRequested);
    connect(m_sendPicture, &SendPage::pasteRequested, this, &JoinRoom::picturePasteRequested);
    connect(m_sendPicture, &SendPage::sendRequested, this, &JoinRoom::pictureSendRequested);
    connect(m_sendPicture, &SendPage::agreementRequested, this, &JoinRoom::pictureAgreementRequested);
    connect(m_sendPicture, &SendPage::backRequested, this, &JoinRoom::pictureBackRequested);
    connect(m_largePicture, &LargePage::backRequested, this, &JoinRoom::pictureBackRequested);
    connect(m_largePicture, &LargePage::takeBackRequested, this, &JoinRoom::pictureTakeBackRequested);
}

QWidget* JoinRoom::currentWidget() const
{
    return m_pages->currentWidget();
}

void JoinRoom::setClock(const Clock& clock)
{
    m_guard->setClock(clock);
    m_board->setClock(clock);
}

void JoinRoom::setState(const JoinView& view)
{
    const auto show = [this](QWidget* page, const QString& heading) {
        if (m_pages->currentWidget() == page && m_heading == heading)
            return;
        const bool other = m_pages->currentWidget() != page;
        m_heading = heading;
        m_pages->setCurrentWidget(page);
        m_guard->screenChanged();
        // Where a page has put the keyboard stays; else on the page itself, so that Enter does nothing by chance.
        if (other && !(page->focusWidget() && page->focusWidget()->isVisibleTo(page)))
            page->setFocus();
    };
    if (const auto* ask = std::get_if<AskView>(&view)) {
        m_ask->setState(*ask);
        show(m_ask, ask->heading);
    } else if (const auto* wait = std::get_if<WaitView>(&view)) {
        m_wait->setState(*wait);
        show(m_wait, wait->heading);
    } else if (const auto* check = std::get_if<CheckView>(&view)) {
        m_check->setState(*check);
        show(m_check, check->heading);
    } else if (const auto* choices = std::get_if<ChoicesView>(&view)) {
        m_choices->setState(*choices);
        show(m_choices, choices->heading);
    } else if (const auto* call = std::get_if<CallView>(&view)) {
        m_call->setState(*call);
        show(m_call, {});
    } else if (const auto* inClass = std::get_if<ClassView>(&view)) {
        m_class->setState(*inClass);
        show(m_class, {});
    } else if (const auto* board = std::get_if<BoardView>(&view)) {
        m_board->setState(*board);
        show(m_board, board->heading);
    } else if (const auto* answer = std::get_if<AnswerView>(&view)) {
        m_answer->setState(*answer);
        show(m_answer, answer->heading + answer->text);
    } else if (const auto* sending = std::get_if<pictures::SendView>(&view)) {
        m_sendPicture->setState(*sending);
        show(m_sendPicture, QString::number(static_cast<int>(sending->stage)));
    } else if (const auto* large = std::get_if<pictures::LargeView>(&view)) {
        m_largePicture->setState(*large);
        show(m_largePicture, large->name + large->caption);
    } else if (const auto* invitation = std::get_if<InvitationView>(&view)) {
        m_invitation->setState(*invitation);
        show(m_invitation, invitation->question);
    }
}

void JoinRoom::setHeard(bool heard)
{
    if (heard == m_heard->isHeard())
        return;
    m_heard->setHeard(heard);
    placeSign();
}

/// Over the pages, which make room for it; it takes a little of the margin that each has at its top.
void JoinRoom::placeSign()
{
    const bool shown = m_heard->isHeard();
    const int high = m_heard->sizeHint().height();
    layout()->setContentsMargins(0, shown ? high - look::Space::hair : 0, 0, 0);
    m_heard->setGeometry(0, 0, width(), high);
    m_heard->raise();
}

void JoinRoom::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    placeSign();
}

void JoinRoom::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        placeSign();
}

} // namespace vh::join
