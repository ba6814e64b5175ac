#include "app/widgets/hall_ornament.h"

#include "app/look/look.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

constexpr double kSeatWide = 22;
constexpr double kSeatHigh = 36;
constexpr double kAcross = 56; // from seat to seat
constexpr double kRow = 58;    // from arc to arc
constexpr double kBow = 44;    // how much an arc rises from its middle to its ends
constexpr int kMostRows = 3;

} // namespace

HallOrnament::HallOrnament(QWidget* parent) : QWidget(parent)
{
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Ignored);
}

/// As many arcs as there is room for, each seat's column as high as a sine has it.
void HallOrnament::paintEvent(QPaintEvent* /*event*/)
{
    const QRectF where(rect());
    const int rows = std::min(static_cast<int>((where.height() - kBow) / kRow), kMostRows);
    const int half = static_cast<int>((where.width() / 2 - kSeatWide) / kAcross);
    const look::Palette& colours = look::Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int row = 0; row < rows; ++row) {
        const double middle = where.bottom() - kSeatHigh - 2 - (rows - 1 - row) * kRow;
        for (int i = -half; i <= half - row % 2; ++i) {
            const double step = i + (row % 2) / 2.0; // every second arc stands between the seats of the others
            const double share = step / std::max(half, 1);
            const QRectF seat(where.center().x() + step * kAcross - kSeatWide / 2, middle - kBow * share * share,
                              kSeatWide, kSeatHigh);
            painter.setPen(QPen(colours.line, 1.5));
            painter.setBrush(colours.sheet);
            painter.drawRoundedRect(seat, 5, 5);
            const double high = kSeatHigh * (0.42 + 0.2 * std::sin(1.7 * i + 2.3 * row));
            painter.setPen(Qt::NoPen);
            painter.setBrush(colours.line);
            painter.drawRoundedRect(QRectF(seat.left() + 5, seat.bottom() - 4 - high, kSeatWide - 10, high), 2, 2);
        }
    }
}

} // namespace vh
