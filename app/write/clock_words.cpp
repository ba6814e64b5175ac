#include "app/write/clock_words.h"

namespace vh::write
{

QString clockWords(Millis time)
{
    const auto seconds = std::chrono::round<std::chrono::seconds>(time).count();
    return QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

} // namespace vh::write
