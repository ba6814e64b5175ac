#include "app/people/ago.h"

#include <QCoreApplication>

namespace vh
{

QString agoWords(Millis gone)
{
    const auto say = [](const char* words) { return QCoreApplication::translate("vh::ago", words); };
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(gone).count();
    if (seconds < 1)
        return say("now");
    if (seconds < 60)
        return say("%1 s").arg(seconds);
    const auto minutes = seconds / 60;
    if (minutes < 60)
        return say("%1 min").arg(minutes);
    return say("%1 h %2 min").arg(minutes / 60).arg(minutes % 60);
}

} // namespace vh
