#include "app/widgets/picture_file.h"

#include <QImageReader>
#include <QPainter>
#include <QSvgRenderer>

#include <algorithm>

namespace vh
{

namespace
{

QSize scaledTo(QSizeF size, int edge)
{
    return size.scaled(edge, edge, Qt::KeepAspectRatio).toSize().expandedTo({1, 1});
}

QImage drawn(QSvgRenderer& svg, int edge)
{
    QImage image(scaledTo(svg.viewBoxF().isEmpty() ? QSizeF(svg.defaultSize()) : svg.viewBoxF().size(), edge),
                 QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    svg.render(&painter);
    return image;
}

} // namespace

QImage readPicture(const QString& path, int edge)
{
    if (path.endsWith(QLatin1String(".svg"), Qt::CaseInsensitive)) {
        QSvgRenderer svg(path);
        return svg.isValid() ? drawn(svg, edge) : QImage();
    }
    QImageReader reader(path);
    reader.setAutoTransform(true);
    QImage image = reader.read();
    if (image.isNull() || std::max(image.width(), image.height()) <= edge)
        return image;
    return image.scaled(scaledTo(image.size(), edge), Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
}

} // namespace vh
