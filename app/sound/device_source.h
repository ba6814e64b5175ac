#pragma once
// One microphone through Qt Multimedia, read on a thread of its own so that a busy screen costs no sound. Private to
// app/sound.
#include "app/sound/sound_source.h"

#include <QAudioDevice>

namespace vh::sound
{

/// Null when the device offers no format that could be metered.
std::unique_ptr<SoundSource> makeDeviceSource(const QAudioDevice& device);

} // namespace vh::sound
