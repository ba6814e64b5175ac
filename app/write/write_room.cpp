#include "app/write/write_room.h"

#include <QStackedLayout>

namespace vh::write
{

WriteRoom::WriteRoom(QWidget* parent)
    : QWidget(parent), m_pages(new QStackedLayout(this)), m_library(new LibraryPage(this)), m_days(new DaysPage(this))
{
    setObjectName("room"); // the look's paper
    setAttribute(Qt::WA_StyledBackground);
    m_pages->addWidget(m_library);
    m_pages->addWidget(m_days);
    setFocusProxy(m_library);
}

void WriteRoom::add(QWidget* page)
{
    m_pages->addWidget(page);
}

void WriteRoom::show(QWidget* page)
{
    m_pages->setCurrentWidget(page);
    setFocusProxy(page);
}

QWidget* WriteRoom::shown() const
{
    return m_pages->currentWidget();
}

} // namespace vh::write
