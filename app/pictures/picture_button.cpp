#include "app/pictures/picture_button.h"

#include "app/look/look.h"

#include <QEvent>
#include <QKeyEvent>
#include <QPainter>

namespace vh::pictures
{

using look::Look;
using look::Space;

namespace
{

constexpr int kRing = Space::focusRing + 2;
constexpr int kPad = Space::small;

const Clock& machineClock()
{
    static const SystemClock clock;
    return clock;
}

} // namespace

PictureButton::PictureButton(Size size, QWidget* parent) : QPushButton(parent), m_size(size), m_clock(&machineClock())
{
    setFocusPolicy(size == Size::touch ? Qt::StrongFocus : Qt::TabFocus);
    setAutoDefault(false);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(this, &QPushButton::clicked, this, [this] {
        if (m_filter.accept(m_clock->now()))
            emit pressRequested();
    });
}

void PictureButton::setState(const State& state)
{
    m_state = state;
    const QString whose = state.name.isEmpty() ? tr("A picture") : tr("A picture from %1").arg(state.name);
    setAccessibleName(state.text.isEmpty() ? whose : QStringLiteral("%1: %2").arg(whose, state.text));
    setAccessibleDescription(tr("Shows it large"));
    update();
}

look::Type PictureButton::type() const
{
    return m_size == Size::touch ? look::Type::touch : look::Type::note;
}

QSize PictureButton::pictureRoom() const
{
    return m_size == Size::touch ? QSize(128, 96) : QSize(72, 54);
}

QSize PictureButton::sizeHint() const
{
    const QFontMetrics metrics(Look::current().font(type()));
    const int high = std::max(pictureRoom().height(), 2 * metrics.lineSpacing());
    return {pictureRoom().width() + (m_size == Size::touch ? 360 : 160) + 2 * (kPad + kRing),
            high + 2 * (kPad + kRing)};
}

QSize PictureButton::minimumSizeHint() const
{
    return {pictureRoom().width() + 120 + 2 * (kPad + kRing), sizeHint().height()};
}

void PictureButton::paintEvent(QPaintEvent*)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const QRectF body = QRectF(rect()).adjusted(kRing + 1, kRing + 1, -kRing - 1, -kRing - 1);
    painter.setPen(QPen(colours.deep2, isDown() ? 3 : 2));
    painter.setBrush(isDown() ? colours.quiet : colours.sheet);
    painter.drawRoundedRect(body, Space::corner, Space::corner);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colours.deep, Space::focusRing));
        const double half = Space::focusRing / 2.0;
        painter.drawRoundedRect(QRectF(rect()).adjusted(half, half, -half, -half), Space::corner + 4,
                                Space::corner + 4);
    }
    const QSizeF room = pictureRoom();
    const QRectF frame(body.left() + kPad, body.center().y() - room.height() / 2, room.width(), room.height());
    if (m_state.picture.isNull()) {
        painter.setPen(QPen(colours.dashes, 2, m_state.withheld ? Qt::DotLine : Qt::SolidLine));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(frame.adjusted(1, 1, -1, -1), Space::hair, Space::hair);
    } else {
        const QSizeF size = QSizeF(m_state.picture.size()).scaled(room, Qt::KeepAspectRatio);
        painter.drawImage(QRectF(frame.center() - QPointF(size.width() / 2, size.height() / 2), size), m_state.picture);
    }
    QRectF text(frame.right() + Space::gap, body.top() + kPad, body.right() - frame.right() - Space::gap - kPad,
                body.height() - 2 * kPad);
    const QFont bold = Look::current().font(type(), look::Weight::bold);
    const QFont plain = Look::current().font(type());
    const QFontMetricsF metrics(plain);
    const QString name = m_state.name.isEmpty() ? tr("A picture") : m_state.name;
    const double high = metrics.lineSpacing() * (m_state.text.isEmpty() ? 1 : 2);
    text.setTop(text.center().y() - high / 2);
    text.setHeight(metrics.lineSpacing());
    painter.setFont(bold);
    painter.setPen(colours.ink);
    painter.drawText(text, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF(bold).elidedText(name, Qt::ElideRight, text.width()));
    painter.setFont(plain);
    painter.setPen(colours.secondInk);
    painter.drawText(text.translated(0, metrics.lineSpacing()), Qt::AlignLeft | Qt::AlignVCenter,
                     metrics.elidedText(m_state.text.simplified(), Qt::ElideRight, text.width()));
}

void PictureButton::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        click();
        return event->accept();
    }
    QPushButton::keyPressEvent(event);
}

void PictureButton::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange)
        updateGeometry();
    QPushButton::changeEvent(event);
}

} // namespace vh::pictures
