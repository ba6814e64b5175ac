#pragma once
// A class as a home meets it, and frames of a voice: the script is that of tests/common/live with a picture, a vowel
// and a water pause. Any thread.
#include "common/signal/voice_frame.h"
#include "tests/common/live/scripts.h"

#include <cmath>

namespace vh::testing
{

/// Opening; phrases with a stretch and a picture; a vowel; water; closing. Every spoken step has fourTurns(), twice,
/// the second time with more voice.
inline ClassScript homeClass(const std::string& pictureFile = {})
{
    ClassScript script = smallClass();
    script.title = "Bread and baking";
    script.theme = "Bread";
    Step& loaf = script.sections[1].steps[0];
    loaf.text = "The loaf comes out golden and warm.";
    loaf.stretches = {{5, 7}, {20, 21}, {31, 32}};
    for (Step& step : script.sections[1].steps)
        step.rounds[1].moreVoice = true;
    if (!pictureFile.empty())
        loaf.picture = Picture{pictureFile, "A loaf of bread"};
    Step vowel = stepOf({fourTurns(), fourTurns()});
    vowel.text = "ah";
    Step water = stepOf({Round{false, {turn(TurnKind::listen, 30)}}});
    water.text = {};
    script.sections.insert(script.sections.begin() + 2,
                           Section{SectionKind::sustainedVowel, "One long vowel", {vowel}});
    script.sections.insert(script.sections.begin() + 3, Section{SectionKind::pause, "Water", {water}});
    return script;
}

/// `count` frames of a voice at this level, 10 ms each.
inline std::vector<VoiceFrame> voiceFrames(int count, float dbfsA, Blank blank = Blank::none)
{
    VoiceFrame frame;
    frame.meanSquareA = std::pow(10.0F, dbfsA / 10);
    frame.fastDbfsA = dbfsA;
    frame.noiseFloorDbfsA = -70;
    frame.voiced = true;
    frame.blank = blank;
    return std::vector<VoiceFrame>(static_cast<std::size_t>(count), frame);
}
inline std::vector<VoiceFrame> roomFrames(int count, float dbfsA = -70, Blank blank = Blank::none)
{
    auto frames = voiceFrames(count, dbfsA, blank);
    for (VoiceFrame& frame : frames)
        frame.voiced = false;
    return frames;
}

} // namespace vh::testing
