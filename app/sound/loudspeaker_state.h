#pragma once
// How playing stands, and the plain words for it. Values.
#include <QString>

namespace vh::sound
{

enum class LoudspeakerState {
    off,        ///< not playing; nothing is open
    opening,    ///< asked for the device, nothing played yet
    playing,    ///< the device takes sound
    deviceLost, ///< it was there and is gone; looking for one every second
    noDevice,   ///< there is no loudspeaker to open; looking for one every second
    fileBad,    ///< the file that was to be written could not be
};

/// One plain sentence for a participant's screen.
QString wordsOf(LoudspeakerState state);

} // namespace vh::sound
