#pragma once
// Contrast of two colours, by WCAG 2.2 (W3C Recommendation, 5 October 2023): "relative luminance" and "contrast ratio"
// in its glossary. Opaque sRGB colours only; the result runs from 1 (alike) to 21 (black on white). Any thread.
#include <QColor>

namespace vh::look
{

/// Success criterion 1.4.6 (enhanced): text on its ground.
inline constexpr double kTextContrast = 7.0;
/// Success criterion 1.4.11: graphics that carry meaning, on the ground they stand on.
inline constexpr double kGraphicContrast = 3.0;

double relativeLuminance(const QColor& colour);
double contrastRatio(const QColor& one, const QColor& other);

} // namespace vh::look
