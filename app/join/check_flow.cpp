#include "app/join/check_flow.h"

#include <QCoreApplication>

namespace vh::join
{

namespace
{

/// This program's own share of the way to the loudspeaker, in the playback device's buffer (app/sound/qt_outputs.cpp).
constexpr std::uint32_t kPlaybackBufferMs = 100;
constexpr std::uint32_t kMeterReadMs = 10'000;
constexpr float kReadingSpreadDb = 0.5F; ///< of the mean of ten seconds of one's reading; common practice

/// "72,5" is a number too.
std::optional<float> numberIn(const QString& text)
{
    bool good = false;
    const float number = QString(text).trimmed().replace(',', '.').toFloat(&good);
    return good ? std::optional(number) : std::nullopt;
}

} // namespace

void CheckFlow::startFull()
{
    m_step = Step::full;
    m_full = {};
    m_full.setPlaybackBuffer(kPlaybackBufferMs);
    m_calibration.reset();
}

void CheckFlow::startGreeting(std::optional<float> usualDbfsA, std::optional<float> roomDbfsA)
{
    m_step = Step::greeting;
    m_greeting = GreetingCheck(usualDbfsA, roomDbfsA);
}

CheckFlow::Next CheckFlow::frame(const VoiceFrame& frame)
{
    switch (m_step) {
    case Step::full:
        m_full.add(frame);
        break;
    case Step::greeting:
        m_greeting.add(frame);
        if (m_greeting.done() && m_greeting.asKnown())
            return Next::inClassKnown;
        if (m_greeting.done())
            m_step = Step::different;
        break;
    case Step::meterRead:
        m_reading.add(frame);
        if (frame.voiced)
            m_readLevel.add(frame.meanSquareA);
        if (m_readLevel.milliseconds() >= kMeterReadMs)
            m_step = Step::meterFigures;
        break;
    default:
        break;
    }
    return Next::stay;
}

void CheckFlow::played(const VoiceFrame& frame, float microphone, float played)
{
    m_full.addPlayed(frame, microphone, played);
}

CheckFlow::Next CheckFlow::leave() const
{
    return isDone() && levelsHold(m_full.finding()) && m_full.facts().usualDbfsA ? Next::inClass : Next::inClassUnsure;
}

CheckFlow::Next CheckFlow::press(CheckPress press)
{
    switch (m_step) {
    case Step::full:
        return isDone() ? pressResult(press) : pressFull(press);
    case Step::greeting:
        return press == CheckPress::skip ? Next::inClassKnown : Next::stay;
    case Step::different:
        if (press == CheckPress::skip)
            return Next::inClassUnsure;
        if (press == CheckPress::goOn)
            startFull();
        return Next::stay;
    case Step::meterHow:
        m_step = press == CheckPress::goOn ? Step::meterKind : Step::full;
        return Next::stay;
    case Step::meterRead:
        m_step = press == CheckPress::back ? Step::meterKind : Step::full;
        return Next::stay;
    case Step::calibrated:
        return press == CheckPress::goOn ? leave() : Next::stay;
    case Step::meterKind:
    case Step::meterFigures:
        break;
    }
    return Next::stay;
}

CheckFlow::Next CheckFlow::pressFull(CheckPress press)
{
    using Stage = FullCheck::Stage;
    const bool wasPlaying = isPlaying();
    const Stage stage = m_full.stage();
    switch (press) {
    case CheckPress::goOn:
        if (stage == Stage::loudspeaker && !wasPlaying)
            return Next::play;
        if (stage == Stage::usual && m_full.needsHint())
            m_full.skip();
        return Next::stay;
    case CheckPress::skip:
        if (stage == Stage::room || stage == Stage::usual)
            return Next::inClassUnsure;
        m_full.skip();
        break;
    case CheckPress::back:
        (void)m_full.goBack();
        break;
    case CheckPress::more:
        return Next::stay;
    }
    return wasPlaying ? Next::stopPlaying : Next::stay;
}

CheckFlow::Next CheckFlow::pressResult(CheckPress press)
{
    const CheckFinding finding = m_full.finding();
    switch (press) {
    case CheckPress::goOn:
        if (finding == CheckFinding::fine)
            return leave();
        startFull();
        return Next::stay;
    case CheckPress::skip:
        return leave();
    case CheckPress::back:
        (void)m_full.goBack();
        return Next::stay;
    case CheckPress::more:
        m_step = Step::meterHow;
        return Next::stay;
    }
    return Next::stay;
}

CheckFlow::Next CheckFlow::choose(int choice)
{
    if (m_step == Step::full && m_full.stage() == FullCheck::Stage::people && choice >= 0 && choice < 2) {
        m_full.answerPeople(choice + 1);
    } else if (m_step == Step::meterKind && choice >= 0 && choice <= static_cast<int>(MeterKind::unknown)) {
        m_meter = static_cast<MeterKind>(choice);
        m_reading = {};
        m_readLevel = {};
        m_wrong.clear();
        m_step = Step::meterRead;
    }
    return Next::stay;
}

CheckFlow::Next CheckFlow::submit(const QStringList& fields)
{
    if (m_step != Step::meterFigures)
        return Next::stay;
    m_figures = fields;
    const auto shown = numberIn(fields.value(0));
    const auto distance = numberIn(fields.value(1));
    if (!shown || !distance) {
        m_wrong =
            QCoreApplication::translate("vh::join::CheckFlow", "Please write both as figures, such as 66 and 30.");
        return Next::stay;
    }
    const auto found = calibrate({m_readLevel.dbfsA(), kReadingSpreadDb, *shown, *distance, m_meter}, m_now);
    if (!found) {
        m_wrong = QString::fromStdString(found.error().message);
        return Next::stay;
    }
    m_wrong.clear();
    m_calibration = *found;
    m_step = Step::calibrated;
    return Next::stay;
}

CheckFlow::Next CheckFlow::goBack()
{
    switch (m_step) {
    case Step::meterKind:
        m_step = Step::meterHow;
        break;
    case Step::meterFigures:
        m_step = Step::meterKind;
        break;
    default:
        (void)m_full.goBack();
        break;
    }
    return Next::stay;
}

} // namespace vh::join
