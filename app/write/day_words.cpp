#include "app/write/day_words.h"

#include <QCoreApplication>
#include <QFileInfo>
#include <QLocale>

#include <algorithm>
#include <cstdlib>

namespace vh::write
{

namespace
{

QString say(const char* words)
{
    return QCoreApplication::translate("vh::write", words);
}

/// "on Tuesday 3 March", "yesterday".
QString onWords(QDate day, QDate today)
{
    return std::abs(day.daysTo(today)) <= 1 ? nearWords(day, today) : say("on %1").arg(dayWords(day, today));
}

QString lineOf(const UsedBefore& used, QDate today)
{
    const QString when = used.held ? onWords(used.day, today) : nearWords(used.day, today);
    switch (used.what) {
    case UsedBefore::What::theClass:
        return (used.held ? say("This class was held %1.") : say("This class is planned for %1 already.")).arg(when);
    case UsedBefore::What::theme:
        return (used.held ? say("The theme \u201C%1\u201D was used %2, in \u201C%3\u201D.")
                          : say("The theme \u201C%1\u201D is planned for %2, in \u201C%3\u201D."))
            .arg(used.words, when, used.title);
    case UsedBefore::What::sentence:
        break;
    }
    return (used.held ? say("\u201C%1\u201D was said %2, in \u201C%3\u201D.")
                      : say("\u201C%1\u201D is planned for %2, in \u201C%3\u201D."))
        .arg(used.words, when, used.title);
}

} // namespace

QString dayWords(QDate day, QDate today)
{
    // The program's own words are English; so are its days.
    return QLocale(QLocale::English)
        .toString(day, day.year() == today.year() ? QStringLiteral("dddd d MMMM") : QStringLiteral("dddd d MMMM yyyy"));
}

QString nearWords(QDate day, QDate today)
{
    switch (today.daysTo(day)) {
    case -1:
        return say("yesterday");
    case 0:
        return say("today");
    case 1:
        return say("tomorrow");
    default:
        return dayWords(day, today);
    }
}

QString shortWords(QDate day, QDate today)
{
    if (std::abs(day.daysTo(today)) <= 1)
        return nearWords(day, today);
    return QLocale(QLocale::English)
        .toString(day, day.year() == today.year() ? QStringLiteral("d MMMM") : QStringLiteral("d MMMM yyyy"));
}

QString minutesWords(Millis length)
{
    const auto seconds = (std::max<Millis::rep>(length.count(), 0) + 500) / 1000;
    if (seconds < 60)
        return say("%1 s").arg(seconds);
    if (seconds % 60 == 0)
        return say("%1 min").arg(seconds / 60);
    return say("%1 min %2 s").arg(seconds / 60).arg(seconds % 60);
}

QString roundMinutesWords(Millis length)
{
    return say("%1 min").arg(std::max<Millis::rep>((length.count() + 30'000) / 60'000, 1));
}

QString damagedWords(const QString& aside)
{
    return say("The file of the days could not be read and begins anew. The old one is kept: %1")
        .arg(QFileInfo(aside).fileName());
}

QStringList usedWords(const std::vector<UsedBefore>& used, QDate today, std::size_t most)
{
    QStringList lines;
    std::size_t sentences = 0;
    for (const UsedBefore& each : used)
        if (each.what != UsedBefore::What::sentence || ++sentences <= most)
            lines << lineOf(each, today);
    if (sentences == most + 1)
        lines << say("And one more sentence.");
    else if (sentences > most)
        lines << say("And %1 more sentences.").arg(sentences - most);
    return lines;
}

} // namespace vh::write
