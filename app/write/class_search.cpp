#include "app/write/class_search.h"

#include "app/write/folded.h"

#include <QByteArrayMatcher>

#include <algorithm>

namespace vh::write
{

namespace
{

struct Word {
    QByteArray bytes; ///< with the space before it
    QByteArrayMatcher matcher;
};

struct Ranked {
    Found found;
    int inTextAlone = 0;
    bool begins = false; ///< the title, with the first word
};

/// The line of `lines` with this number.
QString lineAt(const QByteArray& lines, qsizetype number)
{
    qsizetype begin = 0;
    while (number-- > 0)
        begin = lines.indexOf('\n', begin) + 1;
    return QString::fromUtf8(lines.mid(begin, lines.indexOf('\n', begin) - begin));
}

} // namespace

std::vector<Found> found(const std::vector<ClassEntry>& entries, const QString& query)
{
    std::vector<Word> words;
    for (const QString& word : foldedWords(query)) {
        const QByteArray bytes = ' ' + word.toUtf8();
        words.push_back({bytes, QByteArrayMatcher(bytes)});
    }
    std::vector<Ranked> all;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const ClassEntry& entry = entries[i];
        Ranked here{{i, {}}, 0, !words.empty() && entry.headFolded.startsWith(words.front().bytes)};
        qsizetype first = -1;
        bool every = true;
        for (const Word& word : words) {
            if (entry.headFolded.contains(word.bytes))
                continue;
            const qsizetype at = word.matcher.indexIn(entry.folded);
            every = at >= 0;
            if (!every)
                break;
            ++here.inTextAlone;
            first = first < 0 ? at : std::min(first, at);
        }
        if (!every)
            continue;
        if (first >= 0)
            here.found.line = lineAt(entry.lines, std::count(entry.folded.begin(), entry.folded.begin() + first, '\n'));
        all.push_back(std::move(here));
    }
    std::stable_sort(all.begin(), all.end(), [](const Ranked& one, const Ranked& other) {
        return std::pair(one.inTextAlone, !one.begins) < std::pair(other.inTextAlone, !other.begins);
    });
    std::vector<Found> result;
    result.reserve(all.size());
    for (Ranked& each : all)
        result.push_back(std::move(each.found));
    return result;
}

} // namespace vh::write
