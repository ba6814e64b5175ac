#include "app/people/act_words.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>
#include <array>

namespace vh
{

namespace
{

struct Known {
    std::string_view what;
    const char* words; ///< %1: who, %2: whom
};
constexpr std::array kKnown{
    Known{"line-let-through", QT_TRANSLATE_NOOP("vh::acts", "%1 let through what %2 wrote.")},
    Known{"line-set-aside", QT_TRANSLATE_NOOP("vh::acts", "%1 set aside what %2 wrote.")},
    Known{"line-for-leader", QT_TRANSLATE_NOOP("vh::acts", "%1 passed on to the leader what %2 asked.")},
    Known{"line-for-clinician", QT_TRANSLATE_NOOP("vh::acts", "%1 passed on what %2 wrote: it needs a clinician.")},
    Known{"line-taken-back", QT_TRANSLATE_NOOP("vh::acts", "%1 put back to be read what %2 wrote.")},
    Known{"line-taken", QT_TRANSLATE_NOOP("vh::acts", "%1 took what %2 wrote.")},
    Known{"own-taken-back", QT_TRANSLATE_NOOP("vh::acts", "%1 took back their own line.")},
    Known{"answered", QT_TRANSLATE_NOOP("vh::acts", "%1 answered %2.")},
    Known{"answered-to-all", QT_TRANSLATE_NOOP("vh::acts", "%1 answered %2 on the board.")},
    Known{"quiet-for-a-while", QT_TRANSLATE_NOOP("vh::acts", "%1 let the writing of %2 rest for ten minutes.")},
    Known{"quiet-for-the-class", QT_TRANSLATE_NOOP("vh::acts", "%1 let the writing of %2 rest for the class.")},
    Known{"out-of-the-class", QT_TRANSLATE_NOOP("vh::acts", "%1 asked %2 to leave the class.")},
    Known{"rest-ended", QT_TRANSLATE_NOOP("vh::acts", "%1 let %2 in and write again.")},
    Known{"board-open", QT_TRANSLATE_NOOP("vh::acts", "%1 opened the board.")},
    Known{"board-held", QT_TRANSLATE_NOOP("vh::acts", "%1 had what people write read first again.")},
    Known{"levels-shown", QT_TRANSLATE_NOOP("vh::acts", "%1 let the desk see levels.")},
    Known{"levels-hidden", QT_TRANSLATE_NOOP("vh::acts", "%1 ended that the desk sees levels.")},
    Known{"picture-let-through", QT_TRANSLATE_NOOP("vh::acts", "%1 let through a picture of %2.")},
    Known{"picture-set-aside", QT_TRANSLATE_NOOP("vh::acts", "%1 set aside a picture of %2.")},
    Known{"picture-for-leader", QT_TRANSLATE_NOOP("vh::acts", "%1 passed on to the leader a picture of %2.")},
    Known{"picture-for-clinician",
          QT_TRANSLATE_NOOP("vh::acts", "%1 passed on a picture of %2: it needs a clinician.")},
    Known{"picture-for-window", QT_TRANSLATE_NOOP("vh::acts", "%1 gave a picture of %2 to be shown to all.")},
    Known{"picture-taken-back", QT_TRANSLATE_NOOP("vh::acts", "%1 put back to be looked at a picture of %2.")},
    Known{"picture-taken", QT_TRANSLATE_NOOP("vh::acts", "%1 took a picture of %2.")},
    Known{"picture-changed", QT_TRANSLATE_NOOP("vh::acts", "%1 changed a picture of %2.")},
    Known{"picture-in-window", QT_TRANSLATE_NOOP("vh::acts", "%1 showed a picture of %2 to all.")},
    Known{"call-taken", QT_TRANSLATE_NOOP("vh::acts", "%1 took the call for help of %2.")},
    Known{"call-done", QT_TRANSLATE_NOOP("vh::acts", "%1 saw to the call for help of %2.")},
    Known{"call-taken-back", QT_TRANSLATE_NOOP("vh::acts", "%1 took back their own call for help.")},
    Known{"call-let-go", QT_TRANSLATE_NOOP("vh::acts", "%1 was gone: the call for help of %2 was free again.")},
    Known{"contact-for-call", QT_TRANSLATE_NOOP("vh::acts", "%1 looked up where %2 is and whom to ring, for a call.")},
    Known{"contact-for-lost-line",
          QT_TRANSLATE_NOOP("vh::acts", "%1 looked up whom to ring for %2, whose line was lost.")},
    Known{"contact-dealt-with", QT_TRANSLATE_NOOP("vh::acts", "%1 saw to the lost line of %2.")},
};

QString say(const char* words)
{
    return QCoreApplication::translate("vh::acts", words);
}

QString nameOr(const std::string& name)
{
    return name.empty() ? say("somebody") : QString::fromStdString(name);
}

} // namespace

QString actWords(const wire::Act& act)
{
    const auto* known = std::ranges::find(kKnown, act.what, &Known::what);
    const QString who = act.who.empty() ? say("Somebody") : QString::fromStdString(act.who);
    if (known != kKnown.end()) {
        const QString words = say(known->words);
        return words.contains(QLatin1String("%2")) ? words.arg(who, nameOr(act.whom)) : words.arg(who);
    }
    const QString what = QString::fromStdString(act.what).replace(QLatin1Char('-'), QLatin1Char(' '));
    return act.whom.empty() ? QStringLiteral("%1: %2.").arg(who, what)
                            : QStringLiteral("%1: %2, %3.").arg(who, what, nameOr(act.whom));
}

QString actTime(const wire::Act& act)
{
    return QDateTime::fromMSecsSinceEpoch(act.at.time_since_epoch().count()).toString(QStringLiteral("HH:mm"));
}

QString actDetail(const wire::Act& act)
{
    return QString::fromStdString(act.detail);
}

} // namespace vh
