// LeadModel's part for what the helpers' desk has for her.
#include "app/lead/lead_model.h"

namespace vh::lead
{

void LeadModel::showDesk(DeskRequest::Kind kind)
{
    m_changes.close();
    if (kind == DeskRequest::Kind::showActs)
        m_desk.showActs();
    else if (kind == DeskRequest::Kind::showDesk)
        m_desk.showDesk();
    else
        m_desk.close();
}

DeskNews::Turn LeadModel::turnNow() const
{
    DeskNews::Turn turn;
    const auto at = m_script && m_place ? turnAt(*m_script, m_place->place) : std::nullopt;
    if (at && m_place->phase == Phase::running) {
        turn.serial = m_place->turnSerial;
        const SectionKind kind = at->section->kind;
        turn.calm = kind == SectionKind::pause || kind == SectionKind::openTalk;
    }
    return turn;
}

void LeadModel::followDesk(Instant now)
{
    m_desk.follow(turnNow(), m_hall.covered(), now);
}

} // namespace vh::lead
