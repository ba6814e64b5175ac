#include "demo/stage/leader_voice_file.h"

#include "demo/chorus/leaders_voice.h"
#include "demo/stage/wav_file.h"

namespace vh::stage
{

namespace
{
/// More would take long to speak and say nothing new.
constexpr Millis kSpoken{90'000};
} // namespace

bool writeLeaderVoice(const std::filesystem::path& file, const ClassScript& script, double seconds)
{
    return writeWav(file, chorus::leadersClass(script, kSpoken), seconds, WavKind::sixteenBits);
}

} // namespace vh::stage
