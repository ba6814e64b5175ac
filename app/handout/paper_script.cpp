#include "app/handout/paper_script.h"

#include "app/handout/handout_words.h"
#include "app/handout/print.h"
#include "app/handout/set_text.h"
#include "app/look/type.h"
#include "common/script/plan.h"

#include <QPainter>

#include <cmath>

namespace vh::handout
{

namespace
{

using Kind = Element::Kind;

constexpr TextStyle kSay{.points = 14, .leading = 1.35, .turnover = mm(5)};
constexpr TextStyle kFine{.points = 11, .ink = Inks::second, .leading = 1.35};
constexpr TextStyle kNote{.points = 11.5, .leading = 1.35};
constexpr TextStyle kTime{.points = 12, .bold = true, .leading = 1.35};
constexpr TextStyle kSection{.points = 16, .bold = true, .ink = Inks::deep, .leading = 1.35};
constexpr TextStyle kTitle{.points = 22, .bold = true, .ink = Inks::deep, .leading = 1.2};
constexpr double kTimeColumn = mm(20);

/// "4:30": minutes and seconds since the start.
QString minutesAndSeconds(Millis time)
{
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(time).count();
    return QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

/// Seconds as they are read aloud: halves at most.
QString secondsWords(Millis time, const HandoutWords& words)
{
    const QLocale locale(words.language);
    const double halves = std::round(static_cast<double>(time.count()) / 500.0) / 2.0;
    return locale.toString(halves, 'f', halves == std::floor(halves) ? 0 : 1);
}

QString roundWords(const Round& round, int times, const HandoutWords& words)
{
    QStringList turns;
    for (const Turn& turn : round.turns)
        turns << QStringLiteral("%1 %2").arg(words.turn(turn.kind), secondsWords(turn.planned, words));
    QString said = turns.join(QStringLiteral(" \u00B7 "));
    if (round.moreVoice)
        said += QStringLiteral(" (%1)").arg(words.shortMoreVoice);
    if (times > 1)
        said = QStringLiteral("%1\u00D7 %2").arg(times).arg(said);
    return said.replace(QLatin1Char(' '), QChar::Nbsp); // a round stays on one line
}

/// The rounds of a step, those that are the same one after the other said once.
QString roundsWords(const Step& step, const HandoutWords& words)
{
    QStringList lines;
    for (std::size_t at = 0; at < step.rounds.size();) {
        std::size_t end = at + 1;
        while (end < step.rounds.size() && step.rounds[end] == step.rounds[at])
            ++end;
        lines << roundWords(step.rounds[at], static_cast<int>(end - at), words);
        at = end;
    }
    return lines.join(QStringLiteral("  |  "));
}

class PaperScript
{
public:
    PaperScript(const ClassScript& script, const PaperScriptOptions& options, const HandoutWords& words)
        : m_script(script), m_options(options), m_words(words), m_plan(planOf(script))
    {
        m_shape = {sizeOf(options.paper), mm(13), mm(14), mm(13), mm(19), mm(10)};
    }

    Result<QByteArray> run()
    {
        addHead();
        for (std::size_t section = 0; section < m_script.sections.size(); ++section)
            addSection(section);
        addEnd();
        return print(m_flow, {m_options.paper, m_shape, title(), QString::fromStdString(m_script.language),
                              m_options.date, [this](QPainter& painter, const PageShape&, int page, int pages) {
                                  drawFoot(painter, page, pages);
                              }});
    }

private:
    [[nodiscard]] double textLeft() const { return m_shape.left + kTimeColumn; }
    [[nodiscard]] double textWidth() const { return m_shape.width() - kTimeColumn; }
    [[nodiscard]] QString title() const
    {
        return QStringLiteral("%1 \u00B7 %2").arg(QString::fromStdString(m_script.title), m_words.paperScript);
    }

    void put(Block& block, const QString& text, const TextStyle& style, const ElementRef& element)
    {
        if (!text.isEmpty())
            for (Piece& piece : setText(text, style, textLeft(), textWidth(), element))
                block.pieces.push_back(std::move(piece));
    }

    /// Since the start, and on the clock on the wall below it where it is known when the class begins.
    void putTime(Block& block, Millis since, const TextStyle& beside)
    {
        QString clock;
        if (m_options.startsAt.isValid())
            clock = m_options.startsAt.addMSecs(static_cast<int>(since.count())).toString(QStringLiteral("HH:mm"));
        block.pieces.push_back(
            {0, elementOf(Kind::paragraph), [this, since, clock, beside](QPainter& painter, double top) {
                 const double baseline = top + baselineOf(beside);
                 drawWords(painter, minutesAndSeconds(since), kTime, m_shape.left, baseline);
                 if (!clock.isEmpty())
                     drawWords(painter, clock, kFine, m_shape.left, baseline + pt(kFine.points * 1.35));
             }});
    }

    void addHead()
    {
        Block block;
        const auto whole = [&](const QString& text, const TextStyle& style, Kind kind) {
            for (Piece& piece : setText(text, style, m_shape.left, m_shape.width(), elementOf(kind)))
                block.pieces.push_back(std::move(piece));
        };
        QStringList about{m_words.paperScript, m_options.group,
                          m_options.date.isNull() ? QString() : dateWords(m_words, m_options.date),
                          m_options.startsAt.isValid() ? m_options.startsAt.toString(QStringLiteral("HH:mm"))
                                                       : QString(),
                          lengthWords(m_plan.total)};
        about.removeAll(QString());
        whole(QString::fromStdString(m_script.title), kTitle, Kind::title);
        whole(about.join(QStringLiteral(" \u00B7 ")), kFine, Kind::paragraph);
        block.pieces.push_back({pt(5), nullptr, {}});
        whole(m_words.whenLineDies, kNote, Kind::paragraph);
        if (hasOptionalSteps())
            whole(m_words.dearnessMeans, kNote, Kind::paragraph);
        block.pieces.push_back({pt(4), nullptr, {}});
        whole(m_words.cautions.join(QLatin1Char(' ')), {.points = 11.5, .bold = true, .leading = 1.35},
              Kind::paragraph);
        m_flow.push_back(std::move(block));
    }

    [[nodiscard]] bool hasOptionalSteps() const
    {
        for (const Section& section : m_script.sections)
            for (const Step& step : section.steps)
                if (step.optionalDearness)
                    return true;
        return false;
    }

    [[nodiscard]] bool inPause(std::size_t section) const
    {
        return m_script.sections[section].kind == SectionKind::pause;
    }
    [[nodiscard]] QString lengthWords(Millis length) const { return m_words.length.arg(minutesAndSeconds(length)); }

    void addSection(std::size_t number)
    {
        const Section& section = m_script.sections[number];
        Block block;
        block.before = pt(inPause(number) ? 8 : 11);
        block.keepsWithNext = true;
        block.outline = QString::fromStdString(section.title);
        const double right = m_shape.size.width() - m_shape.right;
        block.pieces.push_back({pt(6), nullptr, [this, right](QPainter& painter, double top) {
                                    painter.fillRect(QRectF(m_shape.left, top, right - m_shape.left, pt(1)),
                                                     QColor(Inks::deep));
                                }});
        const bool quiet = inPause(number);
        if (quiet)
            putTime(block, m_plan.startOf({static_cast<std::uint32_t>(number), 0, 0, 0}).value_or(Millis{0}), kNote);
        const QString length = lengthWords(m_plan.sectionLengths[number]);
        const TextStyle& style = quiet ? kNote : kSection;
        putAtRight(block, quiet ? length : QStringLiteral("%1 \u00B7 %2").arg(m_words.kind(section.kind), length),
                   block.outline, style);
        put(block, block.outline, style, elementOf(Kind::heading));
        m_flow.push_back(std::move(block));
        for (std::size_t step = 0; step < section.steps.size(); ++step)
            addStep(section.steps[step], static_cast<std::uint32_t>(number), static_cast<std::uint32_t>(step));
    }

    /// Beside a heading on its first line, or above it where there is no room.
    void putAtRight(Block& block, const QString& words, const QString& heading, const TextStyle& style)
    {
        const double right = m_shape.size.width() - m_shape.right;
        const double wide = widthOf(words, kFine);
        if (widthOf(heading, style) + mm(6) + wide > textWidth())
            return put(block, words, kFine, elementOf(Kind::paragraph));
        block.pieces.push_back({0, elementOf(Kind::paragraph), [=](QPainter& painter, double top) {
                                    drawWords(painter, words, kFine, right - wide, top + baselineOf(style));
                                }});
    }

    void addStep(const Step& step, std::uint32_t section, std::uint32_t number)
    {
        Block block;
        block.before = pt(inPause(section) ? 1 : 6);
        if (step.optionalDearness)
            block.pieces.push_back({pt(3), nullptr, {}});
        if (!inPause(section) || number > 0) // a pause has its time at its heading
            putTime(block, m_plan.startOf({section, number, 0, 0}).value_or(Millis{0}),
                    step.text.empty() ? kFine : kSay);
        if (!step.text.empty())
            for (Piece& piece :
                 setMarked(step.text, step.stretches, kSay, textLeft(), textWidth(), elementOf(Kind::paragraph)))
                block.pieces.push_back(std::move(piece));
        if (!step.stretches.empty())
            block.pieces.push_back({pt(2), nullptr, {}}); // under the last line's bars
        QString rounds = inPause(section) ? QString() : roundsWords(step, m_words);
        if (step.optionalDearness)
            rounds += QStringLiteral("  |  ") + m_words.leaveOut.arg(*step.optionalDearness);
        put(block, rounds, kFine, elementOf(Kind::paragraph));
        putNote(block, QString::fromStdString(step.note));
        if (step.picture)
            put(block, QStringLiteral("%1: %2").arg(m_words.picture, QString::fromStdString(step.picture->description)),
                kFine, elementOf(Kind::paragraph));
        if (step.optionalDearness)
            frame(block);
        m_flow.push_back(std::move(block));
    }

    /// Hers alone: set in, with a bar on the left.
    void putNote(Block& block, const QString& note)
    {
        if (note.isEmpty())
            return;
        auto pieces = setText(note, kNote, textLeft() + mm(4), textWidth() - mm(4), elementOf(Kind::paragraph));
        double height = 0;
        for (const Piece& piece : pieces)
            height += piece.height;
        block.pieces.push_back({0, nullptr, [this, height](QPainter& painter, double top) {
                                    painter.fillRect(QRectF(textLeft() + mm(0.5), top + pt(2), pt(2.5), height - pt(4)),
                                                     QColor(Inks::hair));
                                }});
        for (Piece& piece : pieces)
            block.pieces.push_back(std::move(piece));
    }

    /// Dashed: this may be left out.
    void frame(Block& block) const
    {
        block.pieces.push_back({pt(3), nullptr, {}});
        const double height = block.height();
        const double left = textLeft() - mm(2);
        const double width = textWidth() + mm(2);
        block.pieces.insert(block.pieces.begin(),
                            {0, nullptr, [=](QPainter& painter, double top) {
                                 painter.setPen(QPen(QColor(Inks::second), pt(0.9), Qt::DashLine));
                                 painter.setBrush(Qt::NoBrush);
                                 painter.drawRoundedRect(QRectF(left, top, width, height), mm(1.5), mm(1.5));
                             }});
    }

    void addEnd()
    {
        Block block;
        block.before = pt(12);
        m_flow.back().keepsWithNext = true;
        putTime(block, m_plan.total, kNote);
        put(block, m_words.ends, {.points = 11.5, .bold = true, .leading = 1.35}, elementOf(Kind::paragraph));
        m_flow.push_back(std::move(block));
    }

    void drawFoot(QPainter& painter, int page, int pages) const
    {
        const double baseline = m_shape.size.height() - m_shape.foot - pt(kFine.points * 0.3);
        const QString number = m_words.page.arg(page).arg(pages);
        const double numberLeft = m_shape.size.width() - m_shape.right - widthOf(number, kFine);
        if (m_shape.left + widthOf(title(), kFine) + mm(6) < numberLeft)
            drawWords(painter, title(), kFine, m_shape.left, baseline);
        drawWords(painter, number, kFine, numberLeft, baseline);
    }

    const ClassScript& m_script;
    const PaperScriptOptions& m_options;
    const HandoutWords& m_words;
    TimingPlan m_plan;
    PageShape m_shape;
    Flow m_flow;
};

} // namespace

Result<QByteArray> paperScriptPdf(const ClassScript& script, const PaperScriptOptions& options)
{
    if (!look::loadTypeface()) // before anything is measured
        return fail("typeface-missing", "The typeface of this program is missing or damaged. Please install it anew.");
    return PaperScript(script, options, wordsFor(options.words, script.language)).run();
}

} // namespace vh::handout
