// A home judging its own turns: what counts, what goes up, and what does not.
#include "common/home/home_meter.h"
#include "tests/common/home/home_class.h"

#include <QtTest>

#include <utility>

using namespace vh;
using namespace vh::testing;

namespace
{

/// In the first "yours" turn of the phrases, 5 s long, with a usual level of -30 dB(A).
struct Turning {
    Turning()
    {
        UsualLevel usual;
        usual.levelDbfsA = -30;
        meter.setUsuals({{TaskKind::phrases, usual}});
        meter.setRoom(-70);
        now.phase = Phase::running;
        begin();
    }
    void begin()
    {
        now.place = {1, 0, 0, 3};
        ++now.turnSerial;
        now.turnLength = Millis{5000};
        meter.follow(now, script, 0, kNoon);
    }
    /// The turn is over: the class listens.
    std::optional<TurnResult> end()
    {
        now.place = {1, 0, 1, 0};
        ++now.turnSerial;
        meter.follow(now, script, 0, kNoon);
        return meter.takeResult();
    }
    void hear(const std::vector<VoiceFrame>& frames)
    {
        for (const VoiceFrame& frame : frames)
            meter.add(frame);
    }
    ClassScript script = smallClass();
    wire::PlaceNow now;
    HomeMeter meter;
};

} // namespace

class TestHomeMeter : public QObject
{
    Q_OBJECT
private slots:
    void whatIsSaidAfterTheTurnIsNoPartOfItWhenNoPlaceComes()
    {
        Turning home;
        home.hear(voiceFrames(500, -26));
        QVERIFY(home.meter.takeReading());
        // The line is lost; at home somebody talks on, much louder, for a minute.
        home.hear(voiceFrames(6000, -10));
        QVERIFY(!home.meter.takeReading());
        QVERIFY(!home.meter.view().listening);
        QVERIFY(!home.meter.view().nowOverUsualDb);
        const auto result = home.end();
        QVERIFY(result);
        QCOMPARE(result->reading.elapsedMs, 5000U);
        QVERIFY(std::abs(result->reading.leqOverUsualDb - 4) < 0.1F);
    }

    void theRoomIsNormalOnlyNearToWhatTheCheckFound_data()
    {
        QTest::addColumn<float>("floor");
        QTest::addColumn<bool>("normal");
        QTest::newRow("as it was") << -70.0F << true;
        QTest::newRow("5 dB louder") << -65.0F << true;
        QTest::newRow("5 dB quieter") << -75.0F << true;
        QTest::newRow("7 dB louder") << -63.0F << false;
        QTest::newRow("7 dB quieter: switched off, or turned down") << -77.0F << false;
    }
    void theRoomIsNormalOnlyNearToWhatTheCheckFound()
    {
        QFETCH(const float, floor);
        QFETCH(const bool, normal);
        Turning home;
        auto frames = voiceFrames(400, -30);
        for (VoiceFrame& frame : frames)
            frame.noiseFloorDbfsA = floor;
        home.hear(frames);
        const auto result = home.end();
        QVERIFY(result);
        QCOMPARE(result->around.roomNormal, normal);
    }

    // Sound well above the room that is not known for a voice may be a voice not recognised: that is not silence.
    void unexplainedSoundIsNotSilence()
    {
        for (const auto& [frames, silent] : {std::pair{90, true}, std::pair{110, false}}) {
            Turning home;
            home.meter.voiceWasHeard();
            for (int turn = 0; turn < 2; ++turn) {
                if (turn > 0)
                    home.begin();
                auto sound = roomFrames(500);
                for (int i = 0; i < frames; ++i)
                    sound[static_cast<std::size_t>(i)].fastDbfsA = -50;
                home.hear(sound);
                QCOMPARE(!home.end()->around.masked, silent);
            }
            const auto view = home.meter.view();
            QVERIFY(view.standing == (silent ? Standing::noVoice : Standing::cantTell));
            QVERIFY(view.reason == (silent ? Blank::none : Blank::roomTooNoisy));
        }
    }

    // The room as tracked climbs after a voice that nobody knew for one (6 dB a second): it stays unexplained.
    void theRoomThatClimbsAfterASoundDoesNotExplainIt()
    {
        Turning home;
        home.meter.voiceWasHeard();
        auto sound = roomFrames(500);
        for (std::size_t i = 100; i < 300; ++i) {
            sound[i].fastDbfsA = -50;
            sound[i].noiseFloorDbfsA = std::min(-51.0F, -70 + 0.06F * static_cast<float>(i - 50) * 10);
        }
        home.hear(sound);
        QVERIFY(home.end()->around.masked);
    }

    void theVoiceCountsAsHeardOnlyOnceItWasHeardToday()
    {
        Turning home; // the room is known from a check on another day
        home.hear(roomFrames(500));
        QVERIFY(!home.end()->around.voiceHeard);
        home.begin();
        home.meter.voiceWasHeard(); // a check today
        home.hear(roomFrames(500));
        QVERIFY(home.end()->around.voiceHeard);
        home.meter.useMicrophone(); // another one
        home.meter.setRoom(-70);
        home.begin();
        home.hear(roomFrames(500));
        QVERIFY(!home.end()->around.voiceHeard);
        home.begin();
        home.hear(voiceFrames(500, -30));
        QVERIFY(home.end()->around.voiceHeard);
    }
};

QTEST_GUILESS_MAIN(TestHomeMeter)
#include "test_home_meter_edges.moc"
