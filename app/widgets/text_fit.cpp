#include "app/widgets/text_fit.h"

#include <QFontMetricsF>
#include <QSet>

#include <algorithm>
#include <cmath>
#include <limits>

namespace vh
{

namespace
{

// Measured once at this size; with hinting off, advances grow in proportion (look::fontOfPixels).
constexpr int kMeasuredAt = 100;
// How much smaller than the largest size the text may be, for breaks that read better.
constexpr double kSizeGivenUp[] = {1.0, 0.93, 0.86, 0.8};
constexpr double kCostOfSize = 1.5;
constexpr double kCostOfUnevenness = 1.0;
constexpr double kNever = std::numeric_limits<double>::infinity();

// Shares of the size, below the baseline beyond the descenders.
constexpr double kBarGap = 0.05;
constexpr double kBarHeight = 0.10;
constexpr double kLeading = 0.12;

struct Word {
    QString text;
    int start = 0;
    double width = 0;       ///< at kMeasuredAt
    bool glued = false;     ///< no space before it: a piece of a word too long for a line
    bool mustBreak = false; ///< a line ends after it
};

struct Measured {
    std::vector<Word> words;
    double space = 0;
    double ascent = 0;
    double descent = 0;
};

void addWord(Measured& all, const QFontMetricsF& metrics, const QString& word, int start, double widest)
{
    int done = 0;
    while (done < word.size()) { // one pass, except for a word wider than the room at the smallest size
        int take = word.size() - done;
        while (take > 1 && metrics.horizontalAdvance(word.mid(done, take)) > widest)
            --take;
        if (done + take < word.size() && word[done + take].isLowSurrogate())
            take = std::max(take - 1, 2);
        const QString piece = word.mid(done, take);
        all.words.push_back({piece, start + done, metrics.horizontalAdvance(piece), done > 0, false});
        done += take;
    }
}

Measured measure(const QString& text, const FitLimits& limits, double roomWidth)
{
    const QFontMetricsF metrics(look::fontOfPixels(kMeasuredAt, limits.weight));
    const double widest = std::max(roomWidth, 1.0) * kMeasuredAt / limits.smallest;
    Measured all;
    all.space = metrics.horizontalAdvance(' ');
    // The letters that reach furthest up and down in the languages that use Latin letters.
    all.ascent = -metrics.tightBoundingRect(QStringLiteral("bdfhkl\u00C5\u00C9\u0110")).top();
    all.descent = metrics.tightBoundingRect(QStringLiteral("gjpqy\u00E7\u0105,;")).bottom();

    int start = -1;
    for (int i = 0; i <= text.size(); ++i) {
        const bool gap = i == text.size() || (text[i].isSpace() && text[i] != QChar::Nbsp);
        if (!gap && start < 0)
            start = i;
        if (gap && start >= 0) {
            addWord(all, metrics, text.mid(start, i - start), start, widest);
            start = -1;
        }
        if (i < text.size() && text[i] == '\n' && !all.words.empty())
            all.words.back().mustBreak = true;
    }
    return all;
}

double lineHeightAt(const Measured& all, double size)
{
    return size * ((all.ascent + all.descent) / kMeasuredAt + kBarGap + kBarHeight + kLeading);
}

double heightAt(const Measured& all, double size, std::size_t lineCount)
{
    const double last = size * ((all.ascent + all.descent) / kMeasuredAt + kBarGap + kBarHeight);
    return lineCount == 0 ? 0 : last + static_cast<double>(lineCount - 1) * lineHeightAt(all, size);
}

double widthWith(const Measured& all, double width, std::size_t next)
{
    return width + (all.words[next].glued ? 0 : all.space) + all.words[next].width;
}

/// As few lines as possible. Empty: a word is wider than a line.
std::vector<std::size_t> greedyEnds(const Measured& all, double lineWidth)
{
    std::vector<std::size_t> ends;
    std::size_t i = 0;
    while (i < all.words.size()) {
        double width = all.words[i].width;
        if (width > lineWidth)
            return {};
        std::size_t end = i + 1;
        while (end < all.words.size() && !all.words[end - 1].mustBreak && widthWith(all, width, end) <= lineWidth)
            width = widthWith(all, width, end++);
        ends.push_back(end);
        i = end;
    }
    return ends;
}

struct Breaking {
    std::vector<std::size_t> ends;
    double cost = kNever;
};

/// The best-reading way into exactly `lineCount` lines, by dynamic programming over (lines, words so far).
Breaking bestEnds(const Measured& all, double lineWidth, std::size_t lineCount)
{
    const std::size_t count = all.words.size();
    double total = 0;
    for (std::size_t i = 0; i < count; ++i)
        total = i == 0 ? all.words[0].width : widthWith(all, total, i);
    const double ideal = total / static_cast<double>(lineCount);

    std::vector<std::vector<double>> cost(lineCount + 1, std::vector<double>(count + 1, kNever));
    std::vector<std::vector<std::size_t>> from(lineCount + 1, std::vector<std::size_t>(count + 1, 0));
    cost[0][0] = 0;
    for (std::size_t line = 1; line <= lineCount; ++line) {
        for (std::size_t begin = 0; begin < count; ++begin) {
            if (cost[line - 1][begin] == kNever)
                continue;
            double width = all.words[begin].width;
            for (std::size_t end = begin + 1; width <= lineWidth; ++end) {
                const double uneven = (width - ideal) / lineWidth;
                double here = cost[line - 1][begin] + kCostOfUnevenness * uneven * uneven;
                const bool forced = all.words[end - 1].mustBreak;
                if (end < count && !forced)
                    here += all.words[end].glued ? 4.0 : breakCost(all.words[end - 1].text, all.words[end].text);
                if (here < cost[line][end]) {
                    cost[line][end] = here;
                    from[line][end] = begin;
                }
                if (end == count || forced)
                    break;
                width = widthWith(all, width, end);
            }
        }
    }
    Breaking best{{}, cost[lineCount][count]};
    if (best.cost == kNever)
        return best;
    for (std::size_t line = lineCount, end = count; line > 0; end = from[line][end], --line)
        best.ends.insert(best.ends.begin(), end);
    return best;
}

FittedLines made(const QString& text, const Measured& all, const std::vector<std::size_t>& ends, int size)
{
    FittedLines fitted;
    fitted.pixelSize = size;
    fitted.lineHeight = lineHeightAt(all, size);
    fitted.ascent = size * all.ascent / kMeasuredAt;
    fitted.barTop = size * (all.descent / kMeasuredAt + kBarGap);
    fitted.barHeight = size * kBarHeight;
    fitted.height = heightAt(all, size, ends.size());
    std::size_t begin = 0;
    for (const std::size_t end : ends) {
        const int first = all.words[begin].start;
        const Word& last = all.words[end - 1];
        fitted.starts.push_back(first);
        fitted.lines.push_back(text.mid(first, last.start + last.text.size() - first).replace('\t', ' '));
        begin = end;
    }
    return fitted;
}

double widestLine(const FittedLines& fitted, look::Weight weight)
{
    const QFontMetricsF metrics(look::fontOfPixels(fitted.pixelSize, weight));
    double widest = 0;
    for (const QString& line : fitted.lines)
        widest = std::max(widest, metrics.horizontalAdvance(line));
    return widest;
}

int largestSize(const Measured& all, QSizeF room, const FitLimits& limits)
{
    const auto fits = [&](int size) {
        const auto ends = greedyEnds(all, room.width() * kMeasuredAt / size);
        return !ends.empty() && heightAt(all, size, ends.size()) <= room.height();
    };
    int low = limits.smallest - 1;
    int high = std::max(limits.largest, limits.smallest);
    while (low < high) {
        const int middle = (low + high + 1) / 2;
        if (fits(middle))
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

} // namespace

double breakCost(const QString& left, const QString& right)
{
    // Words that belong to what follows: articles and their kin, prepositions, joining words, auxiliaries, subjects.
    static const QSet<QString> leaning{
        "a",     "an",    "the",   "my",   "your",  "his",   "her",  "our",   "their", "its",    "this",  "that",
        "these", "those", "every", "each", "some",  "any",   "no",   "two",   "three", "many",   "to",    "of",
        "in",    "on",    "at",    "for",  "by",    "with",  "from", "into",  "under", "over",   "near",  "across",
        "along", "after", "about", "like", "than",  "and",   "or",   "but",   "nor",   "as",     "if",    "so",
        "when",  "while", "where", "who",  "what",  "which", "not",  "is",    "are",   "was",    "were",  "be",
        "am",    "will",  "would", "can",  "could", "has",   "have", "had",   "do",    "does",   "did",   "very",
        "i",     "you",   "he",    "she",  "it",    "we",    "they", "until", "up",    "please", "before"};
    static const QSet<QString> joining{"and",   "or",     "but",    "nor",  "so",   "because", "when",   "while",
                                       "where", "which",  "who",    "that", "with", "without", "before", "after",
                                       "until", "though", "if",     "than", "as",   "in",      "on",     "at",
                                       "for",   "from",   "by",     "to",   "of",   "into",    "under",  "over",
                                       "near",  "like",   "across", "along"};
    const QChar last = left.isEmpty() ? QChar() : left.back();
    if (QStringLiteral(".?!;:\u2026").contains(last))
        return 0.0;
    if (QStringLiteral(",\u2013\u2014").contains(last))
        return 0.05;
    if (leaning.contains(left.toLower()))
        return 1.5;
    return joining.contains(right.toLower()) ? 0.2 : 0.5;
}

FittedLines fitText(const QString& text, QSizeF room, const FitLimits& limits)
{
    const Measured all = measure(text, limits, room.width());
    if (all.words.empty()) {
        FittedLines none;
        none.pixelSize = limits.smallest;
        return none;
    }
    const int largest = largestSize(all, room, limits);
    if (largest < limits.smallest) {
        const double lineWidth = std::max(room.width(), 1.0) * kMeasuredAt / limits.smallest;
        const auto fewest = greedyEnds(all, lineWidth);
        const Breaking best = bestEnds(all, lineWidth, std::max<std::size_t>(fewest.size(), 1));
        FittedLines fitted = made(text, all, best.ends.empty() ? fewest : best.ends, limits.smallest);
        fitted.width = widestLine(fitted, limits.weight);
        fitted.fits = false;
        return fitted;
    }

    Breaking best;
    int bestSize = largest;
    for (const double share : kSizeGivenUp) {
        const int size = std::max(static_cast<int>(largest * share), limits.smallest);
        const double lineWidth = room.width() * kMeasuredAt / size;
        const std::size_t fewest = greedyEnds(all, lineWidth).size();
        for (std::size_t count = fewest; count <= fewest + 1; ++count) {
            if (heightAt(all, size, count) > room.height())
                break;
            Breaking tried = bestEnds(all, lineWidth, count);
            tried.cost += kCostOfSize * (1.0 - static_cast<double>(size) / largest);
            if (tried.cost < best.cost) {
                best = std::move(tried);
                bestSize = size;
            }
        }
    }
    FittedLines fitted = made(text, all, best.ends, bestSize);
    fitted.width = widestLine(fitted, limits.weight);
    // Kerning across words may make a line a hair wider than the sum of its words.
    while (fitted.width > room.width() && fitted.pixelSize > limits.smallest) {
        fitted = made(text, all, best.ends, fitted.pixelSize - 1);
        fitted.width = widestLine(fitted, limits.weight);
    }
    return fitted;
}

QVector<TextRange> rangesOf(const std::string& text, const std::vector<Stretch>& stretches)
{
    const auto unitsUpTo = [&](std::uint32_t byte) {
        return QString::fromUtf8(text.data(), static_cast<qsizetype>(std::min<std::size_t>(byte, text.size()))).size();
    };
    QVector<TextRange> ranges;
    ranges.reserve(static_cast<qsizetype>(stretches.size()));
    for (const Stretch& stretch : stretches)
        ranges.push_back({unitsUpTo(stretch.begin), unitsUpTo(stretch.end)});
    return ranges;
}

} // namespace vh
