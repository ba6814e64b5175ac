#include "app/lead/own_voice.h"

#include <QCoreApplication>

namespace vh::lead
{

namespace
{

/// A microphone that is on has more noise of its own than this; 16-bit silence has less.
constexpr float kDeadBelowDbfsA = -100;

constexpr const char* kElsewhere = "Your voice goes by the other call";
constexpr const char* kLineLost = "They cannot hear you: the line is lost";
constexpr const char* kNotYet = "Not heard yet";
constexpr const char* kMuted = "Nobody hears you";
constexpr const char* kNoSound = "No sound from your microphone";
constexpr const char* kNothingBack = "They cannot hear you just now";
constexpr const char* kHearYou = "They hear you";
constexpr const char* kCanHearYou = "They can hear you";

QString say(const char* words)
{
    return QCoreApplication::translate("vh::lead", words);
}

bool isAlive(const OwnVoice::Around& around)
{
    return around.ears == sound::EarsState::hearing && around.newest && around.newest->blank != Blank::noSignal &&
           around.newest->fastDbfsA >= kDeadBelowDbfsA;
}

} // namespace

void OwnVoice::become(Mouth mouth)
{
    if (mouth == m_mouth)
        return;
    m_mouth = mouth;
    m_cameBackAt.reset(); // what comes back of an earlier time says nothing of this one
}

void OwnVoice::classBegins()
{
    if (m_mouth == Mouth::closed)
        become(Mouth::open);
}

void OwnVoice::press()
{
    become(m_mouth == Mouth::open ? Mouth::muted : Mouth::open);
}

void OwnVoice::heard(const VoiceFrame& frame, Instant now)
{
    if (frame.voiced && frame.blank == Blank::none)
        m_voiceAt = now;
}

wire::VoiceState OwnVoice::state(bool holds) const
{
    if (!holds)
        return wire::VoiceState::none;
    if (m_way == VoiceWay::elsewhere)
        return wire::VoiceState::elsewhere;
    switch (m_mouth) {
    case Mouth::closed:
        break;
    case Mouth::open:
        return wire::VoiceState::carried;
    case Mouth::muted:
        return wire::VoiceState::muted;
    }
    return wire::VoiceState::none;
}

LevelBar::State OwnVoice::sign(const Around& around, Instant now) const
{
    const auto level = isAlive(around) ? std::optional(around.newest->fastDbfsA) : std::nullopt;
    const auto off = [&](const char* words) { return LevelBar::State{say(words), level, false}; };
    if (m_way == VoiceWay::elsewhere)
        return off(kElsewhere);
    if (!around.lineUp)
        return off(kLineLost);
    if (m_mouth == Mouth::muted)
        return {say(kMuted), std::nullopt, false};
    if (!level)
        return off(kNoSound);
    if (m_mouth == Mouth::closed || !m_cameBackAt)
        return off(kNotYet);
    const auto isFresh = [now](const std::optional<Instant>& at) { return at && now - *at <= kFresh; };
    if (!isFresh(m_cameBackAt))
        return off(kNothingBack);
    return {say(isFresh(m_voiceAt) ? kHearYou : kCanHearYou), level, true};
}

QStringList OwnVoice::allWords()
{
    QStringList all;
    for (const char* words : {kElsewhere, kLineLost, kNotYet, kMuted, kNoSound, kNothingBack, kHearYou, kCanHearYou})
        all.append(say(words));
    return all;
}

} // namespace vh::lead
