#pragma once
// What Qt's PDF writer cannot say, added to the file that it wrote: the language, a tree of what is a heading, a
// paragraph or a picture in reading order (tagged PDF, ISO 32000-1 clause 14.8), a list of contents, that the title is
// to be shown, spaces that are spaces, and a date that does not depend on when the file was made. The painter leaves
// numbered marks in the page (leaveMark); here they become marked content. Rewrites the file's list of objects;
// everything else stays as Qt wrote it. Pure functions, but leaveMark, which needs a painter. Any thread.
#include "app/handout/flow.h"

#include <QByteArray>
#include <QDate>
#include <QRectF>

#include <optional>

namespace vh::handout
{

struct Mark {
    ElementRef element; ///< null: for the eye only
    QRectF where;       ///< in pt, from the page's lower left corner
};

struct OutlineEntry {
    QString title;
    std::size_t page = 0;
    double top = 0; ///< in pt, from the page's lower edge
};

struct PdfExtras {
    QString language;
    QDate date; ///< null: Qt's own, the moment of making
    std::vector<Mark> marks;
    std::vector<OutlineEntry> outline;
};

/// What is painted from here on, until the next mark on this page, belongs to PdfExtras::marks[number]. The mark stands
/// far off the page and is gone from the finished file.
void leaveMark(QPainter& painter, std::size_t number);

/// Nothing when the file is not laid out as Qt 6.4 does it, or a mark is missing: then there is only the plain one.
std::optional<QByteArray> withExtras(const QByteArray& plain, const PdfExtras& extras);

} // namespace vh::handout
