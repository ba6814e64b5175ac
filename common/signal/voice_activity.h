#pragma once
// Whether a person is voicing, from 10 ms frames. What each rule is for, and the figures it rests on, are in
// voice_activity.cpp; what it reaches is in docs/ears.md. In short: sound that stands out from the room is voice when
//  - its period repeats as a voice's does (modal and breathy voice, down to as much breath as tone), or
//  - it is unvoiced for some time, broad, and its colour changes as fast as in speech or has the ripple of a mouth's
//    resonances (whisper);
// and not while it is one narrow tone, nearly all rumble, as steady as a machine, ringing down from a blow, or a short
// bark. Consonants and short gaps beside voice are carried along. Deterministic. Thread: one.
#include "common/signal/noise_floor.h"
#include "common/signal/periodicity.h"
#include "common/signal/sound_shape.h"
#include "common/signal/steadiness.h"

namespace vh
{

class VoiceActivity
{
public:
    struct Frame {
        double meanSquareA = 0;
        double meanSquareC = 0;
        bool learns = true; ///< false: says nothing of the room (a dead line, or too early to understand)
        Periodicity::Reading periodicity;
        SoundShape::Reading shape;
    };
    static constexpr double kVoicedFrom = 0.5;

    /// Confidence that a person is voicing, 0..1; voiced from kVoicedFrom on.
    double push(const Frame& frame);
    [[nodiscard]] const NoiseFloor& floorA() const { return m_floorA; }
    /// Like a voice just now, before onset and carrying: what the room is not learnt from.
    [[nodiscard]] bool voiceLike() const { return m_voiceLike; }
    /// The last frame stood out from the room, and was no blow: a voice that is sure a moment later may have begun
    /// there.
    [[nodiscard]] bool mayBegin() const { return m_mayBegin; }

private:
    /// What a frame is by itself.
    struct Moment {
        double levelDb = 0;
        double roomDb = 0;
        double core = 0;      ///< evidence of voice or whisper
        bool noVoice = false; ///< one tone, or a blow
        bool barred = false;  ///< that, or nearly all rumble
    };
    [[nodiscard]] double voicedEvidence(const Frame& frame, bool barred);
    [[nodiscard]] double whisperEvidence(const Frame& frame, bool barred);
    /// Onset, carrying along, hangover: brings the confidence up to date.
    void hold(const Frame& frame, const Moment& now);
    /// How much of the way to no voice each frame without evidence takes.
    [[nodiscard]] double release(double levelDb) const;
    bool isBark(const Frame& frame, bool periodic);
    void noteBlow(double levelDb, double roomDb);
    /// Ringing down from a blow (a door, a thing that fell), or a burst of air as no voice begins with (a cough).
    bool isStruck(const Frame& frame, double levelDb);

    NoiseFloor m_floorA;
    NoiseFloor m_floorC;
    Steadiness m_steadiness;
    double m_addedA = 0; ///< to the room, smoothed
    double m_addedC = 0;
    double m_confidence = 0;
    bool m_voiceLike = false;
    bool m_standsOut = false;
    bool m_mayBegin = false;
    int m_evidentFrames = 0;    ///< of the voice going on
    double m_highestSteady = 0; ///< of high periodic frames since the last blow
    double m_broad = 0;         ///< share of the last half second that was broad and unvoiced
    bool m_bark = false;
    bool m_machine = false; ///< as steady as one
    int m_sinceJump = 1000;
    int m_sinceBlow = 1000;
    bool m_blowGrew = true;      ///< went on growing: no blow
    bool m_blowSwelled = false;  ///< grew on for a tenth of a second: no cough
    double m_blowEarlyDb = 0;    ///< of its first 50 ms
    int m_soundedFrames = 0;     ///< on end
    bool m_soundedInTime = true; ///< as a voice does; else it is a cough
    double m_blowDb = 0;
    double m_levels[4] = {}; ///< of the last frames, dB, newest last
    double m_voiceDb = -200; ///< of the voice lately, its louder parts
    int m_sinceCore = 1000;  ///< frames since there was evidence
};

} // namespace vh
