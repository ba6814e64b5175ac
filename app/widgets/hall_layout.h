#pragma once
// Where the seats of the hall stand: straight rows with names up to kMostNamed seats, above that blocks of seats with
// aisles. How many stand side by side goes by steps of the count, so that somebody who comes late moves nobody. Lengths
// in px of the widget; places count from 0. Pure value, any thread.
#include <QPoint>
#include <QRect>
#include <QSize>

namespace vh
{

class HallLayout
{
public:
    static constexpr int kMostNamed = 60;
    static constexpr int kBlockColumns = 10;
    static constexpr int kBlockRows = 5;
    static constexpr int kZooms = 3; ///< the whole hall, shapes that are plain, names

    /// `nameHeight`: of one line of a name. `zoom`: 0 ... kZooms - 1; without names only.
    HallLayout(int places = 0, QSize room = {}, int nameHeight = 0, int zoom = 0);

    [[nodiscard]] int places() const { return m_places; }
    [[nodiscard]] bool inBlocks() const { return m_places > kMostNamed; }
    [[nodiscard]] bool named() const { return m_named; }
    /// Of one place, its name included.
    [[nodiscard]] QSize place() const { return m_place; }
    /// Where the voice column stands within a place; its size is the same for all.
    [[nodiscard]] QRect column() const { return m_column; }
    /// All of it; may be larger than the room when zoomed in.
    [[nodiscard]] QSize content() const { return m_content; }
    [[nodiscard]] QRect rectOf(int place) const;
    /// -1: an aisle, or nothing at all.
    [[nodiscard]] int placeAt(QPoint at) const;

    /// Columns and rows over aisles, for moving about.
    [[nodiscard]] QPoint gridOf(int place) const;
    [[nodiscard]] int placeAtGrid(QPoint grid) const; ///< -1: none
    [[nodiscard]] QSize grid() const;

    friend bool operator==(const HallLayout&, const HallLayout&) = default;

private:
    void takeRows(QSize room, int nameHeight);
    void takeBlocks(QSize room, int nameHeight, int zoom);
    void takeColumn(int nameHeight);

    int m_places;
    bool m_named = true;
    int m_blockColumns = 1; ///< places side by side in a block
    int m_blockRows = 1;
    int m_blocksAcross = 1;
    int m_aisle = 0;
    QSize m_place;
    QRect m_column;
    QSize m_content;
};

} // namespace vh
