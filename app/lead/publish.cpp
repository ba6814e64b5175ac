#include "app/lead/publish.h"

#include "app/widgets/picture_file.h"
#include "common/base/text.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"

#include <QBuffer>
#include <QDir>
#include <QFileInfo>
#include <QImage>

#include <algorithm>
#include <map>

namespace vh::lead
{

namespace
{

constexpr int kSmallestEdge = 80; ///< below this a picture that still does not fit is given up

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
