#pragma once
// The measuring half of a simulated home: its samples through the real Meter, and through the real MicCheck first.
// Where the computer rides the gain, that happens before either. Thread: one at a time, any (a worker's).
#include "common/home/mic_check.h"
#include "common/signal/meter.h"

#include <span>
#include <vector>

namespace vh::chorus
{

/// Gain that a computer moves by itself towards an even level: up and down at 6 dB/s, over half a second of level,
/// within 15 dB, held in silence. A plain model of what operating systems and microphones do; the figures are a choice
/// of ours.
class GainRider
{
public:
    void push(std::vector<float>& samples);

private:
    double m_meanSquare = 0;
    double m_gainDb = 0;
};

class HomeEars
{
public:
    explicit HomeEars(bool gainRiding) : m_rides(gainRiding) {}

    struct Checked {
        MicCheck::Finding finding = MicCheck::Finding::fine;
        std::optional<float> usualDbfsA; ///< after a check that was fine
        float roomDbfsA = -120;
    };
    /// The sound of a mic check, which is repeated from its first words on as long as the check asks for more.
    [[nodiscard]] Checked check(std::vector<float> samples);
    [[nodiscard]] std::vector<VoiceFrame> listen(std::vector<float> samples);

private:
    Meter m_meter;
    GainRider m_rider;
    bool m_rides;
};

} // namespace vh::chorus
