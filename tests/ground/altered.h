#pragma once
// What computers do to a microphone before anybody hears it, as this proving ground makes it: automatic gain, noise
// gates, suppressors, and lines that are no microphone of this person at all. Streams of mono floats at any rate,
// changed in place. Thread: one.
// Source of the gain computer and its smoothing: Giannoulis, Massberg and Reiss 2012, Digital Dynamic Range Compressor
// Design, J Audio Eng Soc 60:399 (feed-forward, log domain, smooth decoupled peak detector; from memory). The figures
// of attack, release, threshold and ratio are drawn at random from what such devices offer; common practice.
#include "tests/ground/sound.h"

#include <memory>

namespace vh::ground
{

class Line
{
public:
    virtual ~Line() = default;
    virtual void pass(std::span<float> samples) = 0;
};

enum class Altering : std::uint8_t {
    nothing,                ///< an ordinary microphone
    gain,                   ///< a feed-forward compressor as an automatic gain, with make-up gain
    gainHeld,               ///< the same, but it moves only while there is sound over its threshold, slowly
    outsideGain,            ///< webrtc-audio-processing's automatic gain, adaptive and digital
    gate,                   ///< closes under a threshold, by so much or altogether
    expander,               ///< a soft gate: falls several dB for one
    outsideNoiseSuppressor, ///< webrtc-audio-processing's, at one of its four levels
};
const char* nameOf(Altering altering);

/// `voiceDbfsA`: how loud the person is at this microphone, which is where such devices work.
std::unique_ptr<Line> lineOf(Altering altering, double voiceDbfsA, double roomDbfsA, int rateHz, Random& random);

} // namespace vh::ground
