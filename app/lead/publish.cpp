#include "app/lead/publish.h"

#include "common/base/text.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"

#include <QBuffer>
#include <QDir>
#include <QImage>
#include <QImageReader>
#include <QPainter>
#include <QSvgRenderer>

#include <algorithm>
#include <map>

namespace vh::lead
{

namespace
{

constexpr int kSmallestEdge = 80; ///< below this a picture that still does not fit is given up
/// A picture file larger than this is not opened.
constexpr qint64 kMostPictureFile = 32LL * 1024 * 1024;

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

/// The picture at no more than this edge; null when it is none.
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

std::string pngOf(const QImage& image)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    return image.save(&buffer, "PNG") ? bytes.toStdString() : std::string();
}

/// As large as a part may be: a picture with much detail gets smaller until it fits.
Result<std::string> picturePart(const std::string& file, const QString& folder)
{
    const QString path = QDir(folder).filePath(QString::fromStdString(file));
    if (QFileInfo(path).size() > kMostPictureFile)
        return fail("picture-unreadable", "The picture is too large a file. Please save a smaller one.", file);
    for (int edge = kPictureEdge; edge >= kSmallestEdge; edge = edge * 4 / 5) {
        const QImage image = readPicture(path, edge);
        const std::string png = image.isNull() ? std::string() : pngOf(image);
        if (png.empty())
            break;
        if (png.size() <= kMostPartBytes)
            return png;
    }
    return fail("picture-unreadable", "The picture cannot be read. Is it there, and is it a picture?", file);
}

Part partOf(std::string bytes)
{
    const wire::Hash hash = wire::sha256(bytes);
    return {hash, std::move(bytes)};
}

} // namespace

Result<PublishedClass> publish(const ClassScript& script, const QString& folder)
{
    PublishedClass published{script, {}};
    published.parts.emplace_back();           // the script's, once its pictures have their names
    std::map<std::string, std::string> names; // of each file, as homes know it
    for (Section& section : published.script.sections)
        for (Step& step : section.steps) {
            if (!step.picture)
                continue;
            std::string& name = names[step.picture->file];
            if (name.empty()) {
                auto png = picturePart(step.picture->file, folder);
                if (!png)
                    return tl::unexpected<Error>(png.error());
                Part part = partOf(std::move(*png));
                name = hexOf(part.hash) + ".png";
                const auto same = [&](const Part& other) { return other.hash == part.hash; };
                if (std::none_of(published.parts.begin() + 1, published.parts.end(), same))
                    published.parts.push_back(std::move(part));
            }
            step.picture->file = name;
        }
    published.parts.front() = partOf(wire::encodeScript(published.script));
    if (published.parts.front().bytes.size() > kMostPartBytes || published.parts.size() > wire::kPartsPerClass)
        return fail("class-too-large", "This class has more text or pictures than can be sent to the homes. Please "
                                       "make two classes of it.");
    return published;
}

} // namespace vh::lead
