// LeadControl's part for the helpers' desk: lines taken, the board open or held, levels, the log.
#include "app/lead/lead_control.h"

namespace vh::lead
{

void LeadControl::desk(const DeskRequest& request)
{
    using Kind = DeskRequest::Kind;
    const auto ask = [this](auto message) { m_asked[m_line.ask(std::move(message))] = {Asked::other}; };
    switch (request.kind) {
    case Kind::showDesk:
    case Kind::showActs:
    case Kind::close:
        m_model.showDesk(request.kind);
        if (request.kind == Kind::showActs)
            m_line.tell(wire::ActsAsk{m_model.place() ? std::optional(m_model.place()->classId) : std::nullopt});
        break;
    case Kind::take:
        if (const auto take = m_model.desk().takeItem(request.item, m_line.relayNow()))
            m_asked[m_line.ask(*take)] = {Asked::item, {}, {}, 0, request.item};
        break;
    case Kind::openBoard:
    case Kind::holdBoard:
        ask(wire::OpenBoard{{}, request.kind == Kind::openBoard});
        break;
    case Kind::showLevels:
    case Kind::hideLevels:
        ask(wire::LevelsToDesk{{}, request.kind == Kind::showLevels});
        break;
    }
    refresh();
}

} // namespace vh::lead
