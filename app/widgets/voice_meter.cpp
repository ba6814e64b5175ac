#include "app/widgets/voice_meter.h"
#include "app/look/look.h"

#include <QLinearGradient>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace vh
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr double kTrackHeight = 46;
constexpr double kTickOver = 9; // how far the band's edges reach beyond the track
constexpr double kBarInset = 5;
constexpr double kWordsShare = 0.30; // of the width, at the right
constexpr double kLinePitch = 1.3;   // of the letters' size
constexpr double kBracket = 8;       // room for the bracket below the band

QString firstUpper(QString words)
{
    if (!words.isEmpty())
        words[0] = words[0].toUpper();
    return words;
}

} // namespace

struct VoiceMeter::Parts {
    QRectF track;
    QRectF labels;
    QRectF words;
    LevelSpan span;
    [[nodiscard]] double xOf(float overUsualDb) const
    {
        return track.left() + span.shareOf(overUsualDb) * track.width();
    }
};

QString VoiceMeter::wordsOf(const State& state)
{
    if (!state.words.isEmpty())
        return state.words;
    if (state.standing == Standing::cantTell)
        return tr("I can't tell just now");
    return firstUpper(vh::wordsOf(state.standing));
}

QString VoiceMeter::whyOf(const State& state)
{
    if (state.standing == Standing::cantTell)
        return firstUpper(vh::wordsOf(state.reason));
    return state.of == Of::lastTurn && !wordsOf(state).isEmpty() ? tr("your last turn") : QString();
}

VoiceMeter::VoiceMeter(QWidget* parent) : SpokenWidget(QAccessible::Indicator, parent)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void VoiceMeter::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    const QString why = whyOf(m_state);
    const QString words = wordsOf(m_state);
    if (words.isEmpty())
        say(tr("Your voice"));
    else // told when it changes, which is between turns
        alert(why.isEmpty() ? words : tr("%1. %2.").arg(words, firstUpper(why)));
    update();
}

QSize VoiceMeter::sizeHint() const
{
    const double label = kLinePitch * Look::current().pixels(Type::body);
    return {900, static_cast<int>(std::ceil(kTrackHeight + 2 * kTickOver + kBracket + label))};
}

QSize VoiceMeter::minimumSizeHint() const
{
    return {480, sizeHint().height()};
}

VoiceMeter::Parts VoiceMeter::parts() const
{
    Parts at;
    const double words = std::max(220.0, width() * kWordsShare);
    at.track = QRectF(1, kTickOver, width() - words - Space::wide, kTrackHeight);
    const double below = at.track.bottom() + kTickOver + kBracket;
    at.labels = QRectF(0, below, at.track.width(), height() - below);
    at.words = QRectF(at.track.right() + Space::wide, 0, words, height());
    at.span = spanOf(m_state.band);
    return at;
}

void VoiceMeter::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Parts at = parts();
    paintTrack(painter, at);
    paintBar(painter, at);
    paintTicks(painter, at);
    paintWords(painter, at);
}

void VoiceMeter::paintTrack(QPainter& painter, const Parts& at) const
{
    const look::Palette& colours = Look::current().palette();
    QPen pen(colours.dashes, 1.6);
    if (m_state.standing == Standing::private_)
        pen = QPen(colours.dashes, 2.2, Qt::DotLine);
    else if (m_state.standing == Standing::away)
        pen = QPen(colours.neutral, 2.2, Qt::DashLine);
    painter.setPen(pen);
    painter.setBrush(colours.sheet);
    painter.drawRoundedRect(at.track, kTrackHeight / 2, kTrackHeight / 2);
    if (!showsBand())
        return;
    painter.setPen(Qt::NoPen); // where it is easy to hear, the ground is a little different
    painter.setBrush(colours.quiet);
    const double from = at.xOf(m_state.band.easyFromDb);
    painter.drawRect(QRectF(from, at.track.top() + 2, at.xOf(m_state.band.plentyToDb) - from, at.track.height() - 4));
}

