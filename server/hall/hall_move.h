#pragma once
// One change of place by somebody who leads: told to all at once, answered when it is on disk, made once however often
// it is asked for. Included by the hall's own sources only.
#include "server/hall/hall_store.h"

#include <algorithm>

namespace vh::hall
{

inline constexpr std::size_t kMovesRemembered = 64;

inline Error refusalOf(Refusal refusal)
{
    switch (refusal) {
    case Refusal::oldLease:
        return {"old-lease", "Somebody else leads now.", {}};
    case Refusal::oldPlace:
        return {"old-place", "The class has already moved on.", {}};
    case Refusal::notLeader:
        return {"not-leader", "Somebody else holds the place.", {}};
    case Refusal::noStep:
        return {"step-unknown", "The class has no such step, or it belongs to the class and cannot be left out.", {}};
    case Refusal::oldScript:
        return {"old-revision", "The class has been corrected meanwhile. Please look at it once more.", {}};
    case Refusal::otherPast:
        return {"other-past",
                "The corrected class is not the same up to here: what has been led must keep its steps and turns, and "
                "this turn must be in it.",
                {}};
    case Refusal::notNow:
    case Refusal::none:
        break;
    }
    return {"not-now", "That is not possible at this point of the class.", {}};
}

/// One change of place by somebody who leads. Everybody hears of it at once; the answer waits for the disk.
template <class Message, class Move>
void Hall::move(Session& session, const Message& message, Move change)
{
    const RequestId id = message.id;
    const PersonId who = session.member()->id;
    const store::Hash payload = store::sha256(wire::encode(message));
    const auto before =
        std::find_if(m_led.begin(), m_led.end(), [&](const Led& led) { return led.who == who && led.ack.id == id; });
    if (before != m_led.end() && before->payload != payload)
        return session.refuse(id, {"conflict", "This has been asked for before, in other words.", "id"});
    if (before != m_led.end())
        return ledAgain(session, before->ack);
    if (!m_run.isOpen())
        return session.refuse(id, noClass());
    m_run.catchUp(); // so that what changes below is the command's doing
    struct Asked {
        wire::Ack ack;
        bool refused = false;
    };
    auto asked = std::make_shared<Asked>();
    asked->ack.id = id;
    m_whenKept = [self = shared_from_this(), weak = session.weak_from_this(), asked](bool kept) {
        const auto line = weak.lock();
        if (!line || asked->refused)
            return;
        if (kept)
            line->send(asked->ack, self->m_log.end());
        else
            line->refuse(asked->ack.id, busy()); // it has moved: asked again, only the storing is done again
    };
    const Outcome outcome = change(*session.member());
    const auto unused = std::exchange(m_whenKept, {});
    if (outcome.refusal != Refusal::none) {
        asked->refused = true;
        return session.refuse(id, refusalOf(outcome.refusal));
    }
    asked->ack.serial = outcome.state.serial;
    asked->ack.lease = outcome.state.lease.epoch;
    m_led.push_back({who, payload, asked->ack});
    if (m_led.size() > kMovesRemembered)
        m_led.pop_front();
    if (unused)
        unused(true); // nothing had to change
}

} // namespace vh::hall
