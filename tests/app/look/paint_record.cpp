#include "tests/app/look/paint_record.h"

#include "app/look/contrast.h"
#include "app/look/look.h"

#include <QFontMetricsF>
#include <QHash>

#include <cmath>

namespace vh::testing
{

namespace
{

/// Colours of `picture` wherever `mask` has ink, each that makes up at least `share` of it.
QList<QColor> coloursUnder(const QImage& picture, const QImage& mask, QPoint corner, double share)
{
    QHash<QRgb, int> counts;
    int all = 0;
    for (int y = 0; y < mask.height(); ++y) {
        const auto* inked = mask.constScanLine(y);
        for (int x = 0; x < mask.width(); ++x) {
            if (inked[x] < 200 || !picture.rect().contains(corner + QPoint(x, y)))
                continue;
            ++counts[picture.pixel(corner + QPoint(x, y))];
            ++all;
        }
    }
    QList<QColor> colours;
    for (auto it = counts.cbegin(); it != counts.cend(); ++it)
        if (it.value() >= share * all)
            colours.append(QColor(it.key()));
    return colours;
}

} // namespace

/// Hands everything on to the picture, and notes what it is.
class PaintRecord::Engine final : public QPaintEngine
{
public:
    explicit Engine(PaintRecord& record) : QPaintEngine(AllFeatures), m_record(record) {}

    bool begin(QPaintDevice*) override { return m_onto.begin(&m_record.m_picture); }
    bool end() override { return m_onto.end(); }
    void updateState(const QPaintEngineState&) override {}
    [[nodiscard]] Type type() const override { return User; }

