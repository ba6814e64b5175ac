#pragma once
// One home in a class, from sound to standing: the real CleanEar, HomeMeter and judge, and a class that does nothing
// but listen, get ready and speak. Without a far end the ear is the plain Meter. Thread: one.
#include "common/echo/clean_ear.h"
#include "common/home/home_meter.h"

namespace vh::ground
{

struct Outcome {
    TurnResult result;
    Standing running = Standing::notYet; ///< what the home shows after this turn
    Standing alone = Standing::notYet;   ///< what this turn by itself would make of somebody not yet judged
};

class Home
{
public:
    /// usualDbfsA: this person's usual level of phrases. roomDbfsA: what the mic check found of the room.
    Home(int rateHz, float usualDbfsA, float roomDbfsA);

    /// Before the class: the meter hears, nothing is judged.
    void hear(std::span<const float> samples, std::span<const float> far = {});
    /// One turn of this kind, as long as the samples.
    void turn(TurnKind kind, std::span<const float> samples, std::span<const float> far = {});
    /// A turn, and what came of it if the person was to speak in it.
    Outcome spoken(TurnKind kind, std::span<const float> samples, std::span<const float> far = {});
    /// A turn of the person's own.
    Outcome yours(std::span<const float> samples) { return spoken(TurnKind::yours, samples); }

private:
    void begin(TurnKind kind, Millis length);

    int m_rateHz;
    CleanEar m_ear;
    HomeMeter m_home;
    ClassScript m_script;
    wire::PlaceNow m_place;
};

} // namespace vh::ground
