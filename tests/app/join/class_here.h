#pragma once
// A class as a home meets it, without a relay: what would come over the line is said by the test. The script is that of
// tests/common/live with a picture, a vowel and a water pause. GUI thread.
#include "app/join/join_model.h"
#include "common/wire/binary.h"
#include "common/wire/script_json.h"
#include "tests/common/live/scripts.h"

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

/// A line that is never opened, and who follows it.
struct ClassHere {
    explicit ClassHere(ClassScript itsScript = homeClass(), const QByteArray& picture = {})
        : script(std::move(itsScript))
    {
        text = wire::encodeScript(script);
        open.classId = ClassId::random();
        open.title = script.title;
        open.parts = {wire::sha256(text)};
        if (!picture.isEmpty())
            open.parts.push_back(wire::sha256(picture.toStdString()));
        welcome.groupName = "Lakeside voices";
        welcome.name = "Ruth";
        welcome.person = PersonId::random();
        welcome.epoch = HallEpoch::random();
        welcome.here = 28;
        welcome.helpers = 2;
        welcome.open = open;
        now.classId = open.classId;
        now.leaderName = "Anna";
        now.line = HomeLine::classRuns;
        emit line.received(wire::ToClient(welcome));
        part(text);
        if (!picture.isEmpty())
            part(picture.toStdString());
    }
    void part(const std::string& bytes)
    {
        const std::string frame =
            wire::encodePart(wire::sha256(bytes), {reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
        emit line.binaryReceived(QByteArray(frame.data(), static_cast<qsizetype>(frame.size())));
    }
    /// The class is here now; the model is told.
    void place(join::JoinModel& model, Place at, Phase phase = Phase::running, HomeLine home = HomeLine::classRuns)
    {
        now.place = at;
        now.phase = phase;
        now.line = home;
        ++now.serial;
        if (phase != Phase::waiting && !held)
            ++now.turnSerial;
        held = phase == Phase::waiting;
        now.turnStartedAt = clock.now();
        if (const auto turn = turnAt(script, at))
            now.turnLength = turn->turn->planned;
        emit line.received(wire::ToClient(now));
        model.followClass(follow, clock.now());
    }

    HandClock clock{kNoon};
    link::Line line{clock};
    link::ClassFollow follow{line};
    ClassScript script;
    std::string text;
    wire::ClassOpen open;
    wire::Welcome welcome;
    wire::PlaceNow now;
    bool held = false; ///< the clock is held: the turn that runs on is the same one
};

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
