#include "app/handout/handout_flow.h"

#include "app/handout/set_picture.h"

#include <QDir>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <optional>

namespace vh::handout
{

namespace
{

using Kind = Element::Kind;

constexpr double kLineToWriteOn = mm(13); ///< from line to line, for a hand that trembles
constexpr int kLinesForWords = 3;
constexpr int kLinesForNotes = 2;
constexpr double kMostPictureHeight = mm(68);

void append(Block& block, std::vector<Piece> pieces)
{
    block.pieces.insert(block.pieces.end(), std::make_move_iterator(pieces.begin()),
                        std::make_move_iterator(pieces.end()));
}

bool isSaid(const Step& step)
{
    return timesOf(step).rounds > 0;
}

/// How often the steps of this section are said, where it is the same for all that are said at all.
std::optional<Times> sameForAll(const Section& section)
{
    std::optional<Times> same;
    for (const Step& step : section.steps) {
        const Times times = timesOf(step);
        if (times.rounds == 0)
            continue;
        if (same && *same != times)
            return {};
        same = times;
    }
    return same;
}

/// A heading needs a word on what kind of exercise it is, unless every class has it in the same place.
bool namesItsKind(SectionKind kind)
{
    return kind != SectionKind::opening && kind != SectionKind::closing && kind != SectionKind::pause;
}

/// People answer in words of their own; nothing stands there to be said.
bool isAskedFor(SectionKind kind)
{
    return kind == SectionKind::categoryNaming || kind == SectionKind::openTalk;
}

Piece room(double height)
{
    return {height, nullptr, {}};
}

Piece writingLine(const HandoutParts& parts)
{
    return {kLineToWriteOn, nullptr, [&parts](QPainter& painter, double top) {
                painter.setPen(QPen(QColor(Inks::second), pt(0.9)));
                painter.drawLine(QPointF(parts.textLeft(), top + kLineToWriteOn),
                                 QPointF(parts.right(), top + kLineToWriteOn));
            }};
}

class Sections
{
public:
    Sections(Flow& flow, const HandoutParts& parts) : m_flow(flow), m_parts(parts) {}

    void add(const Section& section)
    {
        if (section.kind == SectionKind::pause)
            return addPause(section);
        const auto same = sameForAll(section);
        addHeading(section, same);
        for (const Step& step : section.steps)
            addStep(section, step, same.has_value());
    }

private:
    /// A quiet line across the page with a drop at its beginning: nothing to do here but rest.
    void addPause(const Section& section)
    {
        const HandoutParts& parts = m_parts;
        const auto element = elementOf(Kind::paragraph);
        Block block;
        block.before = pt(22);
        auto pieces = setText(QString::fromStdString(section.title), kQuiet, parts.textLeft() + mm(9),
                              parts.textWidth() - mm(9), element);
        for (const Step& step : section.steps)
            if (!step.text.empty())
                for (Piece& piece : setText(QString::fromStdString(step.text), kQuiet, parts.textLeft() + mm(9),
                                            parts.textWidth() - mm(9), element))
                    pieces.push_back(std::move(piece));
        const double from = parts.textLeft() + mm(9) + widthOf(QString::fromStdString(section.title), kQuiet) + mm(5);
        block.pieces.push_back(
            {0, nullptr, [&parts, from](QPainter& painter, double top) { drawCalm(painter, parts, from, top); }});
        append(block, std::move(pieces));
        m_flow.push_back(std::move(block));
    }

    static void drawCalm(QPainter& painter, const HandoutParts& parts, double from, double top)
    {
        const double middle = top + pt(kQuiet.points * kQuiet.leading) / 2;
        const QPointF tip(parts.textLeft() + mm(3), middle - mm(3.4));
        QPainterPath drop(tip);
        drop.cubicTo(tip + QPointF(mm(0.6), mm(1.8)), tip + QPointF(mm(2.4), mm(2.8)), tip + QPointF(mm(2.4), mm(4.6)));
        drop.cubicTo(tip + QPointF(mm(2.4), mm(6.1)), tip + QPointF(mm(1.2), mm(6.9)), tip + QPointF(0, mm(6.9)));
        drop.cubicTo(tip + QPointF(mm(-1.2), mm(6.9)), tip + QPointF(mm(-2.4), mm(6.1)),
                     tip + QPointF(mm(-2.4), mm(4.6)));
        drop.cubicTo(tip + QPointF(mm(-2.4), mm(2.8)), tip + QPointF(mm(-0.6), mm(1.8)), tip);
        painter.setPen(QPen(QColor(Inks::second), pt(1.3)));
        painter.setBrush(Qt::NoBrush);
        painter.drawPath(drop);
        if (from >= parts.right() - mm(10))
            return;
        QPainterPath wave(QPointF(from, middle));
        constexpr double kHalf = mm(5);
        double up = -mm(1.1);
        for (double x = from; x + kHalf <= parts.right(); x += kHalf, up = -up)
            wave.cubicTo(x + kHalf / 3, middle + up, x + kHalf * 2 / 3, middle + up, x + kHalf, middle);
        painter.drawPath(wave);
    }

    void addHeading(const Section& section, const std::optional<Times>& same)
    {
        const HandoutParts& parts = m_parts;
        Block block;
        block.before = pt(30);
        block.keepsWithNext = true;
        block.outline = QString::fromStdString(section.title);
        block.pieces.push_back({pt(1.5), nullptr, [&parts](QPainter& painter, double top) {
                                    painter.fillRect(QRectF(parts.textLeft(), top, parts.textWidth(), pt(1.5)),
                                                     QColor(Inks::deep));
                                }});
        block.pieces.push_back(room(pt(7)));
        append(block, setText(block.outline, kHeading, parts.textLeft(), parts.textWidth(), elementOf(Kind::heading)));
        const QString kind = namesItsKind(section.kind) ? parts.words.kind(section.kind) + '.' : QString();
        const QString below = belowHeading(kind, same);
        if (!below.isEmpty())
            append(block, setText(below, kQuiet, parts.textLeft(), parts.textWidth(), elementOf(Kind::paragraph)));
        m_flow.push_back(std::move(block));
    }

