#include "app/lead/group_window.h"

#include "app/look/look.h"

#include <QCloseEvent>
#include <QGuiApplication>
#include <QScreen>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace vh::lead
{

GroupWindow::GroupWindow(QWidget* parent) : QWidget(parent, Qt::Window | Qt::WindowDoesNotAcceptFocus)
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    setAttribute(Qt::WA_ShowWithoutActivating);
    setAttribute(Qt::WA_QuitOnClose, false);
    auto* box = new QVBoxLayout(this);
    box->setContentsMargins(look::Space::wide, look::Space::wide, look::Space::wide, look::Space::wide);
    auto* pages = new QWidget(this);
    m_pages = new QStackedLayout(pages);
    m_sheet = new ClassSheet(pages);
    m_picture = new pictures::ShownView(pages);
    m_pages->addWidget(m_sheet);
    m_pages->addWidget(m_picture);
    box->addWidget(pages);
    resize(1024, 576);
}

void GroupWindow::setState(const ClassSheet::State& state, const QString& title, const pictures::ShownPicture& shown)
{
    setWindowTitle(title.isEmpty() ? tr("For the group") : tr("For the group: %1").arg(title));
    if (shown.isShown())
        m_picture->setState(shown);
    m_pages->setCurrentWidget(shown.isShown() ? static_cast<QWidget*>(m_picture) : m_sheet);
    const bool same = m_told && state.cue == m_shown.cue && state.text.text == m_shown.text.text &&
                      state.text.stretches == m_shown.text.stretches &&
                      state.picture.cacheKey() == m_shown.picture.cacheKey();
    if (same)
        return; // fitting is not cheap, and this is told ten times a second
    m_told = true;
    m_shown = state;
    m_sheet->setState(state);
}

bool GroupWindow::otherDisplays()
{
    return QGuiApplication::screens().size() > 1;
}

void GroupWindow::appear(const QWidget& leaders)
{
    const auto displays = QGuiApplication::screens();
    const auto own = displays.indexOf(leaders.screen());
    const auto other = displayAfter(static_cast<int>(own), static_cast<int>(displays.size()));
    if (own >= 0 && other != own && screen() == leaders.screen()) {
        moveTo(*displays[other]);
        showFullScreen();
    } else {
        show();
    }
}

void GroupWindow::setFills(bool fills)
{
    if (fills != isFullScreen())
        fills ? showFullScreen() : showNormal();
}

void GroupWindow::toNextDisplay()
{
    const auto displays = QGuiApplication::screens();
    const int now = static_cast<int>(displays.indexOf(screen()));
    const int next = displayAfter(now, static_cast<int>(displays.size()));
    if (now < 0 || next == now)
        return;
    const bool filled = isFullScreen();
    showNormal();
    moveTo(*displays[next]);
    setFills(filled);
}

void GroupWindow::moveTo(const QScreen& display)
{
    const QRect room = display.availableGeometry();
    resize(size().boundedTo(room.size()));
    move(room.center() - rect().center());
}

void GroupWindow::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::ActivationChange && isActiveWindow())
        emit keyboardUnwanted();
}

void GroupWindow::closeEvent(QCloseEvent* event)
{
    event->ignore(); // whoever owns it decides
    emit hideRequested();
}

} // namespace vh::lead
