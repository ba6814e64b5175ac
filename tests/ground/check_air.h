#pragma once
// What arrives at one home's microphone in a mic check, before any computer alters it: the person's voice, sometimes
// with breath blown on the microphone under it, the room, a noise beside it, traffic outside; a microphone that cuts
// low sound somewhere and has a noise of its own. At kVoiceRateHz. Thread: one.
#include "common/signal/biquad.h"
#include "tests/ground/check_room.h"

#include <optional>

namespace vh::ground
{

/// What the microphone is connected to.
enum class Wire : std::uint8_t {
    person,    ///< the microphone in front of the person
    monitor,   ///< what the computer plays, and nothing else
    elsewhere, ///< a microphone in another room, or in a drawer: a room, no person and no loudspeaker
    hum,       ///< an input with nothing in it
    dead,      ///< digital silence
};
const char* nameOf(Wire wire);

struct CheckSetting;

class CheckAir
{
public:
    CheckAir(const CheckRoom& room, const CheckSetting& setting, Random& random);

    [[nodiscard]] double voiceDb() const { return m_voiceDb; }
    [[nodiscard]] double roomDb() const { return m_roomDb; }
    [[nodiscard]] const Reader& reader() const { return m_reader; }

    /// Whole frames of 10 ms, all of them. Nothing but the voice, that much louder than usual.
    [[nodiscard]] Samples silence(double seconds) const;
    [[nodiscard]] Samples spoken(const Samples& said, double moreDb);
    /// The check's own sound, `lead` frames into as much as is asked for; as loud as the loudspeaker is.
    [[nodiscard]] Samples played(std::size_t frames, std::size_t lead);
    /// All the rest, and through the microphone.
    void addRoom(Samples& sound);

private:
    struct Stream {
        const Samples* samples = nullptr;
        std::size_t at = 0;
        double gain = 0;
    };
    void blow(Samples& sound, double gain);
    static void lay(Stream& stream, Samples& sound);

    const CheckRoom& m_room;
    const CheckSetting& m_setting;
    Random& m_random;
    const Reader& m_reader;
    double m_voiceDb = 0, m_roomDb = 0;
    Stream m_tone, m_noise, m_street, m_own; ///< its own: behind the microphone's cut
    double m_blowDb = 0;                     ///< over the room; 0: none
    Biquad m_lowCut;
};

} // namespace vh::ground
