// What the leader's room prints: both papers of her class on one press, and the handout that the group is offered.
#include "app/lead/lead_control.h"

#include <QDateTime>
#include <QDir>
#include <QFutureWatcher>
#include <QtConcurrentRun>

namespace vh::lead
{

void LeadControl::bindPapers()
{
    connect(m_room, &LeadRoom::papersRequested, this, &LeadControl::pressPapers);
    connect(&m_handout, &HandoutOffer::failed, this,
            [this](const QString& why) { say(tr("The group gets no handout today: %1").arg(why)); });
}

handout::HandoutOptions LeadControl::handoutOptions() const
{
    handout::HandoutOptions options;
    options.paper = handout::paperOf(QLocale::system());
    if (const auto& welcome = m_line.welcome())
        options.group = QString::fromStdString(welcome->groupName);
    options.date = QDateTime::fromMSecsSinceEpoch(m_line.relayNow().time_since_epoch().count()).date();
    options.week = m_week;
    return options;
}

/// The class that is chosen, or the one that was opened here: of another there are no pictures on this computer.
bool LeadControl::hasPapers() const
{
    if (!m_choice.script())
        return false;
    return !m_follow.open() || m_follow.open()->classId == m_openedHere;
}

std::shared_ptr<const ClassScript> LeadControl::forPapers() const
{
    return m_follow.open() && m_onPaper ? m_onPaper : m_choice.script();
}

void LeadControl::pressPapers()
{
    if (!hasPapers() || m_making)
        return;
    if (m_papers) {
        if (!handout::showFolderOf(m_papers->handout))
            say(tr("This computer shows no folders. The papers are in %1.")
                    .arg(QDir::toNativeSeparators(QFileInfo(m_papers->handout).path())));
        return;
    }
    m_making = true;
    const auto script = forPapers();
    auto* watcher = new QFutureWatcher<Result<handout::Papers>>(this);
    connect(watcher, &QFutureWatcherBase::finished, this, [this, watcher, script] {
        watcher->deleteLater();
        papersMade(watcher->result(), script == forPapers());
    });
    const QString pictures = m_choice.folder();
    const QString folder = m_papersFolder.isEmpty() ? handout::folderForPapers(pictures) : m_papersFolder;
    watcher->setFuture(
        QtConcurrent::run([script, pictures, folder, options = handout::PapersOptions{handoutOptions(), {}}] {
            return handout::makePapers(*script, pictures, folder, options);
        }));
    refresh();
}

void LeadControl::papersMade(const Result<handout::Papers>& papers, bool stillChosen)
{
    m_making = false;
    if (!papers)
        return say(QString::fromStdString(papers.error().message));
    if (stillChosen)
        m_papers = *papers;
    say(tr("Handout and paper script are saved in %1.")
            .arg(QDir::toNativeSeparators(QFileInfo(papers->handout).path())));
}

PapersView LeadControl::papersView() const
{
    if (!hasPapers())
        return PapersView::none;
    return m_making ? PapersView::making : m_papers ? PapersView::saved : PapersView::offered;
}

} // namespace vh::lead
