#pragma once
// How listening stands, and the plain words for it. Values.
#include <QString>

namespace vh::sound
{

enum class EarsState {
    off,        ///< not listening; nothing is open
    opening,    ///< asked for the device, no sound yet
    hearing,    ///< sound is coming in
    deviceLost, ///< it was there and is gone; looking for it every second
    noDevice,   ///< there is no microphone to open; looking for one every second
    fileEnded,  ///< the file has been heard to its end
    fileBad,    ///< the file could not be read
};

/// One plain sentence for a participant's screen.
QString wordsOf(EarsState state);

} // namespace vh::sound
