#pragma once
// A class as a home meets it, without a relay: what would come over the line is said by the test. GUI thread.
#include "app/join/join_model.h"
#include "common/wire/binary.h"
#include "common/wire/script_json.h"
#include "tests/common/home/home_class.h"

namespace vh::testing
{

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

/// The line is up, the ears hear, and every question but today's was answered on an earlier day.
inline void walkIn(join::JoinModel& model, ClassHere& here)
{
    for (const auto& [kind, value] :
         std::initializer_list<std::pair<AgreementKind, const char*>>{{AgreementKind::levelVisible, "leader"},
                                                                      {AgreementKind::resultsKept, "yes"},
                                                                      {AgreementKind::otherLeaders, "no"},
                                                                      {AgreementKind::attendanceNamed, "yes"},
                                                                      {AgreementKind::nameSeen, "yes"},
                                                                      {AgreementKind::addressed, "kind"},
                                                                      {AgreementKind::mayRing, "no"}})
        here.welcome.agreements.push_back({kind, value});
    here.welcome.where = "Mill Lane 3";
    model.earsAre(sound::EarsState::hearing);
    model.lineIs(link::LineState::in, {});
    model.welcome(here.welcome, true);
    (void)model.choose(0); // where they were last time
}

} // namespace vh::testing
