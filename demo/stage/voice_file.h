#pragma once
// Writes a sound file of a plain synthetic voice reading: pulses through three resonances, unsteady as voices are, in
// phrases of syllables with pauses. For the demo and for tests that need sound of a known level. 48 kHz mono float.
#include <filesystem>

namespace vh::stage
{

struct VoiceFile {
    double seconds = 60;
    double pitchHz = 118;
    double levelDbfs = -32;         ///< RMS over the whole file without its pauses
    double roomDbfs = -75;          ///< noise under all of it
    double leadInSeconds = 4;       ///< only the room, at first
    double phraseSeconds = 4;       ///< speaking
    double pauseSeconds = 0.6;      ///< between phrases
    double louderFromSeconds = 1e6; ///< from here on,
    double louderByDb = 0;          ///< this much louder
    unsigned seed = 1;
};

/// False when the file could not be written.
[[nodiscard]] bool writeVoiceFile(const std::filesystem::path& file, const VoiceFile& voice);

} // namespace vh::stage
