#include "demo/chorus/desk.h"

#include <algorithm>

namespace vh::chorus
{

namespace
{
constexpr Millis kReading{4'000};
constexpr Millis kGoing{6'000};
constexpr Millis kHelping{20'000};
} // namespace

void Desk::heard(const wire::ToClient& message, Instant at)
{
    if (const auto* door = std::get_if<wire::Door>(&message); door && m_duties.letsIn) {
        for (const wire::Waiting& waiting : door->waiting)
            if (waiting.device == kDeviceLabel && m_letIn.insert(waiting.door).second)
                m_line.ask(wire::LetIn{{}, waiting.door, {}});
    } else if (const auto* desk = std::get_if<wire::OnDesk>(&message); desk && m_duties.tends) {
        for (const wire::DeskItem& item : desk->items) {
            std::erase_if(m_due, [&](const Due& due) { return due.what == What::show && due.number == item.item; });
            if (item.state == wire::DeskState::held)
                m_due.push_back({at + kReading, What::show, item.item, item.change});
        }
    } else if (const auto* calls = std::get_if<wire::Calls>(&message); calls && m_duties.tends) {
        for (const wire::Call& call : calls->calls) {
            if (call.done) {
                forgetCall(call.call);
            } else if (m_calls.insert(call.call).second && call.takenBy.empty()) {
                m_due.push_back({at + kGoing, What::take, call.call, 0});
                m_due.push_back({at + kGoing + kHelping, What::close, call.call, 0});
            }
        }
    }
}

void Desk::forgetCall(std::uint64_t call)
{
    std::erase_if(m_due, [&](const Due& due) { return due.what != What::show && due.number == call; });
}

void Desk::beat(Instant at)
{
    const auto later = std::stable_partition(m_due.begin(), m_due.end(), [at](const Due& due) { return due.at > at; });
    const std::vector<Due> now(later, m_due.end());
    m_due.erase(later, m_due.end());
    for (const Due& due : now) {
        if (due.what == What::show)
            m_line.ask(wire::Decide{{}, due.number, due.change, wire::Decision::show});
        else if (due.what == What::take)
            m_line.ask(wire::HelpTake{{}, due.number});
        else
            m_line.ask(wire::HelpDone{{}, due.number, "All is well again."});
    }
}

void Desk::forget()
{
    m_letIn.clear();
    m_calls.clear();
    m_due.clear();
}

} // namespace vh::chorus
