#include "common/home/home_meter.h"

#include <algorithm>
#include <cmath>

namespace vh
{

namespace
{

constexpr std::uint32_t kReadingEveryMs = 250;
/// A room this much louder, or quieter, than at the mic check is no longer the same room.
constexpr float kRoomMovedDb = 6;
/// Sound this far above the room at its quietest in this turn that is not known for a voice: it may cover one, or be
/// one. (The room as tracked at the moment would not do: it climbs after a voice that is not recognised.)
constexpr float kUnexplainedDb = 6;
/// More than this share of a turn under noise, or such sound: nobody may be said to have been silent.
constexpr double kMaskedShare = 0.2;
/// Whispers and very soft voices are some 20 dB under a person's usual level; what is left of the loudspeaker must be
/// weaker than that, or nobody may be said to have been silent.
constexpr float kSoftestUnderUsualDb = 20;

bool isSpoken(TurnKind kind)
{
    return kind == TurnKind::withMe || kind == TurnKind::yours;
}

} // namespace

void HomeMeter::setRoom(float noiseFloorDbfsA)
{
    m_roomDbfsA = noiseFloorDbfsA;
}

void HomeMeter::useMicrophone()
{
    m_roomDbfsA.reset();
    m_floorDbfsA.reset();
    m_voiceHeard = false;
    m_others = {};
    m_people = 1;
    m_calibrationDb.reset();
}

void HomeMeter::follow(const wire::PlaceNow& place, const ClassScript& script, float bandOffsetDb, Instant now)
{
    if (m_class != place.classId) {
        forget();
        m_class = place.classId;
    }
    const bool on = place.phase == Phase::running || place.phase == Phase::waiting;
    m_held = place.phase != Phase::running;
    if (m_turn && m_turn->tally.reading().turnSerial == place.turnSerial && on) {
        m_turn->length = place.turnLength; // the clock is held, or runs on, for longer perhaps: it is the same turn
        return;
    }
    finish(now);
    const auto at = turnAt(script, place.place);
    const bool wasOthersTurn = std::exchange(m_othersTurn, on && at && !isSpoken(at->turn->kind));
    if (m_othersTurn && !wasOthersTurn)
        m_others.begin();
    if (!on || !at || m_othersTurn)
        return;
    const auto task = taskOf(at->section->kind);
    if (!task)
        return;
    if (const auto band = bandFor(at->section->kind, bandOffsetDb))
        m_band = *band;
    const auto usual = usualFor(*task);
    m_turn.emplace(Turn{TurnTally(place.turnSerial, usual.value_or(0)), at->turn->kind, at->section->kind,
                        place.turnLength, bandOffsetDb, *task, usual.value_or(0), usual.has_value()});
}

std::optional<float> HomeMeter::usualFor(TaskKind task) const
{
    const auto inForce = [this](TaskKind kind) -> std::optional<float> {
        const auto found = m_usuals.find(kind);
        return found == m_usuals.end() ? std::nullopt : found->second.inForce();
    };
    // Open talk without a usual level of its own is compared with that of phrases.
    const auto own = inForce(task);
    return own || task != TaskKind::openTalk ? own : inForce(TaskKind::phrases);
}

void HomeMeter::forget()
{
    m_turn.reset();
    m_result.reset();
    m_judge = {};
    m_othersTurn = false;
    m_class.reset();
}

void HomeMeter::add(const VoiceFrame& frame)
{
    m_floorDbfsA = frame.noiseFloorDbfsA;
    m_voiceHeard = m_voiceHeard || (frame.voiced && frame.blank == Blank::none);
    if (m_othersTurn && !m_held)
        m_others.add(frame);
    if (!m_turn || m_held)
        return;
    // While the line is down no place comes to end the turn: what is said after its time is no part of it.
    if (Millis{m_turn->elapsedMs} >= m_turn->length)
        return;
    m_turn->elapsedMs += VoiceFrame::kMilliseconds;
    m_turn->tally.add(frame);
    m_turn->quietestDbfsA = std::min(m_turn->quietestDbfsA, frame.noiseFloorDbfsA);
    noteCover(*m_turn, frame);
}

void HomeMeter::noteCover(Turn& turn, const VoiceFrame& frame)
{
    const double softest = turn.usualDbfsA - kSoftestUnderUsualDb;
    if (frame.blank == Blank::roomTooNoisy || frame.blank == Blank::noSignal)
        turn.noisyMs += VoiceFrame::kMilliseconds;
    else if (frame.blank == Blank::loudspeakerTooLoud || frame.whose == Whose::cantTell || frame.whose == Whose::both)
        turn.loudspeakerMs += VoiceFrame::kMilliseconds;
    else if (frame.whose == Whose::loudspeaker)
        turn.loudspeakerMs +=
            static_cast<double>(frame.leakMeanSquareA) > std::pow(10.0, softest / 10) ? VoiceFrame::kMilliseconds : 0;
    else if (!frame.voiced && frame.fastDbfsA > turn.quietestDbfsA + kUnexplainedDb)
        turn.unexplainedMs += VoiceFrame::kMilliseconds;
}

bool HomeMeter::isMasked(const Turn& turn)
{
    return turn.noisyMs + turn.loudspeakerMs + turn.unexplainedMs > kMaskedShare * turn.elapsedMs;
}

Reading HomeMeter::readingOf(const Turn& turn) const
{
    Reading reading = turn.tally.reading();
    if (m_people > 1) {
        reading.trustPercent = 0;
        reading.reason = Blank::somebodyElse;
        return reading;
    }
    const auto others = m_others.levelDbfsA();
    const bool clear =
        reading.voicedMs > 0 && others && reading.leqOverUsualDb + turn.usualDbfsA >= *others + OtherVoices::kClearDb;
    if (others && !clear) {
        reading.trustPercent = 0;
        reading.reason = Blank::somebodyElse;
    } else if (reading.reason == Blank::none && isMasked(turn)) {
        const bool byLoudspeaker = turn.loudspeakerMs > turn.noisyMs + turn.unexplainedMs;
        reading.reason =
            byLoudspeaker ? Blank::loudspeakerTooLoud : Blank::roomTooNoisy; // should it come to "no voice"
    }
    return reading;
}

std::optional<Reading> HomeMeter::takeReading()
{
    if (!m_turn || !m_turn->judged)
        return std::nullopt;
    const Reading reading = readingOf(*m_turn);
    if (reading.elapsedMs < m_turn->sentAtMs + kReadingEveryMs)
        return std::nullopt;
    m_turn->sentAtMs = reading.elapsedMs;
    return reading;
}

std::optional<TurnResult> HomeMeter::takeResult()
{
    return std::exchange(m_result, std::nullopt);
}

Surroundings HomeMeter::surroundings(const Turn& turn) const
{
    Surroundings around;
    around.leakDb = turn.tally.leakDb();
    around.roomNormal = m_roomDbfsA && m_floorDbfsA && std::abs(*m_floorDbfsA - *m_roomDbfsA) < kRoomMovedDb;
    around.masked = isMasked(turn) || m_others.levelDbfsA();
    around.voiceHeard = m_voiceHeard;
    if (m_calibrationDb && turn.judged)
        around.ceiling = ceilingOf(readingOf(turn).leqOverUsualDb + turn.usualDbfsA + *m_calibrationDb);
    return around;
}

void HomeMeter::finish(Instant now)
{
    if (!m_turn)
        return;
    const Turn turn = *std::exchange(m_turn, std::nullopt);
    const Reading reading = readingOf(turn);
    const bool trusted = reading.trustPercent >= kTrustedFromPercent && reading.voicedMs >= kVoiceToJudgeMs;
    if (reading.elapsedMs == 0)
        return; // nobody listened
    if (!turn.judged) {
        const bool learns = turn.task == TaskKind::vowel && turn.kind == TurnKind::yours && trusted;
        if (learns) // the turn's usual level was 0: what is "over" it is the level itself
            m_usuals[turn.task] = withValue(m_usuals[turn.task], reading.leqOverUsualDb, now);
        return;
    }
    m_result = TurnResult{reading, surroundings(turn)};
    m_judge = judge(m_judge, {*m_result, turn.kind, turn.section, turn.length, turn.offsetDb});
}

HomeMeter::View HomeMeter::view() const
{
    View view;
    view.standing = m_judge.standing;
    view.reason = m_judge.reason;
    view.band = m_band;
    if (m_calibrationDb && m_turn && m_turn->judged)
        view.band = underCeiling(m_band, m_turn->usualDbfsA + *m_calibrationDb);
    if (!m_turn)
        return view;
    const Reading reading = m_turn->tally.reading();
    const bool runs = !m_held && Millis{m_turn->elapsedMs} < m_turn->length;
    view.listening = runs;
    view.heard = vh::heard(reading);
    if (m_turn->judged && runs && reading.heardMs > 0)
        view.nowOverUsualDb = reading.nowOverUsualDb;
    return view;
}

} // namespace vh
