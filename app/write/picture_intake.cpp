#include "app/write/picture_intake.h"

#include "app/widgets/picture_file.h"
#include "app/write/svg_rewrite.h"
#include "app/write/whole_file.h"

#include <QBuffer>
#include <QColorSpace>
#include <QDir>
#include <QFile>
#include <QImageReader>
#include <QImageWriter>
#include <QPainter>

namespace vh::write
{

namespace
{

constexpr int kJpegQuality = 88;
constexpr qint64 kMostPixels = 100'000'000;

struct Encoded {
    QByteArray bytes;
    QString ending;
};

/// Nothing but the pixels: QImage carries texts, a colour profile and a resolution along, and writes them.
QImage pixelsOf(QImage image)
{
    if (image.colorSpace().isValid())
        image.convertToColorSpace(QColorSpace::SRgb);
    QImage bare(image.size(), image.hasAlphaChannel() ? QImage::Format_ARGB32 : QImage::Format_RGB32);
    bare.fill(Qt::transparent);
    QPainter painter(&bare);
    painter.setCompositionMode(QPainter::CompositionMode_Source);
    painter.drawImage(QPoint(), image);
    return bare;
}

Result<Encoded> raster(const QByteArray& bytes)
{
    QBuffer source;
    source.setData(bytes);
    source.open(QIODevice::ReadOnly);
    QImageReader reader(&source);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (static_cast<qint64>(size.width()) * size.height() > kMostPixels)
        return fail("picture-too-large", "The picture is too large to be opened. Please save a smaller one.");
    if (std::max(size.width(), size.height()) > kPictureEdge) // a JPEG is then decoded at that size
        reader.setScaledSize(size.scaled(kPictureEdge, kPictureEdge, Qt::KeepAspectRatio).expandedTo({1, 1}));
    const bool photo = reader.format() == "jpeg";
    const QImage read = reader.read();
    if (read.isNull())
        return fail("picture-unreadable", "This cannot be read as a picture. PNG, JPEG and SVG can.");
    const QImage image = pixelsOf(read);
    Encoded encoded;
    encoded.ending = photo ? QStringLiteral("jpg") : QStringLiteral("png");
    QBuffer target(&encoded.bytes);
    target.open(QIODevice::WriteOnly);
    QImageWriter writer(&target, photo ? "jpeg" : "png");
    if (photo)
        writer.setQuality(kJpegQuality);
    if (!writer.write(image))
        return fail("picture-unreadable", "The picture cannot be encoded.");
    return encoded;
}

Result<Encoded> encodedFrom(const QString& chosen)
{
    QFile file(chosen);
    if (!file.open(QIODevice::ReadOnly))
        return fail("picture-unreadable", "The picture cannot be opened: " + file.errorString().toStdString() + '.');
    if (file.size() > kMostPictureFile)
        return fail("picture-too-large", "The picture is too large a file. Please save a smaller one.");
    const QByteArray bytes = file.readAll();
    if (!chosen.endsWith(QLatin1String(".svg"), Qt::CaseInsensitive))
        return raster(bytes);
    auto svg = rewrittenSvg(bytes);
    if (!svg)
        return tl::unexpected<Error>(svg.error());
    return Encoded{*svg, QStringLiteral("svg")};
}

/// Letters, digits and hyphens: good on every disk and in every link.
QString plain(const QString& name)
{
    QString plain;
    for (const QChar c : name.toLower().normalized(QString::NormalizationForm_D)) {
        const bool keep = (c >= u'a' && c <= u'z') || (c >= u'0' && c <= u'9');
        if (keep)
            plain += c;
        else if (!plain.isEmpty() && !plain.endsWith(u'-') && !c.isMark())
            plain += u'-';
    }
    while (plain.endsWith(u'-'))
        plain.chop(1);
    return plain.isEmpty() ? QStringLiteral("picture") : plain.left(60);
}

} // namespace

Result<QString> takePicture(const QString& chosen, const QString& folder, const QString& name)
{
    const auto encoded = encodedFrom(chosen);
    if (!encoded)
        return tl::unexpected<Error>(encoded.error());
    QString file;
    for (int number = 1; file.isEmpty() || QFile::exists(QDir(folder).filePath(file)); ++number)
        file = QStringLiteral("pictures/%1-%2.%3").arg(plain(name)).arg(number).arg(encoded->ending);
    QDir(folder).mkpath(QStringLiteral("pictures"));
    if (const QString why = writeWhole(QDir(folder).filePath(file), encoded->bytes); !why.isEmpty())
        return fail("not-saved", "The picture cannot be written into the class's folder: " + why.toStdString() + '.');
    return file;
}

} // namespace vh::write
