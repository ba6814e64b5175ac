#pragma once
// A class that runs in this program alone, by the very functions that a hall runs it with (common/live): it takes the
// presses that would go to a relay, and says where the class is as a relay would. Notes when it was where. Pure; any
// one thread.
#include "common/live/class_moves.h"
#include "common/live/pace_trace.h"
#include "common/wire/to_client.h"
#include "common/wire/to_relay.h"

#include <memory>

namespace vh::write
{

class LocalClass
{
public:
    LocalClass(std::shared_ptr<const ClassScript> script, Instant now);

    /// What a relay says to somebody who comes in and leads: the welcome, then that the place is hers.
    [[nodiscard]] wire::Welcome welcome(Instant now) const;
    [[nodiscard]] wire::LeaseNow lease() const;
    [[nodiscard]] wire::PlaceNow place() const;

    /// A press. Nothing: it was done; else why not, as a relay words it.
    std::optional<Error> press(const wire::Lead& lead, Instant now);
    /// The clock, and that she is there. True: something has changed.
    bool tick(Instant now);

    [[nodiscard]] const ClassState& state() const { return m_state; }
    [[nodiscard]] const ClassTrace& trace() const { return m_trace; }

private:
    void note(Instant now);

    std::shared_ptr<const ClassScript> m_script;
    ClassId m_id = ClassId::random();
    PersonId m_leader = PersonId::random();
    ClassState m_state;
    ClassTrace m_trace;
};

} // namespace vh::write
