#include "app/help/act_words.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>
#include <array>
#include <utility>

namespace vh::help
{

namespace
{

// By what the relay calls them (docs/protocol.md, "acts"); %1 is who did it, %2 whose line it was or whom it met.
constexpr std::array<std::pair<std::string_view, const char*>, 19> kSentences{{
    {"line-let-through", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 let through what %2 wrote")},
    {"line-set-aside", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 set aside what %2 wrote")},
    {"line-for-leader", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 gave the leader what %2 wrote")},
    {"line-for-clinician", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 called a clinician to what %2 wrote")},
    {"line-taken-back", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 took back what was done with %2's line")},
    {"line-taken", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 took what %2 wrote")},
    {"own-taken-back", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 took back a line of their own")},
    {"answered", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 answered %2")},
    {"answered-to-all", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 answered %2, to everybody")},
    {"quiet-for-a-while", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 asked %2 to be quiet for 10 minutes")},
    {"quiet-for-the-class", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 asked %2 to be quiet for the class")},
    {"out-of-the-class", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 put %2 out of the class")},
    {"rest-ended", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 let %2 write and come in again")},
    {"board-open", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 opened the board")},
    {"board-held", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 has lines read before they are on the board")},
    {"levels-shown", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 let the desk see levels")},
    {"levels-hidden", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 no longer lets the desk see levels")},
    {"call-done", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 saw to %2's call for help")},
    {"contact-seen", QT_TRANSLATE_NOOP("vh::help::ActWords", "%1 looked up whom to ring for %2")},
}};

QString say(const char* text)
{
    return QCoreApplication::translate("vh::help::ActWords", text);
}

QString sentenceOf(const wire::Act& act)
{
    const QString who = act.who.empty() ? say("Somebody") : QString::fromStdString(act.who);
    const QString whom = act.whom.empty() ? say("somebody") : QString::fromStdString(act.whom);
    const auto* found =
        std::find_if(kSentences.begin(), kSentences.end(), [&](const auto& each) { return each.first == act.what; });
    if (found != kSentences.end())
        return say(found->second).replace(QLatin1String("%1"), who).replace(QLatin1String("%2"), whom);
    // A relay newer than this program: as it calls it.
    QString what = QString::fromStdString(act.what).replace(QLatin1Char('-'), QLatin1Char(' '));
    return act.whom.empty() ? QStringLiteral("%1: %2").arg(who, what)
                            : QStringLiteral("%1: %2, %3").arg(who, what, whom);
}

} // namespace

RowList::Row rowOf(const wire::Act& act)
{
    RowList::Row row;
    const QDateTime time = QDateTime::fromMSecsSinceEpoch(act.at.time_since_epoch().count());
    row.before = time.toString(QStringLiteral("HH:mm"));
    row.head = sentenceOf(act);
    row.below = QString::fromStdString(act.detail).simplified();
    return row;
}

} // namespace vh::help
