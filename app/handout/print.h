#pragma once
// A flow put onto pages and written as a PDF: page size exactly that of the paper, typeface embedded, tagged
// (pdf_tags.h). Needs a QGuiApplication. Any one thread that may use QPainter. Failure: typeface-missing.
#include "app/handout/flow.h"
#include "app/handout/handout.h"

#include <QSizeF>

namespace vh::handout
{

/// In units. Nothing that is printed stands outside the margins.
struct PageShape {
    QSizeF size;
    double left = 0;
    double right = 0;
    double top = 0;
    double bottom = 0; ///< to where the text ends; the foot stands within it
    double foot = 0;   ///< from the page's lower edge to the lower end of the foot

    [[nodiscard]] double width() const { return size.width() - left - right; }
    [[nodiscard]] double height() const { return size.height() - top - bottom; }
};
/// The size of the paper in whole points, as printers and readers know it: 595 x 842, 612 x 792.
QSizeF sizeOf(Paper paper);

struct PrintSetup {
    Paper paper = Paper::a4;
    PageShape shape;
    QString title;
    QString language;
    QDate date;
    /// Within the margins, on every page: numbers from 1.
    std::function<void(QPainter& painter, const PageShape& shape, int page, int pages)> foot;
};

Result<QByteArray> print(const Flow& flow, const PrintSetup& setup);

} // namespace vh::handout
