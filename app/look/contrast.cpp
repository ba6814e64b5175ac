#include "app/look/contrast.h"

#include <algorithm>
#include <cmath>

namespace vh::look
{

namespace
{

// WCAG 2.2 glossary, "relative luminance". The threshold is the one of IEC 61966-2-1 (0.04045), as the 2021 erratum has
// it.
double linear(double channel)
{
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

} // namespace

double relativeLuminance(const QColor& colour)
{
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF());
}

double contrastRatio(const QColor& one, const QColor& other)
{
    const auto [darker, lighter] = std::minmax({relativeLuminance(one), relativeLuminance(other)});
    return (lighter + 0.05) / (darker + 0.05);
}

} // namespace vh::look
