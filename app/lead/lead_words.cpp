#include "app/lead/lead_words.h"

#include "app/lead/lead_view.h"

#include <QCoreApplication>
#include <QDateTime>

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
} // namespace

QString countWord(int count)
{
    static const std::array words{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"};
    if (count >= 0 && static_cast<std::size_t>(count) < words.size())
        return say(words[static_cast<std::size_t>(count)]);
    return QString::number(count);
}

QStringList roundWords(const Step& step, std::size_t round)
{
    if (round >= step.rounds.size())
        return {};
    static const std::array times{"first time", "second time", "third time", "fourth time", "fifth time"};
    QString time;
    if (step.rounds.size() > 1)
        time = round < times.size() ? say(times[round]) : say("time %1 of %2").arg(round + 1).arg(step.rounds.size());
    if (!step.rounds[round].moreVoice)
        return time.isEmpty() ? QStringList() : QStringList{time};
    QStringList words;
    if (!time.isEmpty())
        words << say("%1, with more voice").arg(time);
    return words << say("with more voice") << say("more voice");
}

QString kindWords(SectionKind kind)
{
    switch (kind) {
    case SectionKind::opening:
        return say("Opening");
    case SectionKind::warmUp:
        return say("Warm-up");
    case SectionKind::sustainedVowel:
        return say("Long vowel");
    case SectionKind::pitchGlide:
        return say("Glide");
    case SectionKind::counting:
        return say("Counting");
    case SectionKind::phrases:
        return say("Phrases");
    case SectionKind::categoryNaming:
        return say("Word groups");
    case SectionKind::backOfTongue:
        return say("Back of tongue");
    case SectionKind::passage:
        return say("Passage");
    case SectionKind::openTalk:
        return say("Open talk");
    case SectionKind::pause:
        return say("Water pause");
    case SectionKind::closing:
        return say("Closing");
    }
    return {};
}

QString wordsOf(PapersView papers)
{
    switch (papers) {
    case PapersView::making:
        return say("Making them\u2026");
    case PapersView::saved:
        return say("Show the papers");
    case PapersView::none:
    case PapersView::offered:
        break;
    }
    return say("Handout and paper script");
}

QString leftWords(Millis left)
{
    const auto seconds = (std::max<Millis::rep>(left.count(), 0) + 999) / 1000;
    return QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

QString moreWords(Millis more)
{
    const auto seconds = (more.count() + 500) / 1000;
    return seconds > 0 ? say("%1 s added").arg(seconds) : QString();
}

QString endWords(Instant end, std::optional<Millis> behind)
{
    const QString when =
        QDateTime::fromMSecsSinceEpoch(end.time_since_epoch().count()).toString(QStringLiteral("HH:mm"));
    if (!behind)
        return say("ends %1").arg(when);
    const auto minutes = static_cast<int>(std::lround(static_cast<double>(behind->count()) / 60'000));
    if (minutes == 0)
        return say("ends %1, in time").arg(when);
    const QString count = countWord(std::abs(minutes));
    if (minutes > 0)
        return minutes == 1 ? say("ends %1, one minute over").arg(when)
                            : say("ends %1, %2 minutes over").arg(when, count);
    return minutes == -1 ? say("ends %1, one minute early").arg(when)
                         : say("ends %1, %2 minutes early").arg(when, count);
}

QString hereWords(std::uint32_t here, std::uint32_t helpers)
{
    QString words = here == 0   ? say("Nobody is here yet")
                    : here == 1 ? say("One person is here")
                                : say("%1 are here").arg(here);
    if (helpers == 1)
        words += say(", one helper");
    else if (helpers > 1)
        words += say(", %1 helpers").arg(countWord(static_cast<int>(helpers)));
    return words;
}

QString lineOf(const Section& section, const Step& step)
{
    QString text = QString::fromStdString(step.text).simplified();
    if (!text.isEmpty())
        return text;
    return section.title.empty() ? say("Water pause") : QString::fromStdString(section.title);
}

QString refusalWords(const Error& error)
{
    if (error.code == "old-place")
        return say("The class had just moved on. Nothing has changed; press again if you still want to.");
    if (error.code == "old-lease" || error.code == "not-leader")
        return say("Somebody else leads now, so your press did not count.");
    if (error.code == "not-now")
        return say("That does not go at this point of the class.");
    if (error.code == "step-unknown")
        return say("The class has no such step any more, or it cannot be left out.");
    if (error.code == "old-revision")
        return say("The class has been corrected meanwhile. Please look at the text once more.");
    if (error.code == "other-past")
        return say("What has been led already is different in it, so the homes cannot go on with it. Texts may be "
                   "changed anywhere, steps and turns only from the next turn on.");
    return QString::fromStdString(error.message);
}

QString lengthWords(Millis length)
{
    const auto seconds = std::lround(static_cast<double>(length.count()) / 1000);
    if (seconds < 60)
        return seconds == 1 ? say("1 second") : say("%1 seconds").arg(seconds);
    const auto minutes = std::lround(static_cast<double>(seconds) / 60);
    return minutes == 1 ? say("1 minute") : say("%1 minutes").arg(minutes);
}

} // namespace vh::lead