    /// What kind it is, how often, and who: as much on a line as fits, broken nowhere but between them.
    [[nodiscard]] QString belowHeading(const QString& kind, const std::optional<Times>& times) const
    {
        QStringList lines;
        const auto add = [&](const QString& words) {
            const QString longer = lines.isEmpty() ? words : lines.last() + QLatin1Char(' ') + words;
            if (words.isEmpty())
                return;
            if (!lines.isEmpty() && widthOf(longer, kQuiet) <= m_parts.textWidth())
                lines.last() = longer;
            else
                lines << words;
        };
        add(kind);
        if (times) {
            add(howOften(m_parts.words, *times));
            add(whoSays(m_parts.words, *times));
        }
        return lines.join(QLatin1Char('\n'));
    }

    void addStep(const Section& section, const Step& step, bool timesAreSaid)
    {
        Block block;
        block.before = pt(isSaid(step) ? 15 : 11);
        if (step.picture)
            addPicture(block, *step.picture);
        if (isAskedFor(section.kind) || timesOf(step).rounds == 0)
            addTold(block, step);
        else
            addSaid(block, step, timesAreSaid);
        addRoom(block, section.kind);
        m_flow.push_back(std::move(block));
    }

    /// The description stands below the picture for everybody; a screen reader reads it once, there.
    void addPicture(Block& block, const Picture& picture)
    {
        const HandoutParts& parts = m_parts;
        const QSizeF most(parts.textWidth() * 0.75, kMostPictureHeight);
        auto drawn =
            setPicture(QDir(parts.folder).filePath(QString::fromStdString(picture.file)),
                       {parts.textLeft(), most, parts.pictureDpi}, elementOf(Kind::figure, parts.words.picture));
        block.pieces.push_back(room(pt(8)));
        if (drawn) {
            block.pieces.push_back(std::move(*drawn));
            block.pieces.push_back(room(pt(6)));
        }
        append(block, setText(QString::fromStdString(picture.description), kQuiet, parts.textLeft(), parts.textWidth(),
                              elementOf(Kind::caption)));
        block.pieces.push_back(room(pt(10)));
    }

    /// Read by whoever leads, or a question that people answer in words of their own: running text.
    void addTold(Block& block, const Step& step)
    {
        std::string text = step.text; // a line's end becomes a space, so the stretches stay where they are
        std::replace(text.begin(), text.end(), '\n', ' ');
        TextStyle style = timesOf(step).rounds > 0 ? kSaid : kPlain;
        style.turnover = 0;
        append(block, setMarked(text, step.stretches, style, m_parts.textLeft(), m_parts.textWidth(),
                                elementOf(Kind::paragraph)));
    }

    /// Line by line, as it is breathed, with a line beside it and how often.
    void addSaid(Block& block, const Step& step, bool timesAreSaid)
    {
        const HandoutParts& parts = m_parts;
        const Times times = timesOf(step);
        if (!timesAreSaid)
            append(block, setText(belowHeading({}, times), kQuiet, parts.textLeft(), parts.textWidth(),
                                  elementOf(Kind::paragraph)));
        if (times.rounds > 1)
            block.pieces.push_back({0, nullptr, [&parts, rounds = times.rounds](QPainter& painter, double top) {
                                        drawInMargin(painter, parts, QStringLiteral("%1\u00D7").arg(rounds), kSaid,
                                                     top);
                                    }});
        for (Piece& line : setMarked(step.text, step.stretches, kSaid, parts.textLeft(), parts.textWidth(),
                                     elementOf(Kind::paragraph))) {
            block.pieces.push_back({0, nullptr, [&parts, height = line.height](QPainter& painter, double top) {
                                        drawSaidLine(painter, parts, top, height);
                                    }});
            block.pieces.push_back(std::move(line));
        }
    }

    void addRoom(Block& block, SectionKind kind)
    {
        const int lines = kind == SectionKind::categoryNaming ? kLinesForWords
                          : kind == SectionKind::openTalk     ? kLinesForNotes
                                                              : 0;
        for (int line = 0; line < lines; ++line)
            block.pieces.push_back(writingLine(m_parts));
        if (lines > 0)
            block.pieces.push_back(room(pt(6)));
    }

    Flow& m_flow;
    const HandoutParts& m_parts;
};

} // namespace

PageShape handoutShape(Paper paper)
{
    return {sizeOf(paper), mm(15), mm(16), mm(19), mm(27), mm(13)};
}

void drawSaidLine(QPainter& painter, const HandoutParts& parts, double top, double height)
{
    painter.fillRect(QRectF(parts.textLeft() - kRuleApart - kRuleWide, top, kRuleWide, height), QColor(Inks::deep));
}

void drawInMargin(QPainter& painter, const HandoutParts& parts, const QString& words, const TextStyle& line, double top)
{
    const TextStyle style{.points = kLeast, .bold = true, .ink = Inks::deep};
    drawWords(painter, words, style, parts.textLeft() - kRuleApart - kRuleWide - mm(1.2) - widthOf(words, style),
              top + baselineOf(line));
}

void addSections(Flow& flow, const HandoutParts& parts)
{
    Sections sections(flow, parts);
    for (const Section& section : parts.script.sections)
        sections.add(section);
}

} // namespace vh::handout
