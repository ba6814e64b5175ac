#include "app/lead/lead_room.h"

#include "app/lead/choose_page.h"
#include "app/lead/class_page.h"
#include "app/lead/over_page.h"
#include "app/lead/ready_page.h"
#include "app/lead/sound_check_page.h"

#include <QShortcut>
#include <QStackedLayout>

namespace vh::lead
{

LeadRoom::LeadRoom(QWidget* parent)
    : QWidget(parent), m_pages(new QStackedLayout(this)), m_choose(new ChoosePage(this)), m_ready(new ReadyPage(this)),
      m_class(new ClassPage(this)), m_over(new OverPage(this)), m_check(new SoundCheckPage(this)),
      m_callScreen(new CallScreen(this))
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    for (QWidget* page :
         {static_cast<QWidget*>(m_ready), static_cast<QWidget*>(m_choose), static_cast<QWidget*>(m_class),
          static_cast<QWidget*>(m_over), static_cast<QWidget*>(m_check)})
        m_pages->addWidget(page);

    connect(m_choose, &ChoosePage::fileRequested, this, &LeadRoom::fileRequested);
    connect(m_choose, &ChoosePage::otherFileRequested, this, &LeadRoom::otherFileRequested);
    connect(m_choose, &ChoosePage::openClassRequested, this, &LeadRoom::openClassRequested);
    connect(m_choose, &ChoosePage::leaveRequested, this, &LeadRoom::leaveRequested);

    connect(m_ready, &ReadyPage::startRequested, this, [this] { emit commandRequested(CommandKind::start); });
    connect(m_choose, &ChoosePage::papersRequested, this, &LeadRoom::papersRequested);
    connect(m_ready, &ReadyPage::papersRequested, this, &LeadRoom::papersRequested);
    connect(m_ready, &ReadyPage::takePlaceRequested, this, &LeadRoom::takePlaceRequested);
    connect(m_ready, &ReadyPage::deskRequested, this, &LeadRoom::deskRequested);
    connect(m_ready, &ReadyPage::inviteRequested, this, &LeadRoom::inviteRequested);
    connect(m_ready, &ReadyPage::copyRequested, this, &LeadRoom::copyRequested);
    connect(m_ready, &ReadyPage::letInRequested, this, &LeadRoom::letInRequested);
    connect(m_ready, &ReadyPage::turnAwayRequested, this, &LeadRoom::turnAwayRequested);
    connect(m_ready, &ReadyPage::groupWindowRequested, this, &LeadRoom::groupWindowRequested);
    connect(m_ready, &ReadyPage::leaveRequested, this, &LeadRoom::leaveRequested);
    connect(m_ready, &ReadyPage::groupWindowFillRequested, this, &LeadRoom::groupWindowFillRequested);
    connect(m_ready, &ReadyPage::groupWindowMoveRequested, this, &LeadRoom::groupWindowMoveRequested);
    connect(m_ready, &ReadyPage::soundCheckRequested, this, &LeadRoom::soundCheckRequested);
    connect(m_ready, &ReadyPage::muteRequested, this, &LeadRoom::muteRequested);
    connect(m_check, &SoundCheckPage::wayRequested, this, &LeadRoom::wayRequested);
    connect(m_check, &SoundCheckPage::recordingFileRequested, this, &LeadRoom::recordingFileRequested);
    connect(m_check, &SoundCheckPage::recordingDropRequested, this, &LeadRoom::recordingDropRequested);
    connect(m_check, &SoundCheckPage::againRequested, this, &LeadRoom::soundCheckRequested);
    connect(m_check, &SoundCheckPage::closeRequested, this, &LeadRoom::soundCheckCloseRequested);

