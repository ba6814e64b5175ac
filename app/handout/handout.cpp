#include "app/handout/handout_flow.h"

#include "app/look/type.h"

#include <QPainter>

#include <algorithm>
#include <array>

namespace vh::handout
{

namespace
{

/// At the foot of each page: the class and which page this is.
void drawFoot(QPainter& painter, const HandoutParts& parts, int page, int pages)
{
    const double baseline = parts.shape.size.height() - parts.shape.foot - pt(kLeast * 0.3);
    const QString number = parts.words.page.arg(page).arg(pages);
    const double numberLeft = parts.right() - widthOf(number, kQuiet);
    const QString title = QString::fromStdString(parts.script.title);
    if (page > 1 && parts.textLeft() + widthOf(title, kQuiet) + mm(8) < numberLeft)
        drawWords(painter, title, kQuiet, parts.textLeft(), baseline);
    drawWords(painter, number, kQuiet, numberLeft, baseline);
}

Result<QByteArray> printed(const HandoutParts& parts)
{
    Flow flow;
    addFront(flow, parts);
    addSections(flow, parts);
    return print(flow, {parts.options.paper, parts.shape, QString::fromStdString(parts.script.title),
                        QString::fromStdString(parts.script.language), parts.options.date,
                        [&parts](QPainter& painter, const PageShape&, int page, int pages) {
                            drawFoot(painter, parts, page, pages);
                        }});
}

} // namespace

Paper paperOf(const QLocale& locale)
{
    // Unicode CLDR 44, supplementalData.xml, paperSize type="US-Letter".
    static constexpr std::array kLetter{
        QLocale::Belize,     QLocale::Canada,     QLocale::Chile,        QLocale::Colombia, QLocale::CostaRica,
        QLocale::Guatemala,  QLocale::Mexico,     QLocale::Nicaragua,    QLocale::Panama,   QLocale::Philippines,
        QLocale::PuertoRico, QLocale::ElSalvador, QLocale::UnitedStates, QLocale::Venezuela};
    return std::find(kLetter.begin(), kLetter.end(), locale.territory()) == kLetter.end() ? Paper::a4 : Paper::letter;
}

Result<QByteArray> handoutPdf(const ClassScript& script, const QString& folder, const HandoutOptions& options)
{
    if (!look::loadTypeface()) // before anything is measured
        return fail("typeface-missing", "The typeface of this program is missing or damaged. Please install it anew.");
    for (const int dpi : {300, 200, 120, 72}) {
        auto pdf = printed(
            {script, folder, options, wordsFor(options.words, script.language), handoutShape(options.paper), dpi});
        if (!pdf || pdf->size() <= kMostHandoutBytes)
            return pdf;
    }
    return fail("handout-too-large", "The handout of this class is too large a file. Please use smaller pictures.");
}

} // namespace vh::handout
