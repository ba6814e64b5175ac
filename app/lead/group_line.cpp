#include "app/lead/group_line.h"

#include <QCoreApplication>

#include <array>
#include <cmath>

namespace vh::lead
{

namespace
{

QString say(const char* words)
{
    return QCoreApplication::translate("vh::lead", words);
}

double quietShare(const SeatCounts& counts)
{
    return static_cast<double>(counts.littleMore) / counts.readable();
}

} // namespace

QString shareWords(double share)
{
    struct Spoken {
        double share;
        const char* words;
    };
    static constexpr std::array spoken{
        Spoken{0.0, QT_TRANSLATE_NOOP("vh::lead", "hardly anybody is")},
        Spoken{0.1, QT_TRANSLATE_NOOP("vh::lead", "about one in ten are")},
        Spoken{0.2, QT_TRANSLATE_NOOP("vh::lead", "about one in five are")},
        Spoken{0.25, QT_TRANSLATE_NOOP("vh::lead", "about a quarter are")},
        Spoken{1.0 / 3, QT_TRANSLATE_NOOP("vh::lead", "about a third are")},
        Spoken{0.5, QT_TRANSLATE_NOOP("vh::lead", "about half are")},
        Spoken{2.0 / 3, QT_TRANSLATE_NOOP("vh::lead", "about two thirds are")},
        Spoken{0.75, QT_TRANSLATE_NOOP("vh::lead", "about three quarters are")},
        Spoken{1.0, QT_TRANSLATE_NOOP("vh::lead", "nearly everybody is")},
    };
    const Spoken* nearest = spoken.data();
    for (const Spoken& each : spoken)
        if (std::abs(each.share - share) < std::abs(nearest->share - share))
            nearest = &each;
    return say(nearest->words);
}

QString groupLine(const SeatCounts& now, const SeatCounts& before, const QString& beforeTitle)
{
    if (now.readable() < kGroupAtLeast)
        return say("Too few voices can be read to speak of the group.");
    const double quiet = quietShare(now);
    QString line = say("%1 quiet").arg(shareWords(quiet));
    line[0] = line[0].toUpper();
    if (beforeTitle.isEmpty() || before.readable() < kGroupAtLeast)
        return line + QLatin1Char('.');
    const double change = quiet - quietShare(before);
    const QString compared = std::abs(change) < kSameShare ? say("%1, as at %2.")
                             : change > 0                  ? say("%1, more than at %2.")
                                                           : say("%1, fewer than at %2.");
    return compared.arg(line, beforeTitle);
}

} // namespace vh::lead
