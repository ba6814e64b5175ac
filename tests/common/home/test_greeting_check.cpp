// The short check: one spoken line, as known or far off.
#include "common/home/greeting_check.h"
#include "tests/common/home/home_class.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

GreetingCheck greeted(float voiceDb, float roomDb, Blank blank = Blank::none)
{
    GreetingCheck check(-30, -65);
    for (const auto& frames : {roomFrames(120, roomDb), voiceFrames(150, voiceDb, blank), roomFrames(80, roomDb)})
        for (const VoiceFrame& frame : frames)
            check.add(frame);
    return check;
}

} // namespace

class TestGreetingCheck : public QObject
{
    Q_OBJECT
private slots:
    void aVoiceAboutAsUsualIsAsKnown()
    {
        for (const float voiceDb : {-39.0F, -30.0F, -21.0F}) {
            QVERIFY(greeted(voiceDb, -66).done());
            QVERIFY(greeted(voiceDb, -66).asKnown());
        }
    }
    void aLevelFarOffIsNot()
    {
        QVERIFY(!greeted(-19, -66).asKnown());
        QVERIFY(!greeted(-42, -66).asKnown());
    }
    void aMuchLouderRoomIsNot() { QVERIFY(!greeted(-30, -48).asKnown()); }
    void anOverdrivenMicrophoneIsNot() { QVERIFY(!greeted(-29, -66, Blank::clipping).asKnown()); }
    void itIsOverWhenTheLineIsNotWhenTimeIs()
    {
        GreetingCheck check(-30, -65);
        for (const VoiceFrame& frame : roomFrames(60'000))
            check.add(frame);
        QVERIFY(!check.done());
        QVERIFY(check.needsHint());
    }
    void withoutAnythingKnownAVoiceIsEnough()
    {
        GreetingCheck check;
        for (const auto& frames : {voiceFrames(150, -12), roomFrames(80)})
            for (const VoiceFrame& frame : frames)
                check.add(frame);
        QVERIFY(check.done() && check.asKnown());
    }
};

QTEST_APPLESS_MAIN(TestGreetingCheck)
#include "test_greeting_check.moc"
