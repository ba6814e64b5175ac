#include "app/handout/handout_flow.h"

#include "common/script/marks.h"

#include <QPainter>
#include <QPainterPath>

namespace vh::handout
{

namespace
{

using Kind = Element::Kind;

void append(Block& block, std::vector<Piece> pieces)
{
    block.pieces.insert(block.pieces.end(), std::make_move_iterator(pieces.begin()),
                        std::make_move_iterator(pieces.end()));
}

Piece rule(double left, double right, double thick)
{
    return {thick, nullptr, [=](QPainter& painter, double top) {
                painter.fillRect(QRectF(left, top, right - left, thick), QColor(Inks::deep));
            }};
}

Piece room(double height)
{
    return {height, nullptr, {}};
}

QString joined(const QStringList& parts)
{
    QStringList said = parts;
    said.removeAll(QString());
    return said.join(QStringLiteral(" \u00B7 "));
}

void addTitle(Flow& flow, const HandoutParts& parts)
{
    Block block;
    const QString day = parts.options.date.isNull() ? QString() : dateWords(parts.words, parts.options.date);
    const auto add = [&](const QString& text, const TextStyle& style, Kind kind) {
        if (!text.isEmpty())
            append(block, setText(text, style, parts.textLeft(), parts.textWidth(), elementOf(kind)));
    };
    block.pieces.push_back(rule(parts.textLeft(), parts.right(), pt(5)));
    block.pieces.push_back(room(pt(10)));
    add(joined({parts.options.group, day}), kQuiet, Kind::paragraph);
    block.pieces.push_back(room(pt(8)));
    add(QString::fromStdString(parts.script.title), kTitle, Kind::title);
    block.pieces.push_back(room(pt(6)));
    add(joined({QString::fromStdString(parts.script.theme), parts.words.minutes.arg(parts.script.plannedMinutes)}),
        kQuiet, Kind::paragraph);
    if (!speaks(parts.words, QString::fromStdString(parts.script.language)))
        add(parts.words.classIsIn.arg(languageName(parts.script.language)), kQuiet, Kind::paragraph);
    flow.push_back(std::move(block));
}

/// What has to be read before anything else stands in a frame: its pieces together, each drawing its own part of it.
void addCautions(Flow& flow, const HandoutParts& parts)
{
    constexpr double kInside = mm(5);
    const double left = parts.textLeft();
    const double width = parts.textWidth();
    Block block;
    block.before = pt(18);
    block.pieces.push_back(room(mm(3)));
    append(block, setText(parts.words.beforeYouBegin, kSmallHeading, left + kInside, width - 2 * kInside,
                          elementOf(Kind::heading)));
    for (const QString& caution : parts.words.cautions) {
        block.pieces.push_back(room(pt(5)));
        append(block, setText(caution, {.points = kLeast, .leading = 1.4}, left + kInside, width - 2 * kInside,
                              elementOf(Kind::paragraph)));
    }
    block.pieces.push_back(room(mm(3.5)));
    const double height = block.height();
    block.pieces.insert(block.pieces.begin(), {0, nullptr, [=](QPainter& painter, double top) {
                                                   painter.setPen(QPen(QColor(Inks::deep), pt(2)));
                                                   painter.setBrush(Qt::NoBrush);
                                                   painter.drawRoundedRect(QRectF(left, top, width, height), mm(2.5),
                                                                           mm(2.5));
                                               }});
    flow.push_back(std::move(block));
}

void addSmallHeading(Flow& flow, const HandoutParts& parts, const QString& words)
{
    Block block;
    block.before = pt(16);
    block.keepsWithNext = true;
    append(block, setText(words, kSmallHeading, parts.textLeft(), parts.textWidth(), elementOf(Kind::heading)));
    flow.push_back(std::move(block));
}

/// Two columns: what stands on the left is as wide for all of them.
struct Row {
    std::vector<Piece> left;
    std::vector<Piece> right;
    bool pointedAt = false;
};

void addRow(Flow& flow, const HandoutParts& parts, Row row, bool last)
{
    Block block;
    block.keepsWithNext = !last;
    const std::size_t lines = std::max(row.left.size(), row.right.size());
    for (std::size_t line = 0; line < lines; ++line) {
        const bool both = line < row.left.size() && line < row.right.size();
        if (both) {
            row.left[line].height = 0; // its neighbour is as high
            if (row.pointedAt && line == 0)
                block.pieces.push_back({0, nullptr, [&parts](QPainter& painter, double top) {
                                            const double high = pt(12);
                                            const double middle = top + baselineOf(kPlain) - pt(kPlain.points * 0.27);
                                            const double from = parts.textLeft() - mm(6);
                                            QPainterPath arrow(QPointF(from, middle - high / 2));
                                            arrow.lineTo(from + high * 0.8, middle);
                                            arrow.lineTo(from, middle + high / 2);
                                            painter.fillPath(arrow, QColor(Inks::main));
                                        }});
        }
        if (line < row.left.size())
            block.pieces.push_back(std::move(row.left[line]));
        if (line < row.right.size())
            block.pieces.push_back(std::move(row.right[line]));
    }
    flow.push_back(std::move(block));
}

void addWeek(Flow& flow, const HandoutParts& parts)
{
    const auto& week = parts.options.week;
    if (week.empty())
        return;
    addSmallHeading(flow, parts, parts.words.thisWeek);
    constexpr TextStyle kDay{.points = kLeast, .bold = true};
    const auto dayWords = [&](const PlannedDay& day) {
        return day.today ? QStringLiteral("%1, %2").arg(day.day, parts.words.today) : day.day;
    };
    double widest = 0;
    for (const PlannedDay& day : week)
        widest = std::max(widest, widthOf(dayWords(day), kDay));
    const double column = std::min(widest, parts.textWidth() * 0.45) + mm(6);
    for (std::size_t i = 0; i < week.size(); ++i) {
        const auto element = elementOf(Kind::paragraph);
        addRow(flow, parts,
               {setText(dayWords(week[i]), kDay, parts.textLeft(), column - mm(6), element),
                setText(week[i].title, kPlain, parts.textLeft() + column, parts.textWidth() - column, element),
                week[i].today},
               i + 1 == week.size());
    }
}

void addHowToRead(Flow& flow, const HandoutParts& parts)
{
    addSmallHeading(flow, parts, parts.words.howToRead);
    const auto sample = readMarks(parts.words.holdSample.toStdString());
    const double column = mm(34);
    const auto means = [&](const QString& words, const ElementRef& element) {
        return setText(words, kPlain, parts.textLeft() + column, parts.textWidth() - column, element);
    };
    const auto element = elementOf(Kind::paragraph);
    addRow(flow, parts,
           {sample ? setMarked(sample->text, sample->stretches, {.points = kLeast, .bold = true}, parts.textLeft(),
                               column, element)
                   : std::vector<Piece>{},
            means(parts.words.holdMeans, element)},
           false);
    Row line{{}, means(parts.words.lineMeans, elementOf(Kind::paragraph))};
    line.left.push_back({0, nullptr, [&parts](QPainter& painter, double top) {
                             painter.fillRect(QRectF(parts.textLeft(), top + pt(4), kRuleWide, pt(kLeast * 1.1)),
                                              QColor(Inks::deep));
                         }});
    addRow(flow, parts, std::move(line), false);
    const auto number = elementOf(Kind::paragraph);
    addRow(flow, parts,
           {setText(QStringLiteral("2\u00D7"), {.points = kLeast, .bold = true}, parts.textLeft(), column, number),
            means(parts.words.timesMean, number)},
           true);
}

} // namespace

void addFront(Flow& flow, const HandoutParts& parts)
{
    addTitle(flow, parts);
    addCautions(flow, parts);
    addWeek(flow, parts);
    addHowToRead(flow, parts);
}

} // namespace vh::handout
