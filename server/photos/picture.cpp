#include "server/photos/picture.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace vh::photos
{

namespace
{
constexpr std::size_t kChannels = 3;

std::size_t bytesOf(int width, int height)
{
    return static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * kChannels;
}

std::uint8_t byteOf(double value)
{
    return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
}
} // namespace

Size within(Size size, int edge)
{
    const int longest = std::max(size.width, size.height);
    if (longest <= edge)
        return size;
    const double share = static_cast<double>(edge) / longest;
    return {std::max(1, static_cast<int>(std::lround(size.width * share))),
            std::max(1, static_cast<int>(std::lround(size.height * share)))};
}

RowScaler::RowScaler(Size from, Size to)
    : m_from(from), m_to(to), m_row(static_cast<std::size_t>(to.width) * kChannels), m_sum(m_row.size())
{
    assert(to.width > 0 && to.height > 0 && to.width <= from.width && to.height <= from.height);
    m_picture = {to.width, to.height, std::vector<std::uint8_t>(bytesOf(to.width, to.height), 255)};
}

/// Each source pixel spreads over the target pixels that it touches.
void RowScaler::shrinkRow(std::span<const std::uint8_t> row)
{
    if (m_from.width == m_to.width) {
        std::copy(row.begin(), row.end(), m_row.begin());
        return;
    }
    const double step = static_cast<double>(m_to.width) / m_from.width;
    std::fill(m_row.begin(), m_row.end(), 0.0);
    for (int x = 0; x < m_from.width; ++x) {
        const double begin = x * step;
        const double end = (x + 1) * step;
        const int first = std::min(static_cast<int>(begin), m_to.width - 1);
        const double border = std::min(static_cast<double>(first + 1), end);
        const double before = border - begin;
        const double after = end - border;
        for (std::size_t c = 0; c < kChannels; ++c) {
            const double value = row[static_cast<std::size_t>(x) * kChannels + c];
            m_row[static_cast<std::size_t>(first) * kChannels + c] += before * value;
            if (after > 0 && first + 1 < m_to.width)
                m_row[static_cast<std::size_t>(first + 1) * kChannels + c] += after * value;
        }
    }
}

void RowScaler::finishRow()
{
    const auto at = static_cast<std::ptrdiff_t>(bytesOf(m_to.width, m_made));
    std::transform(m_sum.begin(), m_sum.end(), m_picture.rgb.begin() + at, byteOf);
    std::fill(m_sum.begin(), m_sum.end(), 0.0);
    ++m_made;
}

void RowScaler::push(std::span<const std::uint8_t> row)
{
    if (m_read >= m_from.height)
        return;
    assert(row.size() == bytesOf(m_from.width, 1));
    shrinkRow(row);
    const double step = static_cast<double>(m_to.height) / m_from.height;
    const double begin = m_read * step;
    const double end = ++m_read == m_from.height ? m_to.height : m_read * step;
    const double border = std::min(static_cast<double>(m_made + 1), end);
    const auto add = [this](double share) {
        for (std::size_t i = 0; i < m_row.size(); ++i)
            m_sum[i] += share * m_row[i];
    };
    add(border - begin);
    if (end < m_made + 1)
        return;
    finishRow();
    if (m_made < m_to.height)
        add(end - border);
}

Picture RowScaler::take()
{
    return std::move(m_picture);
}

Picture cut(const Picture& picture, const Cut& part)
{
    const auto pixel = [](double share, int size) {
        return static_cast<int>(std::lround(std::clamp(share, 0.0, 1.0) * size));
    };
    const int left = std::min(pixel(part.left, picture.width), picture.width - 1);
    const int top = std::min(pixel(part.top, picture.height), picture.height - 1);
    const int width = std::max(1, pixel(part.right, picture.width) - left);
    const int height = std::max(1, pixel(part.bottom, picture.height) - top);
    Picture out{width, height, {}};
    out.rgb.reserve(bytesOf(width, height));
    for (int y = top; y < top + height; ++y) {
        const auto from =
            picture.rgb.begin() + static_cast<std::ptrdiff_t>(bytesOf(picture.width, y) + bytesOf(left, 1));
        out.rgb.insert(out.rgb.end(), from, from + static_cast<std::ptrdiff_t>(bytesOf(width, 1)));
    }
    return out;
}

Picture turned(const Picture& picture, int quarters)
{
    const int turns = ((quarters % 4) + 4) % 4;
    if (turns == 0)
        return picture;
    const bool upright = turns == 2;
    Picture out{upright ? picture.width : picture.height, upright ? picture.height : picture.width, {}};
    out.rgb.resize(picture.rgb.size());
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            const int toX = turns == 1 ? picture.height - 1 - y : turns == 2 ? picture.width - 1 - x : y;
            const int toY = turns == 1 ? x : turns == 2 ? picture.height - 1 - y : picture.width - 1 - x;
            const std::size_t from = bytesOf(picture.width, y) + bytesOf(x, 1);
            const std::size_t to = bytesOf(out.width, toY) + bytesOf(toX, 1);
            std::copy_n(picture.rgb.begin() + static_cast<std::ptrdiff_t>(from), kChannels,
                        out.rgb.begin() + static_cast<std::ptrdiff_t>(to));
        }
    return out;
}

} // namespace vh::photos
