#pragma once
// What the meter says of each 10 ms of one microphone. Plain values; levels are relative to digital full scale, because
// a home microphone is rarely calibrated and every comparison is with the person's own usual level.
#include <cstdint>

namespace vh
{

/// Why a stretch of sound cannot be trusted. Shown in words; the first that applies, in this order.
enum class Blank : std::uint8_t {
    none,
    noSignal,           ///< nothing but digital silence, or the device is gone
    clipping,           ///< the microphone is overdriven
    roomTooNoisy,       ///< the room's own level is too near the voice
    loudspeakerTooLoud, ///< what leaks from the loudspeaker is too near the voice
    alteredByComputer,  ///< gain riding or suppression changes the level
    somebodyElse,       ///< another voice in the room
    setupChanged,       ///< device, spot or input volume differ from those of the usual level: recheck
};

/// Whose sound it is. Without a known far end (what the loudspeaker plays) it is either the person's or the room's.
enum class Whose : std::uint8_t {
    room,        ///< nobody: the room, noise
    person,      ///< the person, and no more of the loudspeaker than can be taken away
    loudspeaker, ///< the far end, come back through the air
    both,        ///< the person, over a far end that could not be taken away well enough
    cantTell,
};

struct VoiceFrame {
    static constexpr int kMilliseconds = 10;
    float meanSquareA = 0;   ///< mean of squared A-weighted samples in these 10 ms, full scale = 1.0
    float lowMeanSquare = 0; ///< of LowBand, where no voice is: the room, through whatever gain there is; 0: unknown
    float fastDbfsA = -120;  ///< A-weighted, Fast (125 ms), 10 lg(mean square): full-scale square wave = 0
    float noiseFloorDbfsA = -120; ///< the room without the voice, as tracked so far
    bool voiced = false;          ///< voice activity: confidence is 0.5 or more
    float confidence = 0;         ///< 0..1, how sure it is that a person is voicing
    Blank blank = Blank::none;    ///< none: these 10 ms can be trusted
    Whose whose = Whose::room;
    float leakMeanSquareA = 0; ///< what is left of the loudspeaker in meanSquareA, as estimated; 0: nothing is played
};

} // namespace vh