    connect(m_class, &ClassPage::commandRequested, this, &LeadRoom::commandRequested);
    connect(m_class, &ClassPage::endRequested, this, &LeadRoom::endRequested);
    connect(m_class, &ClassPage::changeRequested, this, &LeadRoom::changeRequested);
    connect(m_class, &ClassPage::deskRequested, this, &LeadRoom::deskRequested);
    connect(m_class, &ClassPage::pictureShowRequested, this, &LeadRoom::pictureShowRequested);
    connect(m_class, &ClassPage::pictureDoneRequested, this, &LeadRoom::pictureDoneRequested);
    connect(m_class, &ClassPage::takePlaceRequested, this, &LeadRoom::takePlaceRequested);
    connect(m_class, &ClassPage::seatRequested, this, &LeadRoom::seatRequested);
    connect(m_class, &ClassPage::seatCloseRequested, this, &LeadRoom::seatCloseRequested);
    connect(m_class, &ClassPage::tableRequested, this, &LeadRoom::tableRequested);
    connect(m_class, &ClassPage::coverRequested, this, &LeadRoom::coverRequested);
    connect(m_class, &ClassPage::worthWordRequested, this, &LeadRoom::worthWordRequested);
    connect(m_class, &ClassPage::ownWordRequested, this, &LeadRoom::ownWordRequested);
    connect(m_class, &ClassPage::bandRequested, this, &LeadRoom::bandRequested);
    connect(m_class, &ClassPage::inviteRequested, this, &LeadRoom::inviteToSpeakRequested);
    connect(m_class, &ClassPage::guestEndRequested, this, &LeadRoom::guestEndRequested);
    connect(m_class, &ClassPage::muteRequested, this, &LeadRoom::muteRequested);
    connect(m_class, &ClassPage::bellRequested, this, &LeadRoom::bellRequested);
    connect(m_class, &ClassPage::recordingRequested, this, &LeadRoom::recordingRequested);
    connect(m_class, &ClassPage::letInRequested, this, &LeadRoom::letInRequested);
    connect(m_class, &ClassPage::turnAwayRequested, this, &LeadRoom::turnAwayRequested);
    connect(m_class, &ClassPage::groupWindowRequested, this, &LeadRoom::groupWindowRequested);
    connect(m_class, &ClassPage::leaveRequested, this, &LeadRoom::leaveRequested);

    connect(m_over, &OverPage::deskRequested, this, &LeadRoom::deskRequested);
    connect(m_over, &OverPage::anotherClassRequested, this, &LeadRoom::anotherClassRequested);
    connect(m_over, &OverPage::leaveRequested, this, &LeadRoom::leaveRequested);

    bindCalls();
    makeShortcuts();
}

void LeadRoom::bindCalls()
{
    const auto bind = [this](auto* page) {
        using Page = std::remove_pointer_t<decltype(page)>;
        connect(page, &Page::callTakeRequested, this, &LeadRoom::callTakeRequested);
        connect(page, &Page::callDoneRequested, this, &LeadRoom::callDoneRequested);
    };
    bind(m_ready);
    bind(m_class);
    bind(m_over);
    connect(m_class, &ClassPage::lookRequested, this, &LeadRoom::lookRequested);
    connect(m_class, &ClassPage::lineDoneRequested, this, &LeadRoom::lineDoneRequested);
    connect(m_ready, &ReadyPage::whomToRingRequested, this, &LeadRoom::whomToRingRequested);
    connect(m_callScreen, &CallScreen::takeRequested, this, &LeadRoom::callTakeRequested);
    connect(m_callScreen, &CallScreen::asideRequested, this, &LeadRoom::callAsideRequested);
}

void LeadRoom::makeShortcuts()
{
    const auto key = [this](const QKeySequence& keys, auto request) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setAutoRepeat(false);
        connect(shortcut, &QShortcut::activated, this, [this, request] {
            if (m_pages->currentWidget() == m_class || m_pages->currentWidget() == m_ready)
                emit(this->*request)();
        });
    };
    key(Qt::Key_F, &LeadRoom::groupWindowRequested);
    key(Qt::Key_M, &LeadRoom::muteRequested);
    key(Qt::Key_B, &LeadRoom::bellRequested);
    key(Qt::Key_R, &LeadRoom::recordingRequested);
    key(Qt::SHIFT | Qt::Key_F, &LeadRoom::groupWindowFillRequested);
    key(Qt::SHIFT | Qt::Key_D, &LeadRoom::groupWindowMoveRequested);
}

void LeadRoom::setState(const LeadView& view)
{
    m_callScreen->setState(view.filled);
    // Before it is shown, so that a page never appears with what it held last.
    if (view.soundCheck && view.stage != Stage::inClass && view.stage != Stage::over) {
        m_check->setState(*view.soundCheck);
        m_check->setVoice(view.voice);
        return m_pages->setCurrentWidget(m_check);
    }
    switch (view.stage) {
    case Stage::choosing:
        m_choose->setState(view);
        return m_pages->setCurrentWidget(m_choose);
    case Stage::waiting:
    case Stage::ready:
        m_ready->setState(view);
        return m_pages->setCurrentWidget(m_ready);
    case Stage::inClass:
        m_class->setState(view);
        return m_pages->setCurrentWidget(m_class);
    case Stage::over:
        m_over->setState(view);
        return m_pages->setCurrentWidget(m_over);
    }
}

} // namespace vh::lead