    void drawPath(const QPainterPath& path) override { shape(path); }
    void drawPolygon(const QPointF* points, int count, PolygonDrawMode mode) override
    {
        QPainterPath path(points[0]);
        for (int i = 1; i < count; ++i)
            path.lineTo(points[i]);
        if (mode != PolylineMode)
            path.closeSubpath();
        shape(path, mode == PolylineMode);
    }
    void drawLines(const QLineF* lines, int count) override
    {
        QPainterPath path;
        for (int i = 0; i < count; ++i) {
            path.moveTo(lines[i].p1());
            path.lineTo(lines[i].p2());
        }
        shape(path, true);
    }
    void drawRects(const QRectF* rects, int count) override
    {
        for (int i = 0; i < count; ++i) {
            QPainterPath path;
            path.addRect(rects[i]);
            shape(path);
        }
    }
    void drawEllipse(const QRectF& where) override
    {
        QPainterPath path;
        path.addEllipse(where);
        shape(path);
    }
    void drawPixmap(const QRectF& where, const QPixmap& pixmap, const QRectF& part) override
    {
        follow();
        m_onto.drawPixmap(where, pixmap, part);
    }
    void drawImage(const QRectF& where, const QImage& image, const QRectF& part, Qt::ImageConversionFlags) override
    {
        follow();
        m_onto.drawImage(where, image, part);
    }
    void drawTextItem(const QPointF& at, const QTextItem& item) override
    {
        follow();
        PaintedText text;
        text.text = item.text();
        text.ink = painter()->pen().color();
        if (!text.text.trimmed().isEmpty()) {
            const QRectF tight = QFontMetricsF(item.font()).tightBoundingRect(text.text).translated(at);
            text.letters = painter()->deviceTransform().mapRect(tight);
            note(text, clip());
            m_record.m_texts.append(text);
        }
        m_onto.setFont(item.font());
        m_onto.setPen(text.ink);
        m_onto.drawText(at, text.text);
    }

private:
    [[nodiscard]] QRectF clip() const
    {
        QRectF all = QRectF(m_record.m_picture.rect());
        if (!systemClip().isEmpty())
            all &= QRectF(systemClip().boundingRect());
        if (painter()->hasClipping())
            all &= painter()->deviceTransform().mapRect(painter()->clipBoundingRect());
        return all;
    }
    void note(PaintedText& text, const QRectF& clip) const
    {
        const QRectF seen = text.letters & clip;
        if (text.letters.left() < clip.left() - 1 || text.letters.right() > clip.right() + 1 ||
            text.letters.top() < clip.top() - 1 || text.letters.bottom() > clip.bottom() + 1)
            text.cutOff = text.letters;
        const QRect box = seen.toAlignedRect();
        if (box.isEmpty() || m_record.m_what == Read::wordsOnly)
            return;
        QImage mask(box.size(), QImage::Format_Alpha8);
        mask.fill(Qt::black);
        text.grounds = coloursUnder(m_record.m_picture, mask, box.topLeft(), 0.05);
    }
    /// The picture's painter becomes as the screen's is now.
    void follow()
    {
        m_onto.setTransform({});
        m_onto.setClipping(false);
        if (!systemClip().isEmpty())
            m_onto.setClipRegion(systemClip());
        m_onto.setTransform(painter()->deviceTransform());
        if (painter()->hasClipping())
            m_onto.setClipPath(painter()->clipPath(), Qt::IntersectClip);
        m_onto.setRenderHints(painter()->renderHints());
        m_onto.setPen(painter()->pen());
        m_onto.setBrush(painter()->brush());
        m_onto.setBrushOrigin(painter()->brushOrigin());
        m_onto.setOpacity(painter()->opacity());
        m_onto.setCompositionMode(painter()->compositionMode());
    }
    void shape(const QPainterPath& path, bool lineOnly = false)
    {
        follow();
        const QPen pen = painter()->pen();
        QBrush brush = painter()->brush();
        if (lineOnly)
            brush = Qt::NoBrush;
        // A shape that is filled says what it says by its filling where its outline has the same colour.
        if (brush.style() != Qt::NoBrush)
            noteShape(path, QPen(Qt::NoPen), brush, colourOf(brush));
        if (pen.style() != Qt::NoPen && !(brush.style() == Qt::SolidPattern && brush.color() == pen.color()))
            noteShape(path, QPen(pen.brush(), std::max(pen.widthF(), 1.0)), Qt::NoBrush, colourOf(pen.brush()));
        m_onto.setPen(pen);
        m_onto.setBrush(brush);
        m_onto.drawPath(path);
    }
    static QColor colourOf(const QBrush& brush)
    {
        return brush.gradient() && !brush.gradient()->stops().isEmpty() ? brush.gradient()->stops().front().second
                                                                        : brush.color();
    }
    void noteShape(const QPainterPath& path, const QPen& pen, const QBrush& brush, const QColor& colour)
    {
        if (colour.alpha() < 255 || path.isEmpty() || m_record.m_what == Read::wordsOnly)
            return; // a tint says nothing by itself
        const double half = pen.style() == Qt::NoPen ? 0 : pen.widthF();
        const QRectF where =
            painter()->deviceTransform().mapRect(path.boundingRect().adjusted(-half, -half, half, half));
        const QRect box = (where & clip()).toAlignedRect();
        if (box.isEmpty())
            return;
        QImage mask(box.size(), QImage::Format_Alpha8);
        mask.fill(Qt::transparent);
        QPainter onMask(&mask);
        onMask.setTransform(painter()->deviceTransform() * QTransform::fromTranslate(-box.left(), -box.top()));
        onMask.setPen(pen.style() == Qt::NoPen ? pen : QPen(Qt::black, pen.widthF()));
        onMask.setBrush(brush.style() == Qt::NoBrush ? QBrush(Qt::NoBrush) : QBrush(Qt::black));
        onMask.drawPath(path);
        onMask.end();
        m_record.m_shapes.append({colour, coloursUnder(m_record.m_picture, mask, box.topLeft(), 0.2), where});
    }

