#include "tests/app/pictures/picture_scenes.h"

#include "app/pictures/large_page.h"
#include "app/pictures/picture_sheet.h"
#include "app/pictures/send_page.h"
#include "app/pictures/shown_view.h"
#include "app/pictures/window_strip.h"
#include "app/widgets/class_sheet.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLinearGradient>
#include <QPainter>
#include <QPainterPath>
#include <QVBoxLayout>

namespace vh::testing
{

using namespace vh::pictures;

QImage gardenPicture(QSize size)
{
    QImage image(size, QImage::Format_RGB32);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(size.width() / 1600.0, size.height() / 1200.0);
    QLinearGradient sky(0, 0, 0, 620);
    sky.setColorAt(0, QColor(126, 170, 205));
    sky.setColorAt(1, QColor(238, 222, 196));
    painter.fillRect(0, 0, 1600, 620, sky);
    painter.setPen(Qt::NoPen);
    QPainterPath hills;
    hills.moveTo(0, 560);
    hills.cubicTo(300, 380, 520, 520, 800, 470);
    hills.cubicTo(1100, 400, 1300, 560, 1600, 450);
    hills.lineTo(1600, 700);
    hills.lineTo(0, 700);
    painter.fillPath(hills, QColor(96, 128, 120));
    QLinearGradient water(0, 600, 0, 900);
    water.setColorAt(0, QColor(150, 182, 190));
    water.setColorAt(1, QColor(84, 124, 140));
    painter.fillRect(0, 600, 1600, 300, water);
    painter.fillRect(0, 860, 1600, 340, QColor(88, 78, 52));
    for (int row = 0; row < 4; ++row)
        for (int plant = 0; plant < 14; ++plant) {
            const double x = 60 + plant * 115 + (row % 2) * 50;
            const double y = 920 + row * 75;
            painter.setBrush(QColor(70 + 12 * row, 120 + 6 * plant, 58));
            painter.drawEllipse(QPointF(x, y), 34, 46);
            painter.setBrush(QColor(198, 70 + 8 * row, 56));
            painter.drawEllipse(QPointF(x + 14, y - 16), 9, 9);
        }
    painter.fillRect(1180, 560, 260, 320, QColor(150, 108, 78));
    QPainterPath roof;
    roof.moveTo(1140, 570);
    roof.lineTo(1310, 440);
    roof.lineTo(1480, 570);
    painter.fillPath(roof, QColor(110, 58, 48));
    painter.fillRect(1270, 700, 80, 180, QColor(70, 50, 40));
    return image;
}

namespace
{

constexpr auto kLongCaption =
    "My sister's plot by the lake on the first warm morning of the year: beans in four rows, the shed that our "
    "neighbour painted last autumn, and behind it the hills where we used to walk to school when the ferry did not "
    "run.";

std::unique_ptr<QWidget> sendPage(const SendView& view)
{
    auto page = std::make_unique<SendPage>();
    page->setObjectName("room");
    page->setAttribute(Qt::WA_StyledBackground);
    page->setState(view);
    return page;
}

std::unique_ptr<QWidget> largePage(const LargeView& view)
{
    auto page = std::make_unique<LargePage>();
    page->setObjectName("room");
    page->setAttribute(Qt::WA_StyledBackground);
    page->setState(view);
    return page;
}

SheetView sheet(const QString& caption)
{
    SheetView view;
    view.item = 1;
    view.head = "From Ruth, 2 min ago";
    view.picture = gardenPicture();
    view.edit.caption = caption;
    return view;
}

std::unique_ptr<QWidget> sheetPage(const SheetView& view, bool cutting = false)
{
    auto page = std::make_unique<PictureSheet>();
    page->setState(view);
    if (cutting) {
        QKeyEvent press(QEvent::KeyPress, Qt::Key_C, Qt::NoModifier);
        QCoreApplication::sendEvent(page.get(), &press);
    }
    return page;
}

std::unique_ptr<QWidget> shown(const ShownPicture& picture)
{
    auto view = std::make_unique<ShownView>();
    view->setState(picture);
    return view;
}

std::unique_ptr<QWidget> strip(const WindowStripView& view)
{
    auto page = std::make_unique<QWidget>();
    page->setObjectName("room");
    page->setAttribute(Qt::WA_StyledBackground);
    auto* column = new QVBoxLayout(page.get());
    auto* row = new WindowStrip(page.get());
    row->setState(view);
    column->addWidget(row);
    column->addStretch(1);
    return page;
}

/// As a home shows it in class.
std::unique_ptr<QWidget> inClass(const QString& caption)
{
    auto sheet = std::make_unique<ClassSheet>();
    ClassSheet::State state;
    state.cue.words = "A picture";
    state.picture = gardenPicture();
    state.pictureDescription = "A picture. Ruth: My beans";
    state.caption = caption;
    sheet->setState(state);
    return sheet;
}

} // namespace

std::vector<PictureScene> pictureScenes()
{
    using Stage = SendView::Stage;
    SheetView changed = sheet(kLongCaption);
    changed.edit = turned(changed.edit, 1);
    changed.edit.cut = QRectF(0.1, 0.2, 0.7, 0.8);
    changed.canUndo = true;
    changed.aside = "Set aside by Bartholomea von Hoh\u2026";
    changed.head = "From Bartholomea von Hoh\u2026, 12 min ago";
    changed.notice = "Somebody else has changed this picture meanwhile. Please look at it once more.";
    SheetView cutting = sheet("My beans");
    cutting.edit.cut = QRectF(0.1, 0.2, 0.7, 0.8);
    cutting.canUndo = true;
    SheetView busy = sheet("My beans");
    busy.busy = true;
    busy.notice = "The picture is being made as you changed it.";
    SheetView coming = sheet({});
    coming.picture = {};
    coming.words = "The picture is on its way.";
    return {
        {"send-choosing", true, [] { return sendPage({}); }},
        {"send-wrong", true,
         [] {
             return sendPage(
                 {Stage::choosing, "This is not a picture that can be sent. Photographs (JPEG), PNG and GIF can.", {}});
         }},
        {"send-preparing", true,
         [] {
             return sendPage({Stage::preparing, {}, {}});
         }},
        {"send-looking", true,
         [] {
             return sendPage({Stage::looking, {}, gardenPicture()});
         }},
        {"send-looking-upright", true,
         [] {
             return sendPage({Stage::looking, {}, gardenPicture({900, 1600})});
         }},
        {"send-agreeing", true,
         [] {
             return sendPage({Stage::agreeing, {}, gardenPicture()});
         }},
        {"large-from-another", true,
         [] {
             return largePage({gardenPicture(), {}, "Ruth", "My beans", {}, false, false});
         }},
        {"large-long", true,
         [] {
             return largePage({gardenPicture({900, 1600}),
                               {},
                               "Bartholomea von Hohenstein-Lichtenberg",
                               kLongCaption,
                               {},
                               false,
                               false});
         }},
        {"large-own", true,
         [] {
             return largePage({gardenPicture(), {}, {}, "My beans", "A helper looks at it first.", true, true});
         }},
        {"large-coming", true,
         [] {
             return largePage({{}, "The picture is on its way.", "Ruth", "My beans", {}, false, false});
         }},
        {"sheet", false, [] { return sheetPage(sheet("My beans, on the first warm morning of the year")); }},
        {"sheet-changed", false, [changed] { return sheetPage(changed); }},
        {"sheet-cutting", false, [cutting] { return sheetPage(cutting, true); }},
        {"sheet-busy", false, [busy] { return sheetPage(busy); }},
        {"sheet-coming", false, [coming] { return sheetPage(coming); }},
        {"strip", false,
         [] {
             return strip({1, gardenPicture({160, 120}), "Ruth", "My beans", 0, false});
         }},
        {"strip-many", false,
         [] {
             return strip({1, gardenPicture({120, 160}), "Bartholomea von Hohenstein", kLongCaption, 12, false});
         }},
        {"strip-shown", false,
         [] {
             return strip({1, gardenPicture({160, 120}), "Ruth", "My beans", 1, true});
         }},
        {"in-class", false, [] { return inClass("Ruth: My beans"); }},
        {"in-class-long", false, [] { return inClass(captionOf("Ruth", kLongCaption)); }},
        {"shown", false,
         [] {
             return shown({gardenPicture(), {}, "Ruth: My beans"});
         }},
        {"shown-long", false,
         [] {
             return shown({gardenPicture({900, 1600}), {}, captionOf("Ruth", kLongCaption)});
         }},
        {"shown-coming", false,
         [] {
             return shown({{}, "The picture is on its way.", "Ruth: My beans"});
         }},
    };
}

} // namespace vh::testing
