#pragma once
// The mic check as a participant goes through it: the full one, one question a screen, or one spoken greeting where
// device and spot are known; and, for who has a sound level meter, a calibration. Takes frames, gives the screen and
// what is to be done. Part of JoinModel: no widget, no sound. GUI thread. The words are in check_words.cpp.
#include "app/join/join_view.h"
#include "app/sound/ears_state.h"
#include "app/sound/loudspeaker_state.h"
#include "common/home/calibration.h"
#include "common/home/full_check.h"
#include "common/home/greeting_check.h"

#include <QStringList>

namespace vh::join
{

/// What is around the check and shown on its screens.
struct CheckAround {
    sound::EarsState ears = sound::EarsState::off;
    sound::LoudspeakerState loudspeaker = sound::LoudspeakerState::off;
    std::optional<float> levelDbfsA;
    QStringList devices;
    int device = 0;
};

class CheckFlow
{
public:
    enum class Step : std::uint8_t {
        full,
        greeting,
        different, ///< the greeting was not as known
        meterHow,
        meterKind,
        meterRead,
        meterFigures,
        calibrated,
    };
    /// What follows from a press, or from what was heard.
    enum class Next : std::uint8_t {
        stay,
        play,          ///< the check's own sound, now
        stopPlaying,   ///< the question was left
        inClass,       ///< with what was found: keep it
        inClassUnsure, ///< without a check that holds: no level is shown
        inClassKnown,  ///< the greeting was heard, or left out: as known
    };

    void startFull();
    /// With what is known of this spot.
    void startGreeting(std::optional<float> usualDbfsA, std::optional<float> roomDbfsA);

    /// inClassKnown once the greeting was heard; else stay.
    [[nodiscard]] Next frame(const VoiceFrame& frame);
    /// While the check's sound is played.
    void played(const VoiceFrame& frame, float microphone, float played);
    void setOtherVolume(bool other) { m_full.setOtherVolume(other); }

    [[nodiscard]] Next press(CheckPress press);
    [[nodiscard]] Next choose(int choice);
    [[nodiscard]] Next submit(const QStringList& fields);
    /// From a question with answers.
    [[nodiscard]] Next goBack();

    [[nodiscard]] Step step() const { return m_step; }
    [[nodiscard]] const FullCheck& full() const { return m_full; }
    [[nodiscard]] const GreetingCheck& greeting() const { return m_greeting; }
    /// The check's own sound is on its way out.
    void play(ProbeLayout layout) { m_full.play(layout); }
    [[nodiscard]] bool isPlaying() const { return m_step == Step::full && m_full.isPlaying(); }
    /// Of a meter held beside the person, today.
    [[nodiscard]] const std::optional<Calibration>& calibration() const { return m_calibration; }
    void setNow(Instant now) { m_now = now; }

    [[nodiscard]] JoinView view(const CheckAround& around) const;

private:
    [[nodiscard]] Next pressFull(CheckPress press);
    [[nodiscard]] Next pressResult(CheckPress press);
    [[nodiscard]] bool isDone() const { return m_full.stage() == FullCheck::Stage::done; }
    [[nodiscard]] Next leave() const;

    [[nodiscard]] CheckView listeningView(const CheckAround& around) const;
    [[nodiscard]] CheckView resultView() const;
    [[nodiscard]] CheckView greetingView() const;
    [[nodiscard]] CheckView meterView() const;
    [[nodiscard]] AskView peopleView() const;
    [[nodiscard]] AskView kindView() const;
    [[nodiscard]] AskView figuresView() const;

    Step m_step = Step::full;
    FullCheck m_full;
    GreetingCheck m_greeting;
    VoicePart m_reading;    ///< beside a meter
    EnergyMean m_readLevel; ///< all of its voice
    MeterKind m_meter = MeterKind::unknown;
    QStringList m_figures;
    QString m_wrong;
    std::optional<Calibration> m_calibration;
    Instant m_now{};
};

/// What was found, for the screen after the check: heading, and one thing to do.
struct FindingWords {
    QString heading;
    QString words;
};
[[nodiscard]] FindingWords wordsOf(CheckFinding finding);

} // namespace vh::join
