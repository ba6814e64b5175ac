#include "common/home/full_check.h"

#include <algorithm>

namespace vh
{

namespace
{

constexpr std::uint32_t kFrameMs = VoiceFrame::kMilliseconds;
/// Of quiet after each answer: what a gain that is ridden needs to come up again, and to show itself.
constexpr std::uint32_t kSettledMs = 1800;
/// Who talks on is not waited for any longer than this.
constexpr std::uint32_t kSettleAtMostMs = 6000;
constexpr std::uint32_t kHintAfterMs = 15000;
constexpr std::uint32_t kSomeVoiceMs = 1000;
constexpr std::size_t kProbeQuietFrames = 200;
constexpr float kSilence = 1e-8F;              ///< of what is played
constexpr std::size_t kDiesAwayFrames = 25;    ///< late as it may come, and with the room's tail
constexpr std::size_t kProbeNeverFrames = 500; ///< nothing comes out: it is not played

} // namespace

void FullCheck::enter(Stage stage)
{
    m_stage = stage;
    m_settling = false;
    m_settledMs = m_settlingMs = 0;
    switch (stage) {
    case Stage::room:
        m_room = {};
        m_pauses = {};
        m_roomGain = {};
        break;
    case Stage::usual:
        m_usual = {};
        m_facts.askedForVoice = true;
        break;
    case Stage::vowel:
        m_vowel = UtterancePart(kVowelMs);
        break;
    case Stage::louder:
        m_louder = UtterancePart(kLouderMs);
        break;
    case Stage::loudspeaker:
        m_probe.reset();
        m_playedPauses = {};
        break;
    case Stage::people:
    case Stage::done:
        break;
    }
}

void FullCheck::add(const VoiceFrame& frame)
{
    if (m_stage == Stage::loudspeaker)
        return frame.voiced ? m_playedPauses.forgetQuiet() : m_playedPauses.addQuiet(frame);
    if (m_stage == Stage::people || m_stage == Stage::done)
        return;
    if (m_stage != Stage::room) {
        m_pauses.add(frame);
        m_roomGain.add(frame);
    }
    if (m_settling)
        return settle(frame);
    switch (m_stage) {
    case Stage::room:
        m_room.add(frame);
        m_pauses.addQuiet(frame);
        m_roomGain.addRoom(frame);
        break;
    case Stage::usual:
        m_usual.add(frame);
        break;
    case Stage::vowel:
        m_vowel.add(frame);
        break;
    default:
        m_louder.add(frame);
        break;
    }
    if (!partDone())
        return;
    keepPart();
    if (m_facts.dead)
        return enter(Stage::done);
    if (m_stage == Stage::room)
        return enter(Stage::usual);
    m_settling = true;
}

bool FullCheck::partDone() const
{
    switch (m_stage) {
    case Stage::room:
        return m_room.done();
    case Stage::usual:
        return m_usual.done() || m_usual.dead();
    case Stage::vowel:
        return m_vowel.done();
    default:
        return m_louder.done();
    }
}

void FullCheck::keepPart()
{
    switch (m_stage) {
    case Stage::room:
        m_facts.silentRoom = m_room.dead();
        m_facts.roomDbfsA = m_room.heardMs() > 0 ? std::optional(m_room.dbfsA()) : std::nullopt;
        break;
    case Stage::usual:
        m_facts.dead = m_usual.dead();
        m_facts.heardMs = m_usual.voicedMs();
        m_facts.usualDbfsA = m_usual.level();
        m_facts.clips = m_usual.clips();
        break;
    case Stage::vowel:
        m_facts.vowelDbfsA = m_vowel.level();
        m_facts.clips = m_facts.clips || m_vowel.clips();
        break;
    case Stage::louder:
        m_facts.louderDbfsA = m_louder.level();
        m_facts.clips = m_facts.clips || m_louder.clips();
        break;
    default:
        break;
    }
}

void FullCheck::settle(const VoiceFrame& frame)
{
    m_settlingMs += kFrameMs;
    m_settledMs = frame.voiced ? 0 : m_settledMs + kFrameMs;
    if (m_settledMs < kSettledMs && m_settlingMs < kSettleAtMostMs)
        return;
    m_pauses.finishPause();
    keepRoom();
    enter(static_cast<Stage>(static_cast<int>(m_stage) + 1));
}

void FullCheck::keepRoom()
{
    m_facts.pauses = m_pauses;
    m_facts.roomGain = m_roomGain;
}

void FullCheck::play(ProbeLayout layout)
{
    if (m_stage != Stage::loudspeaker)
        return;
    m_probe.emplace(layout);
    m_probeLength = layout.length;
    m_probeFrames = m_probeSinceBegun = m_sincePlayed = 0;
    m_probeHasBegun = false;
}

void FullCheck::addPlayed(const VoiceFrame& frame, float microphone, float played)
{
    if (!m_probe)
        return add(frame);
    m_probe->add(microphone, played);
    m_probeHasBegun = m_probeHasBegun || played > kSilence;
    VoiceFrame known = frame; // somebody speaks: the loudspeaker
    known.meanSquareA = microphone;
    m_sincePlayed = played > kSilence ? 0 : m_sincePlayed + 1;
    known.voiced = m_probeHasBegun && m_sincePlayed < kDiesAwayFrames;
    known.blank = Blank::none;
    if (m_probeHasBegun)
        m_playedPauses.add(known);
    else
        m_playedPauses.addQuiet(known);
    ++m_probeFrames;
    m_probeSinceBegun += m_probeHasBegun ? 1 : 0;
    if (m_probeSinceBegun >= m_probeLength + kProbeQuietFrames ||
        (!m_probeHasBegun && m_probeFrames >= kProbeNeverFrames))
        finishPlaying();
}

void FullCheck::finishPlaying()
{
    if (m_probeHasBegun) {
        m_facts.played = m_probe->result();
        m_playedPauses.finishPause();
    }
    m_facts.playedPauses = m_playedPauses;
    enter(Stage::people);
    m_probe.reset();
}

void FullCheck::skip()
{
    m_probe.reset();
    if (m_stage == Stage::done)
        return;
    keepRoom();
    if (!m_settling && m_stage == Stage::usual) {
        m_facts.heardMs = m_usual.voicedMs();
        if (m_facts.heardMs < kSomeVoiceMs) // nothing to hold or to say louder: is it the right microphone?
            return enter(Stage::loudspeaker);
    }
    enter(static_cast<Stage>(static_cast<int>(m_stage) + 1));
}

bool FullCheck::goBack()
{
    if (m_stage == Stage::room)
        return false;
    m_probe.reset();
    enter(static_cast<Stage>(static_cast<int>(m_stage) - 1));
    return true;
}

void FullCheck::answerPeople(int people)
{
    m_facts.people = people;
    if (m_stage == Stage::people)
        enter(Stage::done);
}

float FullCheck::progress() const
{
    if (m_settling)
        return 1;
    switch (m_stage) {
    case Stage::room:
        return m_room.progress();
    case Stage::usual:
        return m_usual.progress();
    case Stage::vowel:
        return m_vowel.progress();
    case Stage::louder:
        return m_louder.progress();
    case Stage::loudspeaker:
        return m_probeLength == 0 ? 0
                                  : std::min(1.0F, static_cast<float>(m_probeSinceBegun) /
                                                       static_cast<float>(m_probeLength + kProbeQuietFrames));
    case Stage::people:
    case Stage::done:
        break;
    }
    return 1;
}

bool FullCheck::needsHint() const
{
    if (m_settling)
        return false;
    return (m_stage == Stage::usual && m_usual.elapsedMs() >= kHintAfterMs && m_usual.progress() < 0.5F) ||
           (m_stage == Stage::vowel && m_vowel.elapsedMs() >= kHintAfterMs) ||
           (m_stage == Stage::louder && m_louder.elapsedMs() >= kHintAfterMs);
}

} // namespace vh
