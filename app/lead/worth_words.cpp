#include "app/lead/worth_words.h"

#include "app/lead/lead_words.h"

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

} // namespace

QStringList worthWords(const QString& name, WorthReason reason, std::uint32_t turns, const QString& section)
{
    const QString count = countWord(static_cast<int>(turns));
    const auto all = [&](std::initializer_list<QString> words) {
        QStringList lines;
        for (const QString& each : words)
            lines << QStringLiteral("%1: %2").arg(name, each);
        return lines;
    };
    switch (reason) {
    case WorthReason::easyForTheFirstTime:
        return all({say("easy to hear in all %1, for the first time today").arg(count),
                    say("easy to hear, for the first time today"), say("easy to hear now")});
    case WorthReason::moreVoiceWorked:
        if (section.isEmpty())
            return all({say("clearly more voice the second time"), say("clearly more voice")});
        return all({say("clearly more voice the second time, in %1").arg(section),
                    say("clearly more voice the second time"), say("clearly more voice")});
    case WorthReason::noVoiceSince:
        if (section.isEmpty())
            return all({say("no voice heard; the microphone works"), say("no voice heard")});
        return all({say("no voice heard since %1; the microphone works").arg(section),
                    say("no voice heard since %1").arg(section), say("no voice heard")});
    case WorthReason::easeOff:
        return all({say("far above the own band, %1 times running").arg(count), say("far above the own band")});
    case WorthReason::fading:
        if (section.isEmpty())
            return all({say("less voice than at the beginning"), say("less voice")});
        return all({say("less voice since %1 than at the beginning").arg(section),
                    say("less voice than at the beginning"), say("less voice now")});
    case WorthReason::aLittleMore:
        return all({say("a little more would be easy to hear, %1 turns running").arg(count), say("a little more")});
    }
    return all({QString()});
}

QString wordFor(WorthReason reason)
{
    switch (reason) {
    case WorthReason::easyForTheFirstTime:
        return say("You are easy to hear now. That is lovely.");
    case WorthReason::moreVoiceWorked:
        return say("I noticed: that was clearly more voice. Well done.");
    case WorthReason::noVoiceSince:
        return say("I would like to hear you. Whenever you are ready.");
    case WorthReason::easeOff:
        return say("Plenty of voice. You may take it a little easier.");
    case WorthReason::fading:
        return say("A full breath first, then the voice you began with.");
    case WorthReason::aLittleMore:
        return say("A little more voice, as if I sat across the room.");
    }
    return {};
}

std::span<const OwnWord> ownWords()
{
    static constexpr std::array words{
        OwnWord{WordKind::kind, QT_TRANSLATE_NOOP("vh::lead", "Good to hear you")},
        OwnWord{WordKind::kind, QT_TRANSLATE_NOOP("vh::lead", "That came across")},
        OwnWord{WordKind::kind, QT_TRANSLATE_NOOP("vh::lead", "Glad you are here")},
        OwnWord{WordKind::prompt, QT_TRANSLATE_NOOP("vh::lead", "Breathe first")},
        OwnWord{WordKind::prompt, QT_TRANSLATE_NOOP("vh::lead", "A little more")},
        OwnWord{WordKind::prompt, QT_TRANSLATE_NOOP("vh::lead", "Ease off a little")},
    };
    return words;
}

QString addressedWords(Addressed addressed)
{
    switch (addressed) {
    case Addressed::notAtAll:
        return say("Wishes not to be addressed.");
    case Addressed::kind:
        return say("May be addressed with kind words.");
    case Addressed::prompts:
        return say("May be addressed with kind words, and prompts too.");
    }
    return {};
}

QString bandWords(float offsetDb)
{
    const auto whole = static_cast<int>(std::lround(offsetDb));
    if (whole == 0)
        return say("Asked: as usual");
    return whole > 0 ? say("Asked: %1 dB more than usual").arg(whole) : say("Asked: %1 dB less than usual").arg(-whole);
}

} // namespace vh::lead
