// LeadControl's part for the class that is to be led: choosing and opening it.
#include "app/lead/lead_control.h"
#include "common/base/base64.h"

#include <QFileDialog>

namespace vh::lead
{

void LeadControl::offer(const write::ClassOffers& offers)
{
    m_choice.offer(offers);
    if (m_choice.path().isEmpty() && !offers.todays.isEmpty())
        m_choice.choose(offers.todays);
    refresh();
}

void LeadControl::offerFolder(const QString& folder)
{
    m_choice.offerFolder(folder);
    refresh();
}

void LeadControl::chooseFile(const QString& path)
{
    m_choice.choose(path);
    m_papers.reset();
    refresh();
}

void LeadControl::askForFile()
{
    const QString path =
        QFileDialog::getOpenFileName(m_room, tr("Open a class"), m_choice.folder(), tr("Classes (*.yaml *.yml)"));
    if (!path.isEmpty())
        chooseFile(path);
}

void LeadControl::openChosen()
{
    const auto script = m_choice.script();
    if (!script || m_toOpen)
        return;
    auto published = publish(*script, m_choice.folder());
    if (!published) {
        const QString where = QString::fromStdString(published.error().where);
        m_model.say(where.isEmpty()
                        ? QString::fromStdString(published.error().message)
                        : QStringLiteral("%1: %2").arg(where, QString::fromStdString(published.error().message)),
                    m_line.relayNow());
        return refresh();
    }
    m_model.setHasFile(true);
    m_openedPath = m_choice.path();
    m_onPaper = script;
    m_handout.make(*script, m_choice.folder(), handoutOptions());
    putParts(*published);
}

void LeadControl::putParts(const PublishedClass& published)
{
    wire::OpenClass open;
    open.title = published.script.title;
    m_partsLeft = published.parts.size();
    for (const Part& part : published.parts) {
        open.parts.push_back(part.hash);
        const std::span bytes(reinterpret_cast<const std::uint8_t*>(part.bytes.data()), part.bytes.size());
        m_asked[m_line.ask(wire::PartPut{{}, part.hash, base64Of(bytes)})] = {Asked::part};
    }
    m_toOpen = std::move(open);
    refresh();
}

/// Once a class, for a leader.
void LeadControl::tellHeld(const wire::Summary& summary)
{
    const auto& place = m_model.place();
    const auto script = m_follow.script();
    if (m_model.role() != Role::leader || !script || !place || !place->startedAt || m_heldClass == place->classId)
        return;
    m_heldClass = place->classId;
    emit classHeld({script, m_openedHere == place->classId ? m_openedPath : QString(), *place->startedAt,
                    summary.planned, summary.actual});
}

} // namespace vh::lead
