#pragma once
// Notes, while she leads, when the class was where; at its end that is her pace in this class (common/live/pace_trace).
// Only while the place is hers: what somebody else leads says nothing of her. A corrected script is another script:
// what was before it is worked out with the old one. Pure; any one thread.
#include "common/live/pace_trace.h"
#include "common/wire/to_client.h"

#include <memory>

namespace vh::lead
{

class ClassTraceKeeper
{
public:
    /// At every change. The sample once, when the class is over; it may be empty.
    std::optional<PaceSample> see(const std::shared_ptr<const ClassScript>& script,
                                  const std::optional<wire::PlaceNow>& place, bool mine, Instant now);

private:
    void closeRun(Instant now);

    std::optional<ClassId> m_class;
    std::shared_ptr<const ClassScript> m_script; ///< of the run; null: none is open
    ClassTrace m_run;
    PaceSample m_sum;
    bool m_told = false;
};

} // namespace vh::lead
