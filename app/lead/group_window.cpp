#include "app/lead/group_window.h"

#include "app/look/look.h"

#include <QCloseEvent>
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
    m_sheet = new ClassSheet(this);
    box->addWidget(m_sheet);
    resize(1024, 576);
}

void GroupWindow::setState(const ClassSheet::State& state, const QString& title)
{
    setWindowTitle(title.isEmpty() ? tr("For the group") : tr("For the group: %1").arg(title));
    const bool same = m_told && state.cue == m_shown.cue && state.text.text == m_shown.text.text &&
                      state.text.stretches == m_shown.text.stretches &&
                      state.picture.cacheKey() == m_shown.picture.cacheKey();
    if (same)
        return; // fitting is not cheap, and this is told ten times a second
    m_told = true;
    m_shown = state;
    m_sheet->setState(state);
}

void GroupWindow::closeEvent(QCloseEvent* event)
{
    event->ignore(); // whoever owns it decides
    emit hideRequested();
}

} // namespace vh::lead
