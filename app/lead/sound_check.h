#pragma once
// A leader's own sound check, as values: three seconds of the room, then her own voice, and what was found of each.
// What it shows is her microphone only: nobody is asked whether they hear her. Pure; any one thread.
#include "app/lead/own_voice.h"
#include "app/sound/ears_state.h"
#include "app/widgets/level_bar.h"
#include "common/home/mic_check.h"

#include <QString>

#include <vector>

namespace vh::lead
{

struct SoundCheckView {
    QString heading; ///< what to do now
    QString words;
    double progress = 0; ///< 0 ... 1 of the present part
    bool done = false;
    struct Fact {
        QString what;  ///< "The room"
        QString found; ///< "quiet"; "not heard yet"
        bool known = false;
        friend bool operator==(const Fact&, const Fact&) = default;
    };
    std::vector<Fact> facts; ///< room, level, clipping
    LevelBar::State level;
    friend bool operator==(const SoundCheckView&, const SoundCheckView&) = default;
};

SoundCheckView soundCheckView(const MicCheck& check, sound::EarsState ears, const LevelBar::State& level, VoiceWay way);

} // namespace vh::lead
