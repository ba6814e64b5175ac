#include "common/script/script.h"

#include <array>

namespace vh
{

namespace
{
constexpr std::array<std::string_view, 12> kSectionKinds{"opening",  "warm-up",   "sustained-vowel", "pitch-glide",
                                                         "counting", "phrases",   "category-naming", "back-of-tongue",
                                                         "passage",  "open-talk", "pause",           "closing"};
constexpr std::array<std::string_view, 4> kTurnKinds{"listen", "ready", "withMe", "yours"};

template <class Kind, std::size_t N>
std::optional<Kind> kindOf(const std::array<std::string_view, N>& names, std::string_view name)
{
    for (std::size_t i = 0; i < N; ++i)
        if (names[i] == name)
            return static_cast<Kind>(i);
    return std::nullopt;
}
} // namespace

std::string_view nameOf(SectionKind kind)
{
    return kSectionKinds[static_cast<std::size_t>(kind)];
}

std::string_view nameOf(TurnKind kind)
{
    return kTurnKinds[static_cast<std::size_t>(kind)];
}

std::optional<SectionKind> sectionKindOf(std::string_view name)
{
    return kindOf<SectionKind>(kSectionKinds, name);
}

std::optional<TurnKind> turnKindOf(std::string_view name)
{
    return kindOf<TurnKind>(kTurnKinds, name);
}

} // namespace vh
