#include "demo/stage/leader_voice_file.h"

#include "common/voice/random.h"
#include "demo/chorus/leaders_voice.h"
#include "demo/stage/wav_file.h"

namespace vh::stage
{

namespace
{
/// More would take long to speak and say nothing new.
constexpr Millis kSpoken{90'000};
/// Her room, 74 dB under full scale: a microphone that hears nothing at all is taken for a dead one.
constexpr double kRoom = 2e-4;
} // namespace

bool writeLeaderVoice(const std::filesystem::path& file, const ClassScript& script, double seconds)
{
    std::vector<float> heard = chorus::leadersClass(script, kSpoken);
    voice::Random room(1);
    for (float& sample : heard)
        sample += static_cast<float>(kRoom * room.normal());
    return writeWav(file, heard, seconds, WavKind::sixteenBits);
}

} // namespace vh::stage
