#include "app/pictures/picture_box.h"

#include "app/look/look.h"

#include <QPainter>

#include <algorithm>

namespace vh::pictures
{

namespace
{
constexpr double kMostTimesLarger = 2;
}

QRectF placeFor(QSize picture, const QRectF& room)
{
    const QSizeF most = (QSizeF(picture) * kMostTimesLarger).boundedTo(room.size());
    QSizeF size = QSizeF(picture).scaled(most, Qt::KeepAspectRatio);
    return {room.center() - QPointF(size.width() / 2, size.height() / 2), size};
}

PictureBox::PictureBox(QWidget* parent, look::Type type) : SpokenWidget(QAccessible::Graphic, parent), m_type(type)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void PictureBox::setState(const State& state)
{
    const bool same = state.picture.cacheKey() == m_state.picture.cacheKey() &&
                      state.description == m_state.description && state.words == m_state.words;
    if (same)
        return;
    m_state = state;
    say(state.picture.isNull() && !state.words.isEmpty() ? state.words : state.description);
    update();
}

void PictureBox::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    if (m_state.picture.isNull()) {
        painter.setFont(look::Look::current().font(m_type));
        painter.setPen(look::Look::current().palette().secondInk);
        painter.drawText(rect(), Qt::AlignCenter | Qt::TextWordWrap, m_state.words);
        return;
    }
    const QRect place = placeFor(m_state.picture.size(), QRectF(rect())).toAlignedRect().intersected(rect());
    const QSize sharp = place.size() * devicePixelRatioF();
    if (m_scaled.size() != sharp || m_scaledOf != m_state.picture.cacheKey()) {
        m_scaled = QPixmap::fromImage(m_state.picture.scaled(sharp, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
        m_scaledOf = m_state.picture.cacheKey();
    }
    painter.drawPixmap(place, m_scaled);
}

} // namespace vh::pictures
