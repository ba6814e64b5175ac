#include "app/write/folded.h"

#include <algorithm>
#include <array>

namespace vh::write
{

namespace
{

struct Letters {
    char16_t letter;
    const char* plain;
};
/// Letters that Unicode does not take apart, as people type them who have no such key.
constexpr std::array kPlain{Letters{u'\u00E6', "ae"}, Letters{u'\u0153', "oe"}, Letters{u'\u00F8', "o"},
                            Letters{u'\u0142', "l"},  Letters{u'\u0111', "d"},  Letters{u'\u00DF', "ss"}};

bool isApostrophe(QChar c)
{
    return c == u'\'' || c == u'\u2019' || c == u'\u02BC';
}

} // namespace

QByteArray folded(QStringView text)
{
    const QString apart = text.toString().toCaseFolded().normalized(QString::NormalizationForm_KD);
    QString words;
    words.reserve(apart.size() + 1);
    bool inWord = false;
    for (const QChar c : apart) {
        if (c.isMark() || (inWord && isApostrophe(c)))
            continue;
        if (!c.isLetterOrNumber() && !c.isSurrogate()) {
            inWord = false;
            continue;
        }
        if (!inWord)
            words += QLatin1Char(' ');
        inWord = true;
        const auto* plain =
            std::find_if(kPlain.begin(), kPlain.end(), [c](const Letters& each) { return QChar(each.letter) == c; });
        if (plain == kPlain.end())
            words += c;
        else
            words += QLatin1String(plain->plain);
    }
    return words.toUtf8();
}

QStringList foldedWords(QStringView text)
{
    return QString::fromUtf8(folded(text)).split(QLatin1Char(' '), Qt::SkipEmptyParts);
}

} // namespace vh::write
