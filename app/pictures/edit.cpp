#include "app/pictures/edit.h"

#include <QTransform>

#include <algorithm>
#include <cmath>

namespace vh::pictures
{

namespace
{

/// A rectangle of shares on a picture that is turned clockwise by a quarter.
QRectF quarterTurned(const QRectF& r)
{
    return {1 - r.bottom(), r.left(), r.height(), r.width()};
}

QRectF turnedBy(QRectF frame, int quarters)
{
    for (int i = 0; i < quarters; ++i)
        frame = quarterTurned(frame);
    return frame;
}

} // namespace

PictureEdit turned(PictureEdit edit, int quarters)
{
    edit.quarterTurns = ((edit.quarterTurns + quarters) % 4 + 4) % 4;
    return edit;
}

QRectF framed(const PictureEdit& edit)
{
    return turnedBy(edit.cut, edit.quarterTurns);
}

PictureEdit withFrame(PictureEdit edit, const QRectF& frame)
{
    edit.cut = turnedBy(frame, (4 - edit.quarterTurns) % 4);
    return edit;
}

QImage applied(const QImage& picture, const PictureEdit& edit)
{
    if (!edit.isOther() || picture.isNull())
        return picture;
    const int left = static_cast<int>(std::lround(edit.cut.left() * picture.width()));
    const int top = static_cast<int>(std::lround(edit.cut.top() * picture.height()));
    const int right = static_cast<int>(std::lround(edit.cut.right() * picture.width()));
    const int bottom = static_cast<int>(std::lround(edit.cut.bottom() * picture.height()));
    const QImage part = picture.copy(left, top, std::max(right - left, 1), std::max(bottom - top, 1));
    return edit.quarterTurns == 0 ? part : part.transformed(QTransform().rotate(90.0 * edit.quarterTurns));
}

double placeOf(Edge edge, const QRectF& frame)
{
    switch (edge) {
    case Edge::left:
        return frame.left();
    case Edge::top:
        return frame.top();
    case Edge::right:
        return frame.right();
    case Edge::bottom:
        break;
    }
    return frame.bottom();
}

QRectF moved(QRectF frame, Edge edge, double by)
{
    const double to = std::round((placeOf(edge, frame) + by) * 1000) / 1000; // there and back is where it was
    switch (edge) {
    case Edge::left:
        frame.setLeft(std::clamp(to, 0.0, frame.right() - kLeastShare));
        break;
    case Edge::top:
        frame.setTop(std::clamp(to, 0.0, frame.bottom() - kLeastShare));
        break;
    case Edge::right:
        frame.setRight(std::clamp(to, frame.left() + kLeastShare, 1.0));
        break;
    case Edge::bottom:
        frame.setBottom(std::clamp(to, frame.top() + kLeastShare, 1.0));
        break;
    }
    return frame;
}

} // namespace vh::pictures
