#include "app/pictures/prepare.h"

#include "app/widgets/picture_file.h"
#include "common/wire/limits.h"

#include <QBuffer>
#include <QColorSpace>
#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QImageWriter>
#include <QMimeData>
#include <QPainter>
#include <QPointer>
#include <QThreadPool>
#include <QUrl>

#include <algorithm>

namespace vh::pictures
{

namespace
{

constexpr int kQualities[] = {88, 80, 70, 60};
constexpr int kEdges[] = {kSentEdge, 1200, 900};
constexpr int kDotsPerMetre = 2835; // 72 dpi: the same for everybody's screen

tl::unexpected<Error> failed(const char* code, const char* words)
{
    return fail(code, QCoreApplication::translate("vh::pictures", words).toStdString());
}
tl::unexpected<Error> unknown()
{
    return failed("picture-unknown", QT_TRANSLATE_NOOP("vh::pictures", "This is not a picture that can be sent. "
                                                                       "Photographs (JPEG), PNG and GIF can."));
}
tl::unexpected<Error> tooLarge()
{
    return failed("picture-too-large",
                  QT_TRANSLATE_NOOP("vh::pictures", "This picture is too large. Please choose a smaller one."));
}
tl::unexpected<Error> unreadable()
{
    return failed("picture-unreadable", QT_TRANSLATE_NOOP("vh::pictures", "This picture could not be read. Please "
                                                                          "choose another one."));
}

/// Only pixels, on white: QImage carries texts, a colour profile and a resolution along, and writes them.
QImage pixelsOf(QImage image)
{
    if (image.colorSpace().isValid())
        image.convertToColorSpace(QColorSpace::SRgb);
    QImage bare(image.size(), QImage::Format_RGB32);
    bare.fill(Qt::white);
    QPainter painter(&bare);
    painter.drawImage(QRect(QPoint(), bare.size()), image);
    painter.end();
    bare.setDotsPerMeterX(kDotsPerMetre);
    bare.setDotsPerMeterY(kDotsPerMetre);
    return bare;
}

QImage within(const QImage& image, int edge)
{
    if (std::max(image.width(), image.height()) <= edge)
        return image;
    return image.scaled(image.size().scaled(edge, edge, Qt::KeepAspectRatio).expandedTo({1, 1}), Qt::IgnoreAspectRatio,
                        Qt::SmoothTransformation);
}

QByteArray written(const QImage& image, const char* format, int quality)
{
    QByteArray bytes;
    QBuffer target(&bytes);
    target.open(QIODevice::WriteOnly);
    QImageWriter writer(&target, format);
    if (quality > 0)
        writer.setQuality(quality);
    return writer.write(image) ? bytes : QByteArray();
}

struct Read {
    QImage image;
    bool photograph = false; ///< its file was a JPEG
};

Result<Read> readFile(const QString& path)
{
    const QFileInfo info(path);
    if (!info.isFile())
        return unreadable();
    if (info.size() > kMostPictureFile)
        return tooLarge();
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return unreadable();
    QImageReader reader(&file);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    const QByteArray format = reader.format();
    if (!QList<QByteArray>{"jpeg", "png", "gif", "bmp", "webp"}.contains(format)) // no drawing that reads other files
        return unknown();
    const QSize size = reader.size();
    const bool photograph = format == "jpeg"; // made smaller while it is read
    const qint64 pixels = static_cast<qint64>(size.width()) * size.height();
    const qint64 held = QImageReader::allocationLimit() * qint64{1024 * 1024} / 4;
    if (pixels > (photograph || held == 0 ? kMostPixels : std::min(kMostPixels, held)))
        return tooLarge();
    if (photograph && std::max(size.width(), size.height()) > kSentEdge)
        reader.setScaledSize(size.scaled(kSentEdge, kSentEdge, Qt::KeepAspectRatio).expandedTo({1, 1}));
    QImage image = reader.read();
    if (image.isNull())
        return unreadable();
    return Read{std::move(image), photograph};
}

Result<Read> readSource(const Source& source)
{
    if (const auto* path = std::get_if<QString>(&source))
        return readFile(*path);
    const auto& image = std::get<QImage>(source);
    if (image.isNull())
        return unreadable();
    if (static_cast<qint64>(image.width()) * image.height() > kMostPixels)
        return tooLarge();
    return Read{image, false};
}

} // namespace

std::optional<Source> sourceIn(const QMimeData* copied)
{
    if (!copied)
        return std::nullopt;
    for (const QUrl& url : copied->urls())
        if (url.isLocalFile())
            return Source(url.toLocalFile());
    if (copied->hasImage())
        if (auto image = qvariant_cast<QImage>(copied->imageData()); !image.isNull())
            return Source(std::move(image));
    return std::nullopt;
}

Result<Prepared> prepare(const Source& source)
{
    const auto read = readSource(source);
    if (!read)
        return tl::unexpected<Error>(read.error());
    const auto most = static_cast<qsizetype>(wire::kPictureBytes);
    const QImage whole = pixelsOf(within(read->image, kSentEdge));
    const QByteArray drawing = read->photograph ? QByteArray() : written(whole, "png", -1);
    for (const int edge : kEdges) {
        const QImage image = within(whole, edge);
        for (const int quality : kQualities) {
            QByteArray bytes = written(image, "jpeg", quality);
            if (bytes.isEmpty())
                return unreadable();
            if (!drawing.isEmpty() && drawing.size() <= std::min(bytes.size(), most))
                return Prepared{drawing, whole};
            if (bytes.size() <= most)
                return Prepared{std::move(bytes), image};
        }
    }
    return tooLarge();
}

void prepareElsewhere(const Source& source, QObject* context, std::function<void(const Result<Prepared>&)> done)
{
    QThreadPool::globalInstance()->start([source, self = QPointer(context), done = std::move(done)] {
        auto prepared = prepare(source);
        QMetaObject::invokeMethod(
            qApp,
            [self, done, prepared = std::move(prepared)] {
                if (self)
                    done(prepared);
            },
            Qt::QueuedConnection);
    });
}

} // namespace vh::pictures
