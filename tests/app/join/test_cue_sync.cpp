// The text of a new place shows at once; the cue, and what the meter listens to, change when the leader is heard to.
#include "tests/app/join/join_steps.h"
#include "tests/app/join/scenes.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{
constexpr std::uint32_t kStream = 7;
constexpr Place kListen{1, 0, 0, 0};
constexpr Place kYours{1, 0, 0, 3};
constexpr Place kNextStep{1, 1, 0, 0};
} // namespace

class TestCueSync : public QObject
{
    Q_OBJECT
private:
    std::unique_ptr<SceneClass> m_here;
    std::unique_ptr<JoinModel> m_model;
    std::uint64_t m_sent = 0;

    void frame()
    {
        m_model->soundCame(kStream, m_sent, m_here->clock.now());
        m_sent += 960;
    }
    CueBadge::State cue() const { return classOf(*m_model, *m_here).sheet.cue; }

private slots:
    void init()
    {
        m_here = std::make_unique<SceneClass>();
        m_model = std::make_unique<JoinModel>();
        intoClass(*m_model, *m_here);
        m_model->take(wire::ToClient(wire::VoiceNow{1, wire::VoiceState::carried, kStream, "Anna"}));
        m_sent = 0;
        m_here->place(*m_model, kListen);
        frame();
        (void)m_model->lookAtCue(0, m_here->clock.now());
        QCOMPARE(cue().turn, TurnKind::listen);
    }

    void theCueAndTheMeterWaitForTheSoundAndTheTextDoesNot()
    {
        m_here->place(*m_model, kNextStep);
        const std::string text = classOf(*m_model, *m_here).sheet.text.text;
        QCOMPARE(text, turnAt(m_here->script, kNextStep)->step->text);
        m_here->place(*m_model, kYours);
        const std::uint64_t first = m_sent;
        frame();
        QCOMPARE(cue().turn, TurnKind::listen);
        QVERIFY(m_model->cueWaits());
        QVERIFY(!m_model->meter().view().listening);
        QVERIFY(m_model->lookAtCue(first + 1, m_here->clock.now()));
        QCOMPARE(cue().turn, TurnKind::yours);
        QVERIFY(m_model->meter().view().listening);
        QVERIFY(!m_model->cueWaits());
    }

    void whatIsSaidBeforeTheCueIsNoPartOfTheTurn()
    {
        m_here->place(*m_model, kYours);
        const std::uint64_t first = m_sent;
        frame();
        hear(*m_model, voiceFrames(100, -24));
        QVERIFY(!m_model->meter().takeReading());
        (void)m_model->lookAtCue(first + 1, m_here->clock.now());
        hear(*m_model, voiceFrames(50, -24));
        const auto reading = m_model->meter().takeReading();
        QVERIFY(reading);
        QCOMPARE(reading->elapsedMs, 500U);
    }

    void soundThatStandsStillDoesNotHoldTheClass()
    {
        m_here->place(*m_model, kYours);
        frame();
        m_here->clock.advance(CueClock::kAtMost);
        QVERIFY(m_model->lookAtCue(0, m_here->clock.now()));
        QCOMPARE(cue().turn, TurnKind::yours);
    }

    void mutedTheCueChangesWithTheText()
    {
        m_model->take(wire::ToClient(wire::VoiceNow{2, wire::VoiceState::muted, kStream, "Anna"}));
        m_here->place(*m_model, kYours);
        QCOMPARE(cue().turn, TurnKind::yours);
    }

    void whereTheLineIsLostItChangesWithTheText()
    {
        m_here->place(*m_model, kYours);
        frame();
        m_model->lineIs(link::LineState::lost, {});
        (void)m_model->lookAtCue(0, m_here->clock.now());
        QCOMPARE(cue().turn, TurnKind::yours);
    }
};

QTEST_GUILESS_MAIN(TestCueSync)
#include "test_cue_sync.moc"
