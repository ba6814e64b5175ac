#include "demo/chorus/desk_lines.h"

#include "common/base/base64.h"
#include "common/wire/script_json.h"
#include "demo/chorus/leaders_voice.h"
#include "demo/chorus/seeded.h"

namespace vh::chorus
{

HelperLine::HelperLine(std::shared_ptr<Setting> setting, wire::Token token, DeskDuties duties, std::uint64_t seed)
    : Line(std::move(setting), {"Chorus helper", {}, token, Role::moderator}, seed), m_desk(*this, duties)
{
}

void HelperLine::cameIn(const wire::Welcome&)
{
    m_desk.forget();
}

void HelperLine::heard(const wire::ToClient& message)
{
    m_desk.heard(message, now());
}

void HelperLine::live(Instant at)
{
    m_desk.beat(at);
}

LeaderLine::LeaderLine(std::shared_ptr<Setting> setting, wire::Token token, DeskDuties duties, std::uint64_t seed)
    : Line(std::move(setting), {"Chorus leader", {}, token, Role::leader}, seed), m_desk(*this, duties), m_seed(seed)
{
}

bool LeaderLine::lead(const ClassScript& script)
{
    const std::string text = wire::encodeScript(script);
    if (text.size() > wire::kPartBytes)
        return false;
    wire::PartPut put;
    put.hash = wire::sha256(text);
    put.base64 = base64Of({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()});
    m_class.title = script.title;
    m_class.parts = {put.hash};
    m_script = std::make_shared<const ClassScript>(script);
    m_leads = true;
    if (m_place && !hasEnded())
        follow(wire::PlaceNow(*m_place));
    else
        m_putting = ask(std::move(put));
    return true;
}

void LeaderLine::press(CommandKind command)
{
    if (!m_place)
        return;
    wire::Lead lead;
    lead.command = command;
    lead.lease = m_place->lease;
    lead.serial = m_place->serial;
    const RequestId id = ask(lead);
    if (command == CommandKind::start)
        m_starting = id;
}

void LeaderLine::cameIn(const wire::Welcome& welcome)
{
    m_desk.forget();
    m_code = welcome.code;
    m_nextSign = now();
    if (welcome.place)
        follow(*welcome.place);
}

void LeaderLine::follow(const wire::PlaceNow& place)
{
    if (m_place && m_place->classId != place.classId)
        m_summary.reset();
    m_place = place;
    if (m_leads && place.phase == Phase::notStarted && !m_starting)
        press(CommandKind::start);
    speak();
}

/// What this turn asks of her, made by a worker. Where nobody speaks, she does not either.
void LeaderLine::speak()
{
    if (hasEnded())
        m_voice.reset();
    if (!m_script || !setting().workers || m_place->phase != Phase::running || m_turn == m_place->turnSerial)
        return;
    m_turn = m_place->turnSerial;
    if (!m_voice) {
        m_voice.emplace(static_cast<std::uint32_t>(nextNumber(m_seed)), setting().loop.tick());
        say(wire::Voice{wire::VoiceState::carried, m_voice->stream()});
    }
    m_voice->say(nullptr); // what she had not finished goes unsaid
    const auto job = [weak = weak_from_this(), &loop = setting().loop, script = m_script, place = m_place->place,
                      turn = m_turn] {
        loop.post([weak, turn, samples = std::make_shared<const std::vector<float>>(leadersTurn(*script, place))] {
            const auto self = std::static_pointer_cast<LeaderLine>(weak.lock());
            if (self && self->m_voice && self->m_turn == turn)
                self->m_voice->say(samples);
        });
    };
    (void)setting().workers->submit(job);
}

void LeaderLine::heard(const wire::ToClient& message)
{
    m_desk.heard(message, now());
    if (const auto* place = std::get_if<wire::PlaceNow>(&message)) {
        follow(*place);
    } else if (const auto* summary = std::get_if<wire::Summary>(&message)) {
        m_summary = *summary;
    } else if (const auto* over = std::get_if<wire::InviteOver>(&message)) {
        m_inviteOver = *over;
    } else if (const auto* lease = std::get_if<wire::LeaseNow>(&message)) {
        if (lease->mine && m_voice) // after every return, and when the place is hers again
            say(wire::Voice{wire::VoiceState::carried, m_voice->stream()});
    } else if (const auto* seats = std::get_if<wire::Seats>(&message)) {
        if (seats->whole)
            m_seats.clear();
        for (const wire::SeatName& seat : seats->seats)
            m_seats[seat.seat] = seat;
    }
}

void LeaderLine::heardBinary(std::span<const std::uint8_t> frame)
{
    if (wire::binaryTypeOf(frame) != static_cast<std::uint8_t>(wire::BinaryType::roster))
        return;
    const auto roster = wire::decodeRoster(frame);
    if (!roster) {
        ++totals().unreadable;
        return;
    }
    if (roster->whole)
        m_roster.clear();
    for (const wire::RosterEntry& entry : roster->entries)
        m_roster[entry.seat] = entry;
}

void LeaderLine::done(const wire::Ack& ack)
{
    if (m_putting == ack.id) {
        m_putting.reset();
        ask(m_class);
    }
    if (m_starting == ack.id)
        m_starting.reset();
}

void LeaderLine::refused(const wire::Refused& refused)
{
    // The class had moved on meanwhile: the next place says whether it still has to be started.
    if (m_starting == refused.id)
        m_starting.reset();
}

void LeaderLine::live(Instant at)
{
    m_desk.beat(at);
    if (m_voice)
        m_voice->beat(setting().loop.tick(),
                      [this](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
                          sayBinary(wire::encodeSound(head, payload));
                          ++totals().soundSent;
                      });
    if (at < m_nextSign || !m_place || hasEnded())
        return;
    m_nextSign = std::max(m_nextSign + Millis{wire::kLeadingEvery}, at);
    say(wire::Leading{m_place->lease});
}

} // namespace vh::chorus
