// LeadControl's part for what is changed in mid-class: jumps, more time, steps left out, corrections.
#include "app/lead/correction.h"
#include "app/lead/lead_control.h"
#include "common/base/base64.h"

#include <utility>

namespace vh::lead
{

void LeadControl::change(const ChangeRequest& request)
{
    if (request.kind == ChangeRequest::Kind::correct)
        correct(request.text);
    else if (request.kind == ChangeRequest::Kind::takeFile)
        takeFile();
    else
        press(m_model.change(request, m_line.relayNow()));
    refresh();
}

void LeadControl::press(const std::optional<wire::Lead>& lead)
{
    m_model.forgetEnd();
    if (lead)
        m_asked[m_line.ask(*lead)] = {Asked::press, {}, {}, m_model.pressNumber()};
}

void LeadControl::correct(const QString& marked)
{
    const auto script = m_follow.script();
    if (!script || !m_follow.open() || m_toRevise || !m_model.changes().mayCorrect)
        return;
    auto corrected = withText(*script, m_model.changes().text.at, marked.toStdString());
    if (!corrected)
        return m_model.correctionAnswered(&corrected.error(), m_line.relayNow());
    auto part = scriptPart(*corrected);
    if (!part)
        return m_model.correctionAnswered(&part.error(), m_line.relayNow());
    std::vector<wire::Hash> parts = m_follow.open()->parts;
    parts.front() = part->hash;
    m_forPaper.reset();
    if (m_onPaper && m_follow.open()->classId == m_openedHere)
        if (auto paper = withText(*m_onPaper, m_model.changes().text.at, marked.toStdString()))
            m_forPaper = std::make_shared<const ClassScript>(std::move(*paper));
    revise({*part}, parts);
}

/// The class's file has been changed and saved elsewhere, in the writing room perhaps.
void LeadControl::takeFile()
{
    if (!m_follow.open() || m_toRevise || m_openedPath.isEmpty() || !m_model.changes().mayCorrect)
        return;
    m_choice.choose(m_openedPath);
    const auto refuse = [this](const Error& error) { m_model.correctionAnswered(&error, m_line.relayNow()); };
    if (!m_choice.script())
        return refuse({"malformed",
                       tr("There is something to mend in the file before the homes can have it.").toStdString(),
                       {}});
    auto published = publish(*m_choice.script(), m_choice.folder());
    if (!published)
        return refuse(published.error());
    std::vector<wire::Hash> parts;
    for (const Part& part : published->parts)
        parts.push_back(part.hash);
    if (parts.front() == m_follow.open()->parts.front())
        return refuse({"same", tr("The file says what the class says already.").toStdString(), {}});
    m_forPaper = m_choice.script();
    revise(published->parts, parts);
}

/// First the parts, then the correction that stands on them.
void LeadControl::revise(const std::vector<Part>& put, const std::vector<wire::Hash>& parts)
{
    m_toRevise = wire::ReviseClass{{}, m_model.lease(), m_model.place()->revision, parts};
    m_partsLeft = put.size();
    m_model.correctionGoesOut();
    for (const Part& part : put) {
        const std::span bytes(reinterpret_cast<const std::uint8_t*>(part.bytes.data()), part.bytes.size());
        m_asked[m_line.ask(wire::PartPut{{}, part.hash, base64Of(bytes)})] = {Asked::part};
    }
}

void LeadControl::partAnswered(const Error* error)
{
    const Instant now = m_line.relayNow();
    if (error && m_toRevise) {
        m_toRevise.reset();
        m_model.correctionAnswered(error, now);
    } else if (error) {
        m_toOpen.reset();
        m_model.say(QString::fromStdString(error->message), now);
    } else if (m_partsLeft > 0 && --m_partsLeft == 0) {
        if (m_toRevise)
            m_asked[m_line.ask(*m_toRevise)] = {Asked::correction};
        else if (m_toOpen)
            m_asked[m_line.ask(*m_toOpen)] = {Asked::open};
    }
}

void LeadControl::correctionAnswered(const Error* error)
{
    m_toRevise.reset();
    m_model.correctionAnswered(error, m_line.relayNow());
    const auto paper = std::exchange(m_forPaper, nullptr);
    if (error || !paper || !m_openedHere)
        return;
    m_onPaper = paper;
    m_papers.reset(); // what was saved says what is no longer so
    m_handout.make(*paper, m_choice.folder(), handoutOptions());
    m_handout.offerFor(*m_openedHere);
}

} // namespace vh::lead
