#pragma once
// The voice columns of many seats, each drawn once and kept: a column of one size looks the same for every seat with
// the same standing, band and level (to half a decibel, less than a pixel row of most columns). On the window's ground.
// Owned by one view. GUI thread.
#include "app/widgets/standing_view.h"

#include <QImage>

#include <cstdint>
#include <unordered_map>

namespace vh
{

class SeatPictures
{
public:
    /// Which picture a seat shows; the same key, the same picture.
    using Key = std::uint64_t;
    static Key keyOf(Standing standing, std::optional<float> overUsualDb, const Band& band);

    /// Forgets everything drawn for another size or look.
    void become(QSize size, double pixelRatio);
    [[nodiscard]] const QImage& of(Key key);
    [[nodiscard]] std::size_t kept() const { return m_kept.size(); }

private:
    QSize m_size;
    double m_pixelRatio = 1;
    std::unordered_map<Key, QImage> m_kept;
};

/// Copies a picture into another one of the same format, at device pixels; what lies outside is left out.
void copyInto(QImage& to, QPoint at, const QImage& from);

} // namespace vh