    PaintRecord& m_record;
    QPainter m_onto;
};

class PaintRecord::Device final : public QPaintDevice
{
public:
    Device(PaintRecord& record, QSize size) : m_engine(record), m_size(size) {}
    [[nodiscard]] QPaintEngine* paintEngine() const override { return &m_engine; }

protected:
    [[nodiscard]] int metric(PaintDeviceMetric what) const override
    {
        switch (what) {
        case PdmWidth:
            return m_size.width();
        case PdmHeight:
            return m_size.height();
        case PdmWidthMM:
            return m_size.width() * 254 / 960;
        case PdmHeightMM:
            return m_size.height() * 254 / 960;
        case PdmDpiX:
        case PdmDpiY:
        case PdmPhysicalDpiX:
        case PdmPhysicalDpiY:
            return 96;
        case PdmDepth:
            return 32;
        case PdmNumColors:
            return 1 << 24;
        case PdmDevicePixelRatio:
            return 1;
        case PdmDevicePixelRatioScaled:
            return static_cast<int>(devicePixelRatioFScale());
        default:
            return QPaintDevice::metric(what);
        }
    }

private:
    mutable Engine m_engine;
    QSize m_size;
};

PaintRecord::PaintRecord(QWidget& of, Read what) : m_what(what), m_picture(of.size(), QImage::Format_RGB32)
{
    m_picture.fill(look::Look::current().palette().paper);
    Device device(*this, of.size());
    QPainter painter(&device);
    of.render(&painter, {}, {}, QWidget::DrawWindowBackground | QWidget::DrawChildren);
}

QStringList cutOffIn(QWidget& screen)
{
    const PaintRecord record(screen, PaintRecord::Read::wordsOnly);
    QStringList all;
    for (const PaintedText& each : record.texts())
        if (!each.cutOff.isEmpty())
            all.append(QStringLiteral("\"%1\" at %2, %3 is cut off")
                           .arg(each.text)
                           .arg(each.letters.x())
                           .arg(each.letters.y()));
    return all;
}

QStringList unlistedPairsIn(QWidget& screen)
{
    using Kind = look::ColourPair::Kind;
    const look::Palette& own = look::Look::current().palette();
    const auto pairs = look::pairsInUse(own);
    const auto isListed = [&](const QColor& front, const QColor& ground, bool text) {
        return std::any_of(pairs.begin(), pairs.end(), [&](const look::ColourPair& pair) {
            return pair.front.rgb() == front.rgb() && pair.ground.rgb() == ground.rgb() &&
                   (!text || pair.kind == Kind::text);
        });
    };
    const auto isGround = [&](const QColor& colour) { // carries no meaning by itself
        return colour.rgb() == own.paper.rgb() || colour.rgb() == own.sheet.rgb() || colour.rgb() == own.quiet.rgb() ||
               colour.rgb() == own.line.rgb();
    };
    const auto isOwn = [&](const QColor& colour) { // else a blend at the edge of something
        return std::any_of(pairs.begin(), pairs.end(), [&](const look::ColourPair& pair) {
            return pair.front.rgb() == colour.rgb() || pair.ground.rgb() == colour.rgb();
        });
    };
    const PaintRecord record(screen);
    QStringList all;
    for (const PaintedText& each : record.texts())
        for (const QColor& ground : each.grounds)
            if (!isListed(each.ink, ground, true))
                all.append(QStringLiteral("\"%1\": %2 on %3").arg(each.text, each.ink.name(), ground.name()));
    for (const PaintedShape& each : record.shapes())
        for (const QColor& ground : each.grounds)
            if (!isGround(each.colour) && each.colour.rgb() != ground.rgb() && (isOwn(ground) || !isOwn(each.colour)) &&
                !isListed(each.colour, ground, false))
                all.append(QStringLiteral("a shape at %1, %2: %3 on %4")
                               .arg(each.bounds.x())
                               .arg(each.bounds.y())
                               .arg(each.colour.name(), ground.name()));
    all.removeDuplicates();
    return all;
}

} // namespace vh::testing
