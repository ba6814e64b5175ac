#include "app/lead/class_trace.h"

namespace vh::lead
{

std::optional<PaceSample> ClassTraceKeeper::see(const std::shared_ptr<const ClassScript>& script,
                                                const std::optional<wire::PlaceNow>& place, bool mine, Instant now)
{
    if (!place)
        return {};
    if (m_class != place->classId)
        *this = {};
    m_class = place->classId;
    const bool over = place->phase == Phase::ended;
    if (m_script && (m_script != script || (!mine && !over)))
        closeRun(now);
    if (mine && script && !over)
        m_script = script;
    if (m_script)
        note(m_run, {now, place->phase, place->place});
    if (!over || m_told)
        return {};
    m_told = true;
    closeRun(now);
    return m_sum;
}

void ClassTraceKeeper::closeRun(Instant now)
{
    if (!m_script)
        return;
    if (!m_run.empty()) // so that its last turn has a length
        note(m_run, {now, Phase::calmPause, m_run.back().place});
    m_sum.add(paceOf(*m_script, m_run, Led::inClass));
    m_run.clear();
    m_script.reset();
}

} // namespace vh::lead
