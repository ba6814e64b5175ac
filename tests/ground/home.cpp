#include "tests/ground/home.h"

namespace vh::ground
{

namespace
{
constexpr std::array kTurns{TurnKind::listen, TurnKind::ready, TurnKind::withMe, TurnKind::yours};
}

Home::Home(int rateHz, float usualDbfsA, float roomDbfsA) : m_rateHz(rateHz), m_ear(rateHz)
{
    Round round;
    for (const TurnKind kind : kTurns)
        round.turns.push_back({kind, Millis{4000}});
    Step step;
    step.text = "Warm bread, please";
    step.rounds.push_back(round);
    m_script.sections.push_back({SectionKind::phrases, "At the counter", {step}});
    UsualLevel usual;
    usual.levelDbfsA = usualDbfsA;
    m_home.setUsuals({{TaskKind::phrases, usual}});
    m_home.setRoom(roomDbfsA);
    m_home.voiceWasHeard();
    m_place.classId = ClassId::random();
    m_place.phase = Phase::running;
}

void Home::hear(std::span<const float> samples, std::span<const float> far)
{
    m_ear.push(samples, far, [this](const VoiceFrame& frame) { m_home.add(frame); });
}

void Home::begin(TurnKind kind, Millis length)
{
    const auto at = std::find(kTurns.begin(), kTurns.end(), kind) - kTurns.begin();
    m_place.place = {0, 0, 0, static_cast<std::uint16_t>(at)};
    ++m_place.turnSerial;
    m_place.turnLength = length;
    m_home.follow(m_place, m_script, 0, Instant{});
}

void Home::turn(TurnKind kind, std::span<const float> samples, std::span<const float> far)
{
    begin(kind, Millis{samples.size() * 1000 / static_cast<std::size_t>(m_rateHz)});
    hear(samples, far);
}

Outcome Home::spoken(TurnKind kind, std::span<const float> samples, std::span<const float> far)
{
    turn(kind, samples, far);
    if (kind != TurnKind::yours && kind != TurnKind::withMe)
        return {};
    const Millis length = m_place.turnLength;
    begin(TurnKind::listen, Millis{4000});
    Outcome outcome;
    if (const auto result = m_home.takeResult())
        outcome.result = *result;
    outcome.running = m_home.view().standing;
    outcome.alone = judge({}, {outcome.result, kind, SectionKind::phrases, length, 0}).standing;
    return outcome;
}

} // namespace vh::ground
