// LeadModel's part for what is changed in mid-class.
#include "app/lead/lead_model.h"
#include "app/lead/lead_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::lead
{

namespace
{

using Sheet = ChangesView::Sheet;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::lead::LeadModel", text);
}

} // namespace

bool LeadModel::mayChange() const
{
    return m_script && stage() == Stage::inClass && holdsPlace();
}

void LeadModel::followChanges(Instant now)
{
    if (!mayChange())
        return m_changes.close();
    const ClassState state = mirrored();
    m_changes.follow({*m_script, state, now});
}

std::optional<wire::Lead> LeadModel::change(const ChangeRequest& request, Instant now)
{
    using Kind = ChangeRequest::Kind;
    switch (request.kind) {
    case Kind::showSteps:
    case Kind::showSection:
    case Kind::showTrim:
    case Kind::showText:
    case Kind::close:
        showChanges(request, now);
        return {};
    case Kind::moreTime:
        return moreTime(now);
    case Kind::jump:
        return request.at ? jumpTo(*request.at, now) : std::nullopt;
    case Kind::agree:
        return agreeToTrim(now);
    case Kind::putBack:
        return putBack(now);
    case Kind::correct:
    case Kind::takeFile:
        break;
    }
    return {};
}

void LeadModel::showChanges(const ChangeRequest& request, Instant now)
{
    using Kind = ChangeRequest::Kind;
    if (!mayChange() || request.kind == Kind::close)
        return m_changes.close();
    m_desk.close();
    const StepAt here = stepOf(m_place->place);
    if (request.kind == Kind::showSteps && m_changes.sheet() == Sheet::steps)
        m_changes.close();
    else if (request.kind == Kind::showSteps)
        m_changes.showSteps(here);
    else if (request.kind == Kind::showSection)
        m_changes.showSteps(request.at->section == here.section ? here : StepAt{request.at->section, 0});
    else if (request.kind == Kind::showTrim && m_changes.sheet() == Sheet::trim)
        m_changes.close();
    else if (request.kind == Kind::showTrim)
        m_changes.showTrim({*m_script, mirrored(), now});
    else if (m_role == Role::leader)
        m_changes.showText(request.at.value_or(here));
}

ChangesView LeadModel::changes() const
{
    if (!mayChange())
        return {};
    const ClassState state = mirrored();
    return m_changes.view({*m_script, state, {}}, m_role == Role::leader, m_hasFile);
}

std::optional<wire::Lead> LeadModel::jumpTo(StepAt step, Instant now)
{
    auto lead = press(CommandKind::jump, now);
    if (!lead)
        return {};
    lead->to = step;
    m_changes.close();
    return lead;
}

std::optional<wire::Lead> LeadModel::moreTime(Instant now)
{
    const bool underWay =
        m_pressed && m_place && m_pressed->command == CommandKind::stretch && m_pressed->serial == m_place->serial;
    if (underWay) { // goes out when the one before has been answered, or its place has come
        ++m_moreWaiting;
        return {};
    }
    auto lead = press(CommandKind::stretch, now);
    if (lead)
        lead->more = kMoreByOnePress;
    return lead;
}

std::optional<wire::Lead> LeadModel::moreThatWaited(Instant now)
{
    if (m_moreWaiting == 0 || m_pressed)
        return {};
    const int presses = std::exchange(m_moreWaiting, 0);
    auto lead = press(CommandKind::stretch, now);
    if (lead)
        lead->more = std::min(presses * kMoreByOnePress, kMostMore);
    return lead;
}

std::optional<wire::Lead> LeadModel::agreeToTrim(Instant now)
{
    const std::size_t count = m_changes.proposal().steps.size();
    if (m_changes.sheet() != Sheet::trim || count == 0)
        return {};
    auto lead = press(CommandKind::leaveOut, now);
    if (!lead)
        return {};
    lead->leftOut = m_changes.agreed(mirrored());
    m_changes.close();
    say(count == 1 ? words("One step is left out. To put it back: I, then Z.")
                   : words("%1 steps are left out. To put them back: I, then Z.").arg(count),
        now);
    return lead;
}

std::optional<wire::Lead> LeadModel::putBack(Instant now)
{
    if (!m_place || leftOutToCome(mirrored()).empty())
        return {};
    auto lead = press(CommandKind::leaveOut, now);
    if (!lead)
        return {};
    m_changes.close();
    say(words("What was left out and still comes is in again."), now);
    return lead;
}

void LeadModel::correctionGoesOut()
{
    m_changes.setFault({});
    m_changes.setSending(true);
}

void LeadModel::correctionAnswered(const Error* error, Instant now)
{
    m_changes.setSending(false);
    if (!error) {
        if (m_changes.sheet() == Sheet::text)
            m_changes.close();
        return say(words("The homes have the corrected text."), now);
    }
    const QString why = refusalWords(*error);
    if (m_changes.sheet() == Sheet::text)
        m_changes.setFault(why);
    else
        say(why, now);
}

} // namespace vh::lead
