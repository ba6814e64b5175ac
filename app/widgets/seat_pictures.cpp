#include "app/widgets/seat_pictures.h"

#include "app/look/look.h"

#include <QPainter>

#include <algorithm>
#include <cmath>
#include <cstring>

namespace vh
{

namespace
{

/// Bounded: shapes x levels x bands that leaders really set come to a few hundred.
constexpr std::size_t kMostKept = 4096;

std::uint64_t tenths(float decibels)
{
    return static_cast<std::uint16_t>(static_cast<std::int16_t>(std::lround(std::clamp(decibels, -99.0F, 99.0F) * 10)));
}

float ofTenths(std::uint64_t bits)
{
    return static_cast<float>(static_cast<std::int16_t>(bits & 0xffff)) / 10;
}

constexpr std::uint64_t kNoLevel = 0xff;

} // namespace

SeatPictures::Key SeatPictures::keyOf(Standing standing, std::optional<float> overUsualDb, const Band& band)
{
    std::uint64_t level = kNoLevel;
    if (hasColumn(standing) && overUsualDb && std::isfinite(*overUsualDb)) {
        const LevelSpan span = spanOf(band);
        level = static_cast<std::uint64_t>(
            std::lround((std::clamp(*overUsualDb, span.lowest, span.highest) - span.lowest) * 2));
    }
    return static_cast<std::uint64_t>(standing) | level << 8 | tenths(band.easyFromDb) << 16 |
           tenths(band.plentyToDb) << 32;
}

void SeatPictures::become(QSize size, double pixelRatio)
{
    m_size = size;
    m_pixelRatio = pixelRatio;
    m_kept.clear();
}

const QImage& SeatPictures::of(Key key)
{
    if (const auto found = m_kept.find(key); found != m_kept.end())
        return found->second;
    if (m_kept.size() >= kMostKept)
        m_kept.clear();
    Band band;
    band.easyFromDb = ofTenths(key >> 16);
    band.plentyToDb = ofTenths(key >> 32);
    const std::uint64_t level = key >> 8 & 0xff;
    std::optional<float> over;
    if (level != kNoLevel)
        over = spanOf(band).lowest + static_cast<float>(level) / 2;
    QImage image((QSizeF(m_size) * m_pixelRatio).toSize(), QImage::Format_RGB32);
    image.setDevicePixelRatio(m_pixelRatio);
    image.fill(look::Look::current().palette().paper);
    QPainter painter(&image);
    paintColumn(painter, QRectF(QPointF(), QSizeF(m_size)), static_cast<Standing>(key & 0xff), over, band);
    painter.end();
    return m_kept.emplace(key, std::move(image)).first->second;
}

void copyInto(QImage& to, QPoint at, const QImage& from)
{
    const QRect fits = QRect(at, from.size()) & QRect(QPoint(), to.size());
    if (fits.isEmpty() || to.depth() != 32 || from.depth() != 32)
        return;
    const auto bytes = static_cast<std::size_t>(fits.width()) * 4;
    for (int y = fits.top(); y <= fits.bottom(); ++y)
        std::memcpy(to.scanLine(y) + fits.left() * 4, from.constScanLine(y - at.y()) + (fits.left() - at.x()) * 4,
                    bytes);
}

} // namespace vh
