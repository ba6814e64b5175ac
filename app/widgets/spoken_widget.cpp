#include "app/widgets/spoken_widget.h"

#include <QAccessibleWidget>
#include <QEvent>

namespace vh
{

namespace
{

QAccessibleInterface* makeInterface(const QString& /*className*/, QObject* object)
{
    auto* widget = qobject_cast<SpokenWidget*>(object);
    return widget ? new QAccessibleWidget(widget, widget->role()) : nullptr; // Qt's cache owns it
}

} // namespace

SpokenWidget::SpokenWidget(QAccessible::Role role, QWidget* parent) : QWidget(parent), m_role(role)
{
    static const bool installed = [] {
        QAccessible::installFactory(makeInterface);
        return true;
    }();
    Q_UNUSED(installed);
}

void SpokenWidget::say(const QString& sentence)
{
    if (sentence != accessibleName())
        setAccessibleName(sentence);
}

void SpokenWidget::alert(const QString& sentence)
{
    if (sentence == accessibleName())
        return;
    setAccessibleName(sentence);
    QAccessibleEvent event(this, QAccessible::Alert);
    QAccessible::updateAccessibility(&event);
    emit announced(sentence);
}

void SpokenWidget::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange) {
        updateGeometry();
        update();
    }
    QWidget::changeEvent(event);
}

} // namespace vh
