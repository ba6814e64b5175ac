// The tour's last part: the leader writes the class of another day.
#include "demo/tour/tour.h"

#include "demo/stage/press.h"

namespace vh::tour
{

void Tour::leaderWrites()
{
    m_leader->write();
    write::WriteControl& writing = *m_leader->writeControl();
    const auto rows = [&] { return writing.room().library().findChild<RowList*>()->state().rows.size(); };
    until([&] { return rows() > 20; }, "the library did not come");
    picture(*m_leader, "write-library");
    pressIn(*m_leader, "The days");
    need(!writing.days().held().empty(), "the class that was held is not among the days");
    picture(*m_leader, "write-days");
    pressIn(*m_leader, "Your classes");
    pressIn(*m_leader, "New class");
    stage::fillIn(*m_leader, {"The old harbour", "harbour, boat, rope, gull, tide, crane, quay, fog, bell, net"});
    picture(*m_leader, "write-start");
    pressIn(*m_leader, "Lay out this class");
    picture(*m_leader, "write-class");
}

} // namespace vh::tour
