#include "app/look/palette.h"

namespace vh::look
{

const Palette& paletteOf(Ground ground)
{
    static const Palette light{
        .paper = QColor("#FBF7EF"),
        .sheet = QColor("#FFFFFF"),
        .quiet = QColor("#F5F9FA"),
        .ink = QColor("#1C2230"),
        .secondInk = QColor("#434B5B"),
        .line = QColor("#D9D2C3"),
        .deep = QColor("#123F4F"),
        .onDeep = QColor("#FFFFFF"),
        .deepHeld = QColor("#0B2B37"),
        .deep2 = QColor("#1D5B6C"),
        .stretch = QColor("#B8860B"),
        .dashes = QColor("#8A8069"),
        .easy = QColor("#0A5793"),
        .littleMore = QColor("#893F08"),
        .plenty = QColor("#6A2676"),
        .neutral = QColor("#4F5462"),
    };
    static const Palette dark{
        .paper = QColor("#14191F"),
        .sheet = QColor("#1D242D"),
        .quiet = QColor("#1F2B34"),
        .ink = QColor("#F4EFE6"),
        .secondInk = QColor("#CFC9BD"),
        .line = QColor("#3B444F"),
        .deep = QColor("#BFE1EA"),
        .onDeep = QColor("#0D2029"),
        .deepHeld = QColor("#E2F2F6"),
        .deep2 = QColor("#93CBDA"),
        .stretch = QColor("#E0B24A"),
        .dashes = QColor("#A89F8A"),
        .easy = QColor("#93CBFF"),
        .littleMore = QColor("#F6B98A"),
        .plenty = QColor("#E4B8F0"),
        .neutral = QColor("#C6CAD3"),
    };
    return ground == Ground::dark ? dark : light;
}

std::vector<ColourPair> pairsInUse(const Palette& p)
{
    using enum ColourPair::Kind;
    std::vector<ColourPair> pairs{
        {"text on a main control", p.onDeep, p.deep, text},
        {"text on a main control held down", p.onDeep, p.deepHeld, text},
        {"blocks of her own level", p.onDeep, p.deep, graphic},
    };
    // Everything that is read may stand on the window, on a sheet, and on a sheet set apart.
    for (const QColor& ground : {p.paper, p.sheet, p.quiet}) {
        pairs.insert(pairs.end(), {
                                      {"text", p.ink, ground, text},
                                      {"second text", p.secondInk, ground, text},
                                      {"name of a plain control", p.deep, ground, text},
                                      {"words: easy to hear", p.easy, ground, text},
                                      {"words: a little more", p.littleMore, ground, text},
                                      {"words: plenty", p.plenty, ground, text},
                                      {"words: not judged", p.neutral, ground, text},
                                      {"outline of a control, band edge, rail", p.deep2, ground, graphic},
                                      {"focus ring, main control", p.deep, ground, graphic},
                                      {"bar under a stretched vowel", p.stretch, ground, graphic},
                                      {"outline of a meter, usual level", p.dashes, ground, graphic},
                                      {"column: easy to hear", p.easy, ground, graphic},
                                      {"column: a little more", p.littleMore, ground, graphic},
                                      {"column: plenty", p.plenty, ground, graphic},
                                      {"sign: not judged", p.neutral, ground, graphic},
                                  });
    }
    return pairs;
}

} // namespace vh::look