void VoiceMeter::paintBar(QPainter& painter, const Parts& at) const
{
    const look::Palette& colours = Look::current().palette();
    const Shape shape = shapeOf(m_state.standing);
    const QColor colour = colourOf(m_state.standing, colours);
    const QRectF inside = at.track.adjusted(kBarInset, kBarInset, -kBarInset, -kBarInset);
    const QRectF start(inside.left() + 14, inside.top(), inside.height(), inside.height());

    if (shape == Shape::dash)
        painter.fillRect(QRectF(start.left(), start.center().y() - 2.5, 26, 5), colour);
    if (shape == Shape::question) {
        painter.setFont(look::fontOfPixels(30, look::Weight::bold));
        painter.setPen(colour);
        painter.drawText(start, Qt::AlignCenter, QStringLiteral("?"));
    }
    if (shape == Shape::cross) {
        painter.setPen(QPen(colour, 4, Qt::SolidLine, Qt::RoundCap));
        const QPointF c = start.center();
        painter.drawLine(c + QPointF(-9, -9), c + QPointF(9, 9));
        painter.drawLine(c + QPointF(-9, 9), c + QPointF(9, -9));
    }
    const bool bar = shape == Shape::empty || hasColumn(m_state.standing);
    if (!bar || !m_state.overUsualDb)
        return;

    const double solidTo = std::max(at.xOf(*m_state.overUsualDb - m_state.uncertaintyDb), inside.left() + 1);
    const double softTo = std::clamp(at.xOf(*m_state.overUsualDb + m_state.uncertaintyDb), solidTo + 1, inside.right());
    QLinearGradient soft(solidTo, 0, softTo, 0);
    QColor gone = colour;
    gone.setAlpha(0);
    soft.setColorAt(0, colour);
    soft.setColorAt(1, gone);

    QPainterPath body;
    body.addRoundedRect(
        QRectF(inside.left(), inside.top(), std::max(softTo - inside.left(), inside.height()), inside.height()),
        inside.height() / 2, inside.height() / 2);
    if (shape == Shape::hollow) {
        painter.setPen(QPen(QBrush(soft), 5));
        painter.setBrush(Qt::NoBrush);
        QPainterPath outline; // open at its soft end
        const QRectF r = inside.adjusted(2.5, 2.5, 0, -2.5);
        outline.moveTo(softTo, r.top());
        outline.lineTo(r.left() + r.height() / 2, r.top());
        outline.arcTo(QRectF(r.left(), r.top(), r.height(), r.height()), 90, 180);
        outline.lineTo(softTo, r.bottom());
        painter.drawPath(outline);
        return;
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(soft);
    painter.drawPath(body);
    if (shape == Shape::capped) { // a beam at the level itself, taller than the bar
        const double x = at.xOf(*m_state.overUsualDb);
        painter.setBrush(colour);
        painter.drawRoundedRect(QRectF(std::min(x, at.track.right() - 12) - 4, at.track.top() + 1, 9, kTrackHeight - 2),
                                2, 2);
    }
}

void VoiceMeter::paintTicks(QPainter& painter, const Parts& at) const
{
    if (!showsBand())
        return;
    const look::Palette& colours = Look::current().palette();
    const double usual = at.xOf(0);
    // On the bar both ticks stand on a halo of the sheet, so that they are seen on every colour.
    const auto tick = [&](double x, double over, const QColor& colour, double thick) {
        painter.setPen(QPen(colours.sheet, thick + 3));
        painter.drawLine(QPointF(x, at.track.top() + 2), QPointF(x, at.track.bottom() - 2));
        painter.setPen(QPen(colour, thick));
        painter.drawLine(QPointF(x, at.track.top() - over), QPointF(x, at.track.bottom() + over));
    };
    tick(usual, 5, colours.dashes, 3);
    tick(at.xOf(m_state.band.easyFromDb), kTickOver, colours.deep2, 4);
    tick(at.xOf(m_state.band.plentyToDb), kTickOver, colours.deep2, 4);

    const double from = at.xOf(m_state.band.easyFromDb);
    const double to = at.xOf(m_state.band.plentyToDb);
    const double bracket = at.track.bottom() + kTickOver + kBracket / 2;
    painter.setPen(QPen(colours.deep2, 3));
    painter.drawLine(QPointF(from - 2, bracket), QPointF(to + 2, bracket));
    paintLabels(painter, at, usual, (from + to) / 2);
}

/// Each below its place; where they would meet, the usual one gives way to the left.
void VoiceMeter::paintLabels(QPainter& painter, const Parts& at, double usual, double band) const
{
    const look::Palette& colours = Look::current().palette();
    const QFont font = Look::current().font(Type::body);
    const QFontMetricsF metrics(font);
    const QString bandWords = tr("easy to hear");
    const QString usualWords = tr("your usual");
    const double baseline = at.labels.top() + (at.labels.height() + metrics.capHeight()) / 2;
    const double bandLeft = band - metrics.horizontalAdvance(bandWords) / 2;
    const double usualWide = metrics.horizontalAdvance(usualWords);
    const double usualLeft = std::clamp(usual - usualWide / 2, 0.0, bandLeft - usualWide - Space::gap);
    painter.setFont(font);
    painter.setPen(colours.ink);
    painter.drawText(QPointF(bandLeft, baseline), bandWords);
    painter.setPen(colours.secondInk);
    painter.drawText(QPointF(usualLeft, baseline), usualWords);
}

bool VoiceMeter::showsBand() const
{
    return m_state.standing != Standing::resting && m_state.standing != Standing::away;
}

void VoiceMeter::paintWords(QPainter& painter, const Parts& at) const
{
    const Look& look = Look::current();
    const QString why = whyOf(m_state);
    painter.setPen(colourOf(m_state.standing, look.palette()));
    QFont font = look.font(Type::cue, look::Weight::bold);
    const QString words = wordsOf(m_state);
    const double wide = QFontMetricsF(font).horizontalAdvance(words);
    if (wide > at.words.width()) // long words stay whole; the type scale's next step down is the floor
        font.setPixelSize(
            std::max(look.pixels(Type::touch), static_cast<int>(font.pixelSize() * at.words.width() / wide)));
    const QFont small = look.font(Type::body);
    const double pitch = kLinePitch * font.pixelSize();
    const double smallPitch = why.isEmpty() ? 0 : kLinePitch * small.pixelSize();
    // In the middle of the track; with the reason below them, a little higher.
    const double top = std::max(0.0, at.track.center().y() - pitch / 2 - (why.isEmpty() ? 0 : smallPitch / 3));
    painter.setFont(font);
    painter.drawText(QPointF(at.words.left(), top + (pitch + QFontMetricsF(font).capHeight()) / 2), words);
    if (why.isEmpty())
        return;
    QFont whyFont = small;
    const double whyWide = QFontMetricsF(small).horizontalAdvance(why);
    if (whyWide > at.words.width())
        whyFont.setPixelSize(
            std::max(look.pixels(Type::fine), static_cast<int>(small.pixelSize() * at.words.width() / whyWide)));
    painter.setFont(whyFont);
    painter.setPen(look.palette().secondInk);
    painter.drawText(QPointF(at.words.left(), top + pitch + (smallPitch + QFontMetricsF(whyFont).capHeight()) / 2),
                     why);
}

} // namespace vh
