#include "app/help/desk_acts.h"

#include <algorithm>

namespace vh::help
{

namespace
{
constexpr std::size_t kMost = 100;
}

void DeskActs::add(Act act)
{
    m_acts.push_back(act);
    if (m_acts.size() > kMost)
        m_acts.pop_front();
}

void DeskActs::didNot(std::uint64_t item)
{
    const auto found =
        std::find_if(m_acts.rbegin(), m_acts.rend(), [item](const Act& act) { return act.item == item; });
    if (found != m_acts.rend())
        m_acts.erase(std::next(found).base());
}

std::optional<DeskActs::Act> DeskActs::takeLast(const DeskWords& words)
{
    while (!m_acts.empty()) {
        const Act act = m_acts.back();
        m_acts.pop_back();
        const WordRow* row = words.find(act.item);
        if (act.item == 0 || (row && (row->onItsWay || row->state != wire::DeskState::held)))
            return act;
    }
    return std::nullopt;
}

} // namespace vh::help
