#include "app/help/head_line.h"

#include "app/widgets/plain_label.h"

#include <QEvent>

namespace vh::help
{

using look::Type;

namespace
{
constexpr Type kSizes[] = {Type::body, Type::note, Type::fine}; // the first in which all of it fits
} // namespace

HeadLine::HeadLine(QWidget* parent)
    : QWidget(parent), m_calm(plainLabel(this, "second")), m_notice(new NoticeLine(this))
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_calm->setAlignment(Qt::AlignVCenter | Qt::AlignLeft);
    m_notice->setTight(true);
    m_notice->hide();
}

void HeadLine::setState(const QString& calm, const NoticeLine::State& notice)
{
    if (calm == m_calm->text() && notice == m_notice->state())
        return;
    m_calm->setText(calm);
    m_notice->setState(notice);
    m_notice->setVisible(!notice.words.isEmpty());
    m_calm->setVisible(notice.words.isEmpty());
    place();
}

void HeadLine::place()
{
    m_calm->setGeometry(rect());
    m_notice->setGeometry(rect().adjusted(0, 2, 0, -2));
    for (const Type type : kSizes) {
        m_notice->setType(type);
        if (NoticeLine::heightOf(m_notice->state().words, type, width(), true) <= m_notice->height())
            break;
    }
}

void HeadLine::resizeEvent(QResizeEvent* /*event*/)
{
    place();
}

void HeadLine::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        place();
}

} // namespace vh::help
