#include "app/look/type.h"

#include <QFontDatabase>

#include <cmath>

// Outside any namespace, as the macro asks: the resource sits in a static library.
static void initFontResource()
{
    Q_INIT_RESOURCE(look_fonts);
}

namespace vh::look
{

namespace
{

int usualPixels(Type type)
{
    switch (type) {
    case Type::fine:
        return 15;
    case Type::note:
        return 17;
    case Type::body:
    case Type::control:
        return 19;
    case Type::touch:
        return 24;
    case Type::caption:
        return 20;
    case Type::title:
        return 21;
    case Type::heading:
        return 30;
    case Type::cue:
        return 34;
    }
    return 19;
}

double factorOf(TextSize size)
{
    switch (size) {
    case TextSize::usual:
        return 1.0;
    case TextSize::larger:
        return 1.15;
    case TextSize::largest:
        return 1.3;
    }
    return 1.0;
}

} // namespace

int pixelSizeOf(Type type, TextSize size)
{
    return static_cast<int>(std::lround(usualPixels(type) * factorOf(size)));
}

QString typefaceFamily()
{
    return QStringLiteral("Andika");
}

bool loadTypeface()
{
    static const bool loaded = [] {
        initFontResource();
        return QFontDatabase::addApplicationFont(QStringLiteral(":/look/fonts/Andika-Regular.ttf")) >= 0 &&
               QFontDatabase::addApplicationFont(QStringLiteral(":/look/fonts/Andika-Bold.ttf")) >= 0;
    }();
    return loaded;
}

QFont fontOfPixels(int pixelSize, Weight weight)
{
    QFont font(typefaceFamily());
    font.setPixelSize(pixelSize);
    font.setBold(weight == Weight::bold);
    // Advances then grow in proportion to the size, so that a fitting measured once holds at every size.
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

QFont fontOf(Type type, TextSize size, Weight weight)
{
    return fontOfPixels(pixelSizeOf(type, size), weight);
}

} // namespace vh::look
