#pragma once
// The papers' own words (headings, cautions, what is to be done with a step), in the languages that are known here. A
// script says in which language its class is; to teach the papers another one, add a table and a row to kTables.
// Values and pure functions; any thread.
#include "common/script/script.h"

#include <QDate>
#include <QLocale>
#include <QString>
#include <QStringList>

namespace vh::handout
{

struct HandoutWords {
    QString language;  ///< BCP 47
    QString minutes;   ///< "about %1 minutes"
    QString classIsIn; ///< "The class itself is in %1."; said where these words are in another language
    QString beforeYouBegin;
    QStringList cautions;
    QString thisWeek;
    QString today;
    QString howToRead;
    QString holdSample; ///< with marks, as in a script: "r<ow>ing"
    QString holdMeans;
    QString lineMeans; ///< the line in the margin
    QString timesMean; ///< the number in the margin
    QString once;
    QString twice;
    QString times;           ///< "%1 times"
    QString secondMoreVoice; ///< after "twice"
    QString lastMoreVoice;   ///< after "five times"
    QString lastsMoreVoice;  ///< "the last %1 times with more voice"
    QString moreVoice;       ///< all of them
    QString someMoreVoice;   ///< in another order: "%1 of them with more voice"
    QString together;
    QString alone;
    QString togetherThenAlone;
    QString picture; ///< what a screen reader calls one
    QString page;    ///< "Page %1 of %2"
    // The paper script.
    QString paperScript;
    QString whenLineDies;
    QString length; ///< "%1 min"
    QString listen;
    QString ready;
    QString withMe;
    QString yours;
    QString shortMoreVoice;
    QString leaveOut; ///< "may be left out (%1)": dearness
    QString dearnessMeans;
    QString ends;

    [[nodiscard]] QString kind(SectionKind kind) const;
    [[nodiscard]] QString turn(TurnKind kind) const;
    QStringList kinds; ///< in the order of SectionKind
};

/// Those of the wanted language (by its first part), else of the class's, else English.
const HandoutWords& wordsFor(const QString& wanted, const std::string& classLanguage);
/// Whether a language tag begins with the language of these words.
bool speaks(const HandoutWords& words, const QString& language);
/// "Wednesday, 14 May 2025", in that language.
QString dateWords(const HandoutWords& words, const QDate& date);
/// What the class's language is called; the tag itself where it has no name.
QString languageName(const std::string& tag);

/// How often people say a step, and who does.
struct Times {
    int rounds = 0;    ///< in which people speak
    int moreVoice = 0; ///< of these
    bool moreVoiceLast = true;
    bool together = false;
    bool alone = false;
    friend bool operator==(const Times&, const Times&) = default;
};
Times timesOf(const Step& step);
/// "Twice, the second time with more voice."; empty for once and with no more voice.
QString howOften(const HandoutWords& words, const Times& times);
/// "First all together, then you alone."
QString whoSays(const HandoutWords& words, const Times& times);

} // namespace vh::handout
