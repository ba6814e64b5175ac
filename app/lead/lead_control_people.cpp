// LeadControl's part for the people, and for the leader's own sound.
#include "app/lead/lead_control.h"

namespace vh::lead
{

void LeadControl::bindPeople()
{
    LeadRoom* room = m_room;
    const auto then = [this](auto act) {
        return [this, act](auto... values) {
            act(m_model.hall(), values...);
            refresh();
        };
    };
    connect(room, &LeadRoom::seatRequested, this, then([](HallModel& hall, int seat) { hall.openSeat(seat); }));
    connect(room, &LeadRoom::seatCloseRequested, this, then([](HallModel& hall) { hall.closeSeat(); }));
    connect(room, &LeadRoom::coverRequested, this, then([](HallModel& hall) { hall.toggleCover(); }));
    connect(room, &LeadRoom::tableRequested, this, then([](HallModel& hall) { hall.toggleTable(); }));
    connect(room, &LeadRoom::worthWordRequested, this, &LeadControl::sendWorthWord);
    connect(room, &LeadRoom::ownWordRequested, this, &LeadControl::sendOwnWord);
    connect(room, &LeadRoom::bandRequested, this, &LeadControl::moveBand);
}

void LeadControl::send(const std::optional<wire::PrivateWord>& word)
{
    if (word)
        m_asked[m_line.ask(*word)] = {Asked::word, {}, word->person};
    refresh();
}

void LeadControl::moveBand(BandMove move)
{
    if (const auto band = m_model.hall().moveBand(move))
        m_asked[m_line.ask(*band)] = {Asked::band, {}, band->person};
    refresh();
}

// --- her own sound ---------------------------------------------------------------------------------------------------

void LeadControl::openSoundCheck()
{
    m_check.emplace();
    listen();
    m_ears.drainFrames([](const VoiceFrame&) {}); // what was heard before does not count
    refresh();
}

void LeadControl::closeSoundCheck()
{
    m_check.reset();
    refresh();
}

void LeadControl::listen()
{
    const Stage stage = m_model.stage();
    if (stage == Stage::inClass || stage == Stage::over)
        m_check.reset(); // the class has begun
    const bool wanted = m_check || (m_model.holdsPlace() && (stage == Stage::ready || stage == Stage::inClass));
    if (wanted != m_listening) {
        m_listening = wanted;
        wanted ? m_ears.start(m_sound) : m_ears.stop();
    }
    if (!m_listening) {
        m_model.setOwnLevel({});
        return m_model.setSoundCheck({});
    }
    if (m_check)
        m_ears.drainFrames([this](const VoiceFrame& frame) { m_check->add(frame); });
    const sound::MeterSnapshot heard = m_ears.snapshot();
    const LevelBar::State sign = ownSign(m_ears.state(), heard.frameCount > 0 ? &heard.frame : nullptr);
    m_model.setOwnLevel(sign);
    m_model.setSoundCheck(m_check ? std::optional(soundCheckView(*m_check, m_ears.state(), sign)) : std::nullopt);
}

} // namespace vh::lead
