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
}

void WriteRoom::add(QWidget* page)
{
    m_pages->addWidget(page);
}

void WriteRoom::show(QWidget* page)
{
    m_pages->setCurrentWidget(page);
}

/// Not by a focus proxy: the Tab key would go from the last press to the proxy, past all that stands before it.
void WriteRoom::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    if (shown() == m_library)
        m_library->begin();
    else if (shown() == m_days)
        m_days->begin();
    else
        focusNextChild();
}

QWidget* WriteRoom::shown() const
{
    return m_pages->currentWidget();
}

} // namespace vh::write
