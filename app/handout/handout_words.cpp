#include "app/handout/handout_words.h"

#include <algorithm>
#include <array>

namespace vh::handout
{

namespace
{

HandoutWords english()
{
    HandoutWords w;
    w.language = "en";
    w.minutes = "about %1 minutes";
    w.classIsIn = "The class itself is in %1.";
    w.beforeYouBegin = "Before you begin";
    w.cautions = {"Stop if it hurts, if you feel dizzy or short of breath, or if your voice turns hoarse. Do not push.",
                  "At water pauses, follow your own drinking and swallowing plan.",
                  "This is a practice aid, not for diagnosis or treatment decisions. Your own clinician\u2019s advice "
                  "and local rules come first."};
    w.thisWeek = "This week";
    w.today = "today";
    w.howToRead = "How to read this";
    w.holdSample = "r<ow>ing";
    w.holdMeans = "A bar under letters: hold that sound.";
    w.lineMeans = "A line beside the text: this is yours to say.";
    w.timesMean = "A number beside it: say it as many times.";
    w.once = "Once";
    w.twice = "Twice";
    w.times = "%1 times";
    w.secondMoreVoice = "the second time with more voice";
    w.lastMoreVoice = "the last time with more voice";
    w.lastsMoreVoice = "the last %1 times with more voice";
    w.moreVoice = "with more voice";
    w.someMoreVoice = "%1 of them with more voice";
    w.together = "All together.";
    w.alone = "You alone.";
    w.togetherThenAlone = "First all together, then you alone.";
    w.picture = "Picture";
    w.page = "Page %1 of %2";
    w.paperScript = "Leader\u2019s paper script";
    w.whenLineDies = "When the line fails: go on from here. The times on the left count from the start of the class.";
    w.length = "%1 min";
    w.listen = "Listen";
    w.ready = "Ready";
    w.withMe = "With me";
    w.yours = "You";
    w.shortMoreVoice = "more voice";
    w.leaveOut = "may be left out (%1)";
    w.dearnessMeans = "Steps in a dashed frame may be left out when time is short; 1 goes first.";
    w.ends = "The class ends";
    w.kinds = {"Opening",  "Warm-up",   "Long vowels", "Pitch glides",
               "Counting", "Sentences", "Word groups", "Back-of-tongue sounds",
               "Reading",  "Open talk", "Water pause", "Closing"};
    return w;
}

HandoutWords german()
{
    HandoutWords w;
    w.language = "de";
    w.minutes = "etwa %1 Minuten";
    w.classIsIn = "Die Stunde selbst ist auf %1.";
    w.beforeYouBegin = "Bevor Sie anfangen";
    w.cautions = {"H\u00F6ren Sie auf, wenn etwas wehtut, wenn Ihnen schwindlig wird, wenn die Luft knapp oder die "
                  "Stimme heiser wird. Nicht pressen.",
                  "Richten Sie sich in den Wasserpausen nach Ihrem eigenen Plan zum Trinken und Schlucken.",
                  "Dies ist eine \u00DCbungshilfe. Sie dient nicht der Diagnose und entscheidet \u00FCber keine "
                  "Behandlung. Was Ihre Fachleute Ihnen geraten haben und was bei Ihnen vor Ort gilt, geht vor."};
    w.thisWeek = "Diese Woche";
    w.today = "heute";
    w.howToRead = "So liest man dieses Blatt";
    w.holdSample = "r<u>dern";
    w.holdMeans = "Ein Balken unter Buchstaben: diesen Laut halten.";
    w.lineMeans = "Ein Strich neben dem Text: das sprechen Sie.";
    w.timesMean = "Eine Zahl daneben: so oft wird es gesprochen.";
    w.once = "Einmal";
    w.twice = "Zweimal";
    w.times = "%1-mal";
    w.secondMoreVoice = "das zweite Mal mit mehr Stimme";
    w.lastMoreVoice = "das letzte Mal mit mehr Stimme";
    w.lastsMoreVoice = "die letzten %1 Male mit mehr Stimme";
    w.moreVoice = "mit mehr Stimme";
    w.someMoreVoice = "%1-mal davon mit mehr Stimme";
    w.together = "Alle zusammen.";
    w.alone = "Sie allein.";
    w.togetherThenAlone = "Erst alle zusammen, dann Sie allein.";
    w.picture = "Bild";
    w.page = "Seite %1 von %2";
    w.paperScript = "Ablauf auf Papier, f\u00FCr die Leitung";
    w.whenLineDies = "F\u00E4llt die Verbindung aus: hier weitermachen. Die Zeiten links z\u00E4hlen vom Anfang der "
                     "Stunde an.";
    w.length = "%1 min";
    w.listen = "Zuh\u00F6ren";
    w.ready = "Bereit";
    w.withMe = "Mit mir";
    w.yours = "Sie";
    w.shortMoreVoice = "mehr Stimme";
    w.leaveOut = "kann entfallen (%1)";
    w.dearnessMeans = "Was gestrichelt umrahmt ist, kann entfallen, wenn die Zeit knapp wird; 1 zuerst.";
    w.ends = "Ende der Stunde";
    w.kinds = {"Beginn",      "Aufw\u00E4rmen", "Lange Vokale",        "Gleitt\u00F6ne",
               "Z\u00E4hlen", "S\u00E4tze",     "W\u00F6rter sammeln", "Laute vom hinteren Teil der Zunge",
               "Lesen",       "Gespr\u00E4ch",  "Wasserpause",         "Schluss"};
    return w;
}

const std::array<HandoutWords, 2>& tables()
{
    static const std::array<HandoutWords, 2> all{english(), german()};
    return all;
}

QString primary(const QString& tag)
{
    return tag.section(QLatin1Char('-'), 0, 0).toLower();
}

} // namespace

QString HandoutWords::kind(SectionKind kind) const
{
    return kinds.value(static_cast<int>(kind));
}

QString HandoutWords::turn(TurnKind kind) const
{
    switch (kind) {
    case TurnKind::listen:
        return listen;
    case TurnKind::ready:
        return ready;
    case TurnKind::withMe:
        return withMe;
    case TurnKind::yours:
        return yours;
    }
    return listen;
}

bool speaks(const HandoutWords& words, const QString& language)
{
    return primary(language) == words.language;
}

const HandoutWords& wordsFor(const QString& wanted, const std::string& classLanguage)
{
    for (const QString& language : {wanted, QString::fromStdString(classLanguage)})
        for (const HandoutWords& words : tables())
            if (speaks(words, language))
                return words;
    return tables().front();
}

QString dateWords(const HandoutWords& words, const QDate& date)
{
    const QLocale locale(words.language == QLatin1String("en") ? QStringLiteral("en_GB") : words.language);
    return locale.toString(date, QLocale::LongFormat);
}

QString languageName(const std::string& tag)
{
    const QString shown = QString::fromStdString(tag);
    const QLocale locale(shown);
    return locale.language() == QLocale::C ? shown : QLocale::languageToString(locale.language());
}

Times timesOf(const Step& step)
{
    Times times;
    for (const Round& round : step.rounds) {
        const auto has = [&](TurnKind kind) {
            return std::any_of(round.turns.begin(), round.turns.end(),
                               [&](const Turn& turn) { return turn.kind == kind; });
        };
        if (!has(TurnKind::withMe) && !has(TurnKind::yours))
            continue;
        ++times.rounds;
        times.together = times.together || has(TurnKind::withMe);
        times.alone = times.alone || has(TurnKind::yours);
        times.moreVoiceLast = times.moreVoiceLast && (round.moreVoice || times.moreVoice == 0);
        times.moreVoice += round.moreVoice ? 1 : 0;
    }
    return times;
}

QString howOften(const HandoutWords& words, const Times& times)
{
    if (times.rounds <= 1 && times.moreVoice == 0)
        return {};
    const QString often = times.rounds == 1   ? words.once
                          : times.rounds == 2 ? words.twice
                                              : words.times.arg(times.rounds);
    QString voice;
    if (times.moreVoice == times.rounds)
        voice = words.moreVoice;
    else if (times.moreVoice > 0 && !times.moreVoiceLast)
        voice = words.someMoreVoice.arg(times.moreVoice);
    else if (times.moreVoice > 1)
        voice = words.lastsMoreVoice.arg(times.moreVoice);
    else if (times.moreVoice == 1)
        voice = times.rounds == 2 ? words.secondMoreVoice : words.lastMoreVoice;
    return voice.isEmpty() ? often + '.' : QStringLiteral("%1, %2.").arg(often, voice);
}

QString whoSays(const HandoutWords& words, const Times& times)
{
    if (times.together && times.alone)
        return words.togetherThenAlone;
    return times.together ? words.together : words.alone;
}

} // namespace vh::handout
