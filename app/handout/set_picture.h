#pragma once
// A picture on paper: drawings stay drawings (vectors), photographs come at print resolution and no finer.
// Needs a QGuiApplication.
#include "app/handout/flow.h"

#include <QSizeF>

#include <optional>

namespace vh::handout
{

struct PictureFrame {
    double left = 0;
    QSizeF most;   ///< as large as fits in this
    int dpi = 300; ///< of photographs
};

/// Nothing when the file is missing or no picture.
std::optional<Piece> setPicture(const QString& path, const PictureFrame& frame, const ElementRef& element);

} // namespace vh::handout
