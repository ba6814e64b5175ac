#include "app/handout/set_picture.h"

#include "app/handout/set_text.h"

#include <QFileInfo>
#include <QImageReader>
#include <QPainter>
#include <QSvgRenderer>

namespace vh::handout
{

namespace
{

/// A picture file larger than this is not opened, as when a class is sent to the homes.
constexpr qint64 kMostPictureFile = 32LL * 1024 * 1024;
constexpr double kHair = pt(0.75);

Piece framed(QSizeF size, double left, const ElementRef& element, std::function<void(QPainter&, const QRectF&)> draw)
{
    return {size.height(), element, [size, left, draw = std::move(draw)](QPainter& painter, double top) {
                const QRectF where(QPointF(left, top), size);
                draw(painter, where);
                painter.setPen(QPen(QColor(Inks::second), kHair));
                painter.setBrush(Qt::NoBrush);
                painter.drawRect(where);
            }};
}

QSizeF fitted(QSizeF size, QSizeF most)
{
    return size.scaled(most, Qt::KeepAspectRatio);
}

std::optional<Piece> drawing(const QString& path, const PictureFrame& frame, const ElementRef& element)
{
    auto svg = std::make_shared<QSvgRenderer>(path);
    const QSizeF size = svg->viewBoxF().isEmpty() ? QSizeF(svg->defaultSize()) : svg->viewBoxF().size();
    if (!svg->isValid() || size.isEmpty())
        return {};
    return framed(fitted(size, frame.most), frame.left, element,
                  [svg](QPainter& painter, const QRectF& where) { svg->render(&painter, where); });
}

std::optional<Piece> photograph(const QString& path, const PictureFrame& frame, const ElementRef& element)
{
    QImageReader reader(path);
    reader.setAutoTransform(true);
    QImage image = reader.read();
    if (image.isNull())
        return {};
    const QSizeF size = fitted(image.size(), frame.most);
    const QSize pixels = (size / kUnitsPerPoint / 72.0 * frame.dpi).toSize().expandedTo({1, 1});
    if (pixels.width() < image.width())
        image = image.scaled(pixels, Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    return framed(size, frame.left, element,
                  [image](QPainter& painter, const QRectF& where) { painter.drawImage(where, image); });
}

} // namespace

std::optional<Piece> setPicture(const QString& path, const PictureFrame& frame, const ElementRef& element)
{
    const QFileInfo file(path);
    if (!file.isFile() || file.size() > kMostPictureFile)
        return {};
    return path.endsWith(QLatin1String(".svg"), Qt::CaseInsensitive) ? drawing(path, frame, element)
                                                                     : photograph(path, frame, element);
}

} // namespace vh::handout
