#include "app/look/sign.h"

#include <QColor>
#include <QFile>
#include <QHash>
#include <QPainter>
#include <QSvgRenderer>

#include <memory>

// Outside any namespace, as the macro asks: the resource sits in a static library.
static void initSignResource()
{
    Q_INIT_RESOURCE(look_signs);
}

namespace vh::look
{

namespace
{

const char* nameOf(Sign sign)
{
    switch (sign) {
    case Sign::help:
        return "help";
    case Sign::hello:
        return "hello";
    case Sign::write:
        return "write";
    case Sign::choices:
        return "choices";
    case Sign::seen:
        return "seen";
    case Sign::unseen:
        return "unseen";
    case Sign::leave:
        return "leave";
    case Sign::tick:
        return "tick";
    case Sign::undo:
        return "undo";
    case Sign::carried:
        return "carried";
    case Sign::heard:
        return "heard";
    case Sign::unheard:
        return "unheard";
    case Sign::paper:
        return "paper";
    }
    return "";
}

/// Read once for each sign and colour. The files are drawn in black, which stands for the colour wanted.
QSvgRenderer& rendererOf(Sign sign, const QColor& colour)
{
    static QHash<std::pair<int, QRgb>, std::shared_ptr<QSvgRenderer>> made;
    auto& found = made[{static_cast<int>(sign), colour.rgb()}];
    if (!found) {
        initSignResource();
        QFile file(QStringLiteral(":/look/%1.svg").arg(QLatin1String(nameOf(sign))));
        const QByteArray drawn = file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
        found = std::make_shared<QSvgRenderer>(QByteArray(drawn).replace("#000000", colour.name().toLatin1()));
    }
    return *found;
}

} // namespace

void paintSign(QPainter& painter, Sign sign, const QRectF& where, const QColor& colour)
{
    const double side = std::min(where.width(), where.height());
    rendererOf(sign, colour).render(&painter, QRectF(where.center() - QPointF(side / 2, side / 2), QSizeF(side, side)));
}

} // namespace vh::look
