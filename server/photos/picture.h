#pragma once
// A picture as plain pixels, and what is done to them: made smaller while it is being read, cut, turned. Eight bits a
// channel, red green blue, rows from the top without gaps. Pure; any thread.
#include <cstdint>
#include <span>
#include <vector>

namespace vh::photos
{

struct Picture {
    int width = 0;  ///< px, > 0
    int height = 0; ///< px, > 0
    std::vector<std::uint8_t> rgb;
};

/// What part of a picture to keep, as shares of its width and height: 0..1, left < right, top < bottom.
struct Cut {
    double left = 0;
    double top = 0;
    double right = 1;
    double bottom = 1;
    friend bool operator==(const Cut&, const Cut&) = default;
};

/// The largest size of this shape with no edge over `edge`; never larger than it is.
struct Size {
    int width = 0;
    int height = 0;
    friend bool operator==(const Size&, const Size&) = default;
};
Size within(Size size, int edge);

/// Takes a picture row by row and gives it at a smaller size: each pixel is the mean of the area it covers, so that
/// memory grows with the small picture only. `to` no larger than `from`.
class RowScaler
{
public:
    RowScaler(Size from, Size to);
    /// The next row, from.width * 3 bytes; rows beyond the last are ignored.
    void push(std::span<const std::uint8_t> row);
    /// Rows that never came stay white.
    Picture take();

private:
    void shrinkRow(std::span<const std::uint8_t> row);
    void finishRow();

    Size m_from;
    Size m_to;
    Picture m_picture;
    std::vector<double> m_row; ///< the source row at the target's width
    std::vector<double> m_sum; ///< of the target row in hand
    int m_read = 0;
    int m_made = 0;
};

/// At least one pixel is left each way.
Picture cut(const Picture& picture, const Cut& part);
/// Clockwise, by `quarters` of a full turn; any whole number.
Picture turned(const Picture& picture, int quarters);

} // namespace vh::photos
