#pragma once
// What stands on paper, from top to bottom, before pages are known: blocks (a step, a heading) of pieces (a line, a
// picture). A block stays whole unless it is longer than a page; a heading stays with what follows. Lengths are in
// units of 1/20 pt, which is also the resolution of the PDF: letters are then laid out at about their design size.
// Values and pure functions; a piece's draw() needs a painter. Any one thread.
#include <QString>

#include <functional>
#include <memory>
#include <vector>

class QPainter;

namespace vh::handout
{

inline constexpr int kUnitsPerPoint = 20;
constexpr double pt(double points)
{
    return points * kUnitsPerPoint;
}
constexpr double mm(double millimetres)
{
    return pt(millimetres * 72.0 / 25.4);
}

/// What a screen reader is told of it (ISO 32000-1, 14.8.4: standard structure types).
struct Element {
    enum class Kind : std::uint8_t { title, heading, paragraph, caption, figure };
    Kind kind = Kind::paragraph;
    QString alt; ///< of a figure
};
using ElementRef = std::shared_ptr<const Element>;
ElementRef elementOf(Element::Kind kind, const QString& alt = {});

/// What is never broken. Pieces with the same element are one paragraph; without one it is there for the eye only.
struct Piece {
    double height = 0;
    ElementRef element;
    std::function<void(QPainter& painter, double top)> draw; ///< may be empty: room
};

struct Block {
    std::vector<Piece> pieces;
    double before = 0; ///< room above it, unless a page begins with it
    bool keepsWithNext = false;
    QString outline; ///< where a list of contents leads to; empty: nothing does

    [[nodiscard]] double height() const;
};
using Flow = std::vector<Block>;

struct Placed {
    const Piece* piece = nullptr;
    double top = 0;
    const QString* outline = nullptr; ///< on the first piece of a block that has one
};
using PlacedPage = std::vector<Placed>;

/// At least one page. The flow must outlive the answer.
std::vector<PlacedPage> paginate(const Flow& flow, double pageHeight);

} // namespace vh::handout
