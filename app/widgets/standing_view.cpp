#include "app/widgets/standing_view.h"
#include "app/look/look.h"

#include <QCoreApplication>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace vh
{

using look::Look;

namespace
{

QString said(const char* words)
{
    return QCoreApplication::translate("standing", words);
}

float levelInTheMiddle(Standing standing, const Band& band)
{
    switch (standing) {
    case Standing::below:
        return band.easyFromDb / 2;
    case Standing::above:
    case Standing::straining:
        return band.plentyToDb + 2;
    default:
        return (band.easyFromDb + band.plentyToDb) / 2;
    }
}

void paintSign(QPainter& painter, const QRectF& frame, const QString& sign, const QColor& colour, double share)
{
    QFont font = look::fontOfPixels(std::max(8, static_cast<int>(frame.height() * share)));
    const double wide = QFontMetricsF(font).horizontalAdvance(sign);
    if (wide > frame.width() * 0.9)
        font.setPixelSize(std::max(6, static_cast<int>(font.pixelSize() * frame.width() * 0.9 / wide)));
    painter.setFont(font);
    painter.setPen(colour);
    painter.drawText(frame, Qt::AlignCenter, sign);
}

void paintCross(QPainter& painter, const QRectF& frame, const QColor& colour)
{
    const double arm = std::min(frame.width(), frame.height()) * 0.25;
    painter.setPen(QPen(colour, std::max(1.5, frame.width() / 14), Qt::SolidLine, Qt::RoundCap));
    const QPointF c = frame.center();
    painter.drawLine(c + QPointF(-arm, -arm), c + QPointF(arm, arm));
    painter.drawLine(c + QPointF(-arm, arm), c + QPointF(arm, -arm));
}

void paintBar(QPainter& painter, const QRectF& frame, Shape shape, const QColor& colour, double share)
{
    const double inset = frame.width() * 0.2;
    const double thick = std::max(2.0, frame.width() * 0.1);
    const double floor = frame.bottom() - 1.5;
    const double tall = std::max(share * (frame.height() - 3), 2 * thick);
    const QRectF bar(frame.left() + inset, floor - tall, frame.width() - 2 * inset, tall);
    if (shape == Shape::hollow) {
        painter.setPen(QPen(colour, thick, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
        painter.setBrush(Qt::NoBrush);
        const double half = thick / 2;
        painter.drawRect(bar.adjusted(half, half, -half, -half));
        return;
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawRoundedRect(bar, 2, 2);
    if (shape == Shape::capped) // a beam across the column, wider than it
        painter.drawRect(QRectF(frame.left() + 1, bar.top() - thick / 2, frame.width() - 2, thick * 1.4));
}

/// A letter of few dots, for where no type can be read; '#' is a dot.
void paintDots(QPainter& painter, const QRectF& where, std::initializer_list<const char*> rows, const QColor& colour)
{
    const auto tall = static_cast<int>(rows.size());
    const double dot = std::max(1.0, std::floor(std::min(where.width() / 3, where.height() / tall)));
    double y = std::floor(where.center().y() - dot * tall / 2 + 0.5);
    const double left = std::floor(where.center().x() - dot * 1.5 + 0.5);
    for (const char* row : rows) {
        for (int x = 0; row[x] != 0; ++x)
            if (row[x] == '#')
                painter.fillRect(QRectF(left + x * dot, y, dot, dot), colour);
        y += dot;
    }
}

/// The same shapes without the outline and the band's edges, for seats in blocks. On whole pixels.
void paintSmall(QPainter& painter, const QRectF& where, Shape shape, const QColor& colour, double share)
{
    const QRectF box(std::floor(where.left()), std::floor(where.top()), std::max(std::floor(where.width()), 3.0),
                     std::max(std::floor(where.height()), 3.0));
    const double tall = std::max(std::round(share * box.height()), 3.0);
    const QRectF bar(box.left(), box.bottom() - tall, box.width(), tall);
    const double thin = std::max(1.0, std::round(box.width() / 6));
    const QRectF body = bar.adjusted(thin, 0, -thin, 0);
    switch (shape) {
    case Shape::empty:
        painter.fillRect(QRectF(box.left() + thin, box.bottom() - 1, box.width() - 2 * thin, 1),
                         Look::current().palette().dashes);
        break;
    case Shape::solid:
        painter.fillRect(body, colour);
        break;
    case Shape::hollow:
        painter.fillRect(body, colour);
        painter.fillRect(body.adjusted(thin, thin, -thin, -thin), Look::current().palette().sheet);
        break;
    case Shape::capped:
        painter.fillRect(body, colour);
        painter.fillRect(QRectF(bar.left(), bar.top(), bar.width(), std::max(2.0, thin)), colour);
        break;
    case Shape::dash:
        painter.fillRect(QRectF(box.left(), box.bottom() - 2, box.width(), 2), colour);
        break;
    case Shape::question:
        paintDots(painter, box, {"##.", "..#", ".#.", "...", ".#."}, colour);
        break;
    case Shape::dotted:
        paintDots(painter, box, {"#.#", "...", "#.#", "...", "#.#"}, colour);
        break;
    case Shape::word: // the first letter of the word that a large seat shows
        paintDots(painter, box, {"#.#", "##.", "#..", "#.."}, colour);
        break;
    case Shape::cross:
        paintDots(painter, box, {"#.#", ".#.", "#.#"}, colour);
        break;
    }
}

} // namespace

Shape shapeOf(Standing standing)
{
    switch (standing) {
    case Standing::notYet:
        return Shape::empty;
    case Standing::inBand:
        return Shape::solid;
    case Standing::below:
        return Shape::hollow;
    case Standing::above:
    case Standing::straining:
        return Shape::capped;
    case Standing::noVoice:
        return Shape::dash;
    case Standing::cantTell:
        return Shape::question;
    case Standing::resting:
        return Shape::word;
    case Standing::private_:
        return Shape::dotted;
    case Standing::away:
        return Shape::cross;
    }
    return Shape::empty;
}

QString wordsOf(Standing standing)
{
    switch (standing) {
    case Standing::notYet:
        return {};
    case Standing::inBand:
        return said("easy to hear");
    case Standing::below:
        return said("a little more");
    case Standing::above:
        return said("plenty");
    case Standing::straining:
        return said("ease off");
    case Standing::noVoice:
        return said("no voice heard");
    case Standing::cantTell:
        return said("can't tell");
    case Standing::resting:
        return said("listening today");
    case Standing::private_:
        return said("private");
    case Standing::away:
        return said("line lost");
    }
    return {};
}

QString wordsOf(Blank reason)
{
    switch (reason) {
    case Blank::none:
        return {};
    case Blank::noSignal:
        return said("no sound comes from the microphone");
    case Blank::clipping:
        return said("the microphone is set too high");
    case Blank::roomTooNoisy:
        return said("the room is loud");
    case Blank::loudspeakerTooLoud:
        return said("the loudspeaker covers the voice");
    case Blank::alteredByComputer:
        return said("the computer changes the sound");
    case Blank::somebodyElse:
        return said("somebody else is speaking");
    case Blank::setupChanged:
        return said("the microphone was changed");
    }
    return {};
}

QString sentenceOf(Standing standing, Blank reason)
{
    const QString why = standing == Standing::cantTell ? wordsOf(reason) : QString();
    return why.isEmpty() ? wordsOf(standing) : said("%1: %2").arg(wordsOf(standing), why);
}

QColor colourOf(Standing standing, const look::Palette& palette)
{
    switch (standing) {
    case Standing::inBand:
        return palette.easy;
    case Standing::below:
        return palette.littleMore;
    case Standing::above:
    case Standing::straining:
        return palette.plenty;
    default:
        return palette.neutral;
    }
}

bool hasColumn(Standing standing)
{
    const Shape shape = shapeOf(standing);
    return shape == Shape::solid || shape == Shape::hollow || shape == Shape::capped;
}

double LevelSpan::shareOf(float overUsualDb) const
{
    return std::clamp((overUsualDb - lowest) / (highest - lowest), 0.0F, 1.0F);
}

LevelSpan spanOf(const Band& band)
{
    return {-6, std::max(16.0F, band.plentyToDb + 4)};
}

void paintColumn(QPainter& painter, const QRectF& where, Standing standing, std::optional<float> overUsualDb,
                 const Band& band)
{
    const look::Palette& colours = Look::current().palette();
    const Shape shape = shapeOf(standing);
    const QColor colour = colourOf(standing, colours);
    const LevelSpan span = spanOf(band);
    const double share = span.shareOf(overUsualDb.value_or(levelInTheMiddle(standing, band)));
    if (where.height() < kSmallColumn)
        return paintSmall(painter, where, shape, colour, share);
    // Band edges reach out a little at both sides.
    const double reach = where.width() * 0.1;
    const QRectF frame = where.adjusted(reach, 1, -reach, -1);

    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const bool off = shape == Shape::dotted || shape == Shape::cross || shape == Shape::word;
    QPen outline(shape == Shape::cross ? colours.neutral : colours.dashes, 1.4);
    if (shape == Shape::dotted)
        outline = QPen(colours.dashes, 1.8, Qt::DotLine);
    else if (shape == Shape::cross)
        outline.setStyle(Qt::DashLine);
    painter.setPen(outline);
    painter.setBrush(off ? QBrush(Qt::NoBrush) : QBrush(colours.sheet));
    painter.drawRoundedRect(frame, 3, 3);

    if (hasColumn(standing))
        paintBar(painter, frame, shape, colour, share);
    if (!off) {
        painter.setPen(QPen(colours.deep2, 1.6));
        for (const float edge : {band.easyFromDb, band.plentyToDb}) {
            const double y = frame.bottom() - span.shareOf(edge) * frame.height();
            if (hasColumn(standing)) { // at the sides only: the column stays one shape
                painter.drawLine(QPointF(where.left(), y), QPointF(frame.left() + frame.width() * 0.2 - 1, y));
                painter.drawLine(QPointF(frame.right() - frame.width() * 0.2 + 1, y), QPointF(where.right(), y));
            } else {
                painter.drawLine(QPointF(where.left(), y), QPointF(frame.left(), y));
                painter.drawLine(QPointF(frame.right(), y), QPointF(where.right(), y));
            }
        }
    }
    if (shape == Shape::dash)
        painter.fillRect(QRectF(frame.left() + frame.width() * 0.2, frame.bottom() - 6, frame.width() * 0.6, 3.5),
                         colour);
    else if (shape == Shape::question)
        paintSign(painter, frame, QStringLiteral("?"), colour, 0.5);
    else if (shape == Shape::word)
        paintSign(painter, frame, said("rest"), colour, 0.26);
    else if (shape == Shape::cross)
        paintCross(painter, frame, colour);
    painter.restore();
}

} // namespace vh
