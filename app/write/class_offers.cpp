#include "app/write/class_offers.h"

#include "app/write/day_words.h"

#include <QCoreApplication>

namespace vh::write
{

namespace
{

constexpr std::size_t kMostSentences = 2; // that are quoted before a class

QString say(const char* words)
{
    return QCoreApplication::translate("vh::write", words);
}

ClassOffer offerOf(const ClassLibrary& library, const ClassDays& days, const ClassEntry& entry, QDate today)
{
    ClassOffer offer{entry.path, entry.title, {}, entry.bundled ? say("With Voicehall") : say("Your own")};
    if (!entry.mistakes.empty()) {
        offer.about = say("to be mended before it can be led");
        return offer;
    }
    if (entry.unread)
        return offer;
    offer.about =
        (QStringList{entry.theme, roundMinutesWords(entry.length)} + whenWords(days, library.keyOf(entry.path), today))
            .join(QStringLiteral(" \u00B7 "));
    return offer;
}

} // namespace

std::set<std::string> sentencesOf(const ClassEntry& entry)
{
    std::set<std::string> all;
    for (const QByteArray& sentence : entry.sentences.split('\n'))
        if (!sentence.isEmpty())
            all.insert(sentence.toStdString());
    return all;
}

DayClass dayClassOf(const ClassLibrary& library, const ClassEntry& entry, QDate day)
{
    return {day, library.keyOf(entry.path), entry.title, entry.theme};
}

std::vector<UsedBefore> usedBefore(const ClassLibrary& library, const ClassDays& days, const DayClass& what)
{
    const auto of = [&library](const QString& key) {
        const ClassEntry* entry = library.entryAt(library.pathOf(key));
        return entry ? sentencesOf(*entry) : std::set<std::string>();
    };
    return days.usedBefore(what, of(what.key), of);
}

QStringList whenWords(const ClassDays& days, const QString& key, QDate today)
{
    QStringList words;
    if (const QDate next = days.nextPlanned(key, today); next.isValid())
        words << say("planned %1").arg(shortWords(next, today));
    if (const QDate last = days.lastHeld(key); last.isValid())
        words << say("held %1").arg(shortWords(last, today));
    return words;
}

ClassOffers offersOf(const ClassLibrary& library, const ClassDays& days, QDate today)
{
    ClassOffers offers;
    QStringList taken;
    for (const DayClass& planned : days.planned()) {
        const ClassEntry* entry = planned.day == today ? library.entryAt(library.pathOf(planned.key)) : nullptr;
        if (!entry || entry->unfinished)
            continue;
        offers.classes.push_back(offerOf(library, days, *entry, today));
        offers.classes.back().heading = say("Planned for today");
        taken << entry->path;
    }
    offers.todays = taken.value(0);
    for (const bool bundled : {false, true})
        for (const ClassEntry& entry : library.entries())
            if (entry.bundled == bundled && !entry.unfinished && !taken.contains(entry.path))
                offers.classes.push_back(offerOf(library, days, entry, today));
    offers.used = [&library, days, today](const QString& path) {
        const ClassEntry* entry = library.entryAt(path);
        return entry ? usedWords(usedBefore(library, days, dayClassOf(library, *entry, today)), today, kMostSentences)
                     : QStringList();
    };
    return offers;
}

} // namespace vh::write
