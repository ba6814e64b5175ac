#include "app/widgets/hall_layout.h"

#include <algorithm>
#include <array>

namespace vh
{

namespace
{

constexpr QSize kLargestPlace(104, 116); ///< a small group does not get towers
constexpr QSize kPlainPlace(22, 30);     ///< zoomed in once
constexpr double kTall = 1.3;            ///< of a place in a block, over its width

constexpr int upTo(int count, int step)
{
    return (count + step - 1) / step;
}

/// The steps by which a hall grows.
int roomFor(int places)
{
    static constexpr std::array steps{100, 200, 400, 600, 800, 1000, 1500, 2000, 3000, 4000, 6000};
    for (const int step : steps)
        if (places <= step)
            return step;
    return places;
}

} // namespace

HallLayout::HallLayout(int places, QSize room, int nameHeight, int zoom) : m_places(std::max(places, 0))
{
    if (m_places == 0 || room.isEmpty())
        return;
    if (inBlocks())
        takeBlocks(room, nameHeight, std::clamp(zoom, 0, kZooms - 1));
    else
        takeRows(room, nameHeight);
    takeColumn(nameHeight);
}

void HallLayout::takeRows(QSize room, int nameHeight)
{
    m_blockColumns = m_places <= 12 ? 6 : m_places <= 32 ? 8 : 10;
    m_blockRows = upTo(m_places, m_blockColumns);
    m_place = QSize(room.width() / m_blockColumns, room.height() / m_blockRows)
                  .boundedTo(kLargestPlace + QSize(0, nameHeight));
    m_content = QSize(m_place.width() * m_blockColumns, m_place.height() * m_blockRows);
}

void HallLayout::takeBlocks(QSize room, int nameHeight, int zoom)
{
    m_blockColumns = kBlockColumns;
    m_blockRows = kBlockRows;
    m_named = zoom == kZooms - 1;
    const int perBlock = kBlockColumns * kBlockRows;
    const int blocks = upTo(roomFor(m_places), perBlock);
    double best = 0;
    for (int across = 1; across <= blocks; ++across) {
        const int down = upTo(blocks, across);
        const int aisle = std::max(4, room.width() / 100);
        const int wide = (room.width() - (across - 1) * aisle) / (across * kBlockColumns);
        const int tall = (room.height() - (down - 1) * aisle) / (down * kBlockRows);
        const double size = std::min(static_cast<double>(wide), tall / kTall);
        if (size <= best)
            continue;
        best = size;
        m_blocksAcross = across;
        m_aisle = aisle;
        m_place = QSize(wide, tall).boundedTo(QSize(wide, std::max(static_cast<int>(wide * 1.6), 1)));
    }
    m_place = m_place.expandedTo(QSize(3, 4));
    if (zoom == 1)
        m_place = m_place.expandedTo(kPlainPlace);
    if (m_named) {
        m_place = QSize(nameHeight * 3, nameHeight * 3);
        m_aisle = nameHeight;
    }
    const int down = upTo(upTo(m_places, perBlock), m_blocksAcross);
    m_content = QSize(m_blocksAcross * kBlockColumns * m_place.width() + (m_blocksAcross - 1) * m_aisle,
                      down * kBlockRows * m_place.height() + (down - 1) * m_aisle);
}

void HallLayout::takeColumn(int nameHeight)
{
    if (!m_named) {
        const int side = m_place.width() / 8;
        m_column = QRect(QPoint(0, 0), m_place).adjusted(side, 0, -std::max(side, m_place.width() > 5 ? 1 : 0), -1);
        return;
    }
    const int tall = std::max(m_place.height() - nameHeight - 6, 8);
    const int wide = std::clamp(tall * 11 / 20, 12, std::max(m_place.width() - 12, 12));
    m_column = QRect((m_place.width() - wide) / 2, 2, wide, tall);
}

QRect HallLayout::rectOf(int place) const
{
    const QPoint grid = gridOf(place);
    return {QPoint(grid.x() * m_place.width() + grid.x() / m_blockColumns * m_aisle,
                   grid.y() * m_place.height() + grid.y() / m_blockRows * m_aisle),
            m_place};
}

QPoint HallLayout::gridOf(int place) const
{
    const int perBlock = m_blockColumns * m_blockRows;
    const int block = place / perBlock;
    const int within = place % perBlock;
    return {block % m_blocksAcross * m_blockColumns + within % m_blockColumns,
            block / m_blocksAcross * m_blockRows + within / m_blockColumns};
}

int HallLayout::placeAtGrid(QPoint grid) const
{
    if (grid.x() < 0 || grid.y() < 0 || grid.x() >= m_blocksAcross * m_blockColumns)
        return -1;
    const int block = grid.y() / m_blockRows * m_blocksAcross + grid.x() / m_blockColumns;
    const int place =
        block * m_blockColumns * m_blockRows + grid.y() % m_blockRows * m_blockColumns + grid.x() % m_blockColumns;
    return place < m_places ? place : -1;
}

QSize HallLayout::grid() const
{
    const int blocks = upTo(m_places, m_blockColumns * m_blockRows);
    return {m_blocksAcross * m_blockColumns, upTo(blocks, m_blocksAcross) * m_blockRows};
}

int HallLayout::placeAt(QPoint at) const
{
    if (m_place.isEmpty() || at.x() < 0 || at.y() < 0)
        return -1;
    const int blockWide = m_blockColumns * m_place.width() + m_aisle;
    const int blockTall = m_blockRows * m_place.height() + m_aisle;
    const QPoint in(at.x() % blockWide / m_place.width(), at.y() % blockTall / m_place.height());
    if (in.x() >= m_blockColumns || in.y() >= m_blockRows)
        return -1;
    return placeAtGrid({at.x() / blockWide * m_blockColumns + in.x(), at.y() / blockTall * m_blockRows + in.y()});
}

} // namespace vh
