#include "app/write/writing.h"

#include "app/write/write_room.h"

#include <QDir>
#include <QFileInfo>
#include <QFutureWatcher>
#include <QtConcurrentRun>

namespace vh::write
{

Writing::Writing(Setup setup, QObject* parent)
    : QObject(parent), m_setup(std::move(setup)), m_start(new StartPage(m_setup.room)),
      m_editor(
          new EditorControl({[this](std::string_view language) { return rulesOf(language); }, {}, {}}, m_setup.room)),
      m_rehearsal(
          std::make_unique<Rehearsal>(RehearsalSetup{m_setup.clock, m_setup.ears, m_setup.microphone, m_setup.pace}))
{
    m_setup.room->add(m_start);
    m_setup.room->add(m_editor->page());
    m_setup.room->add(m_rehearsal->widget());
    connect(m_start, &StartPage::laidOut, this, &Writing::openNew);
    connect(m_start, &StartPage::leaveRequested, this, [this] { emit leaveRequested({}); });
    connect(m_rehearsal.get(), &Rehearsal::leaveRequested, this, [this] {
        if (!m_toEditor)
            return emit leaveRequested(m_path);
        m_setup.room->show(m_editor->page());
        m_editor->page()->toFields();
    });
    bindEditor();
}

Writing::~Writing()
{
    delete m_editor; // it asks this for its rules; the page goes with the room
}

void Writing::bindEditor()
{
    connect(m_editor, &EditorControl::leaveRequested, this, [this] {
        m_setup.library->written(m_path); // a class that is not finished is listed, too
        emit leaveRequested(m_path);
    });
    connect(m_editor, &EditorControl::saved, this, [this](const QString& path) {
        m_path = path;
        m_setup.library->written(path);
        emit saved(path);
    });
    connect(m_editor, &EditorControl::rehearseRequested, this,
            [this](const ClassScript& script, const QString& folder) { rehearseScript(script, folder, true); });
    connect(m_editor, &EditorControl::handoutRequested, this, &Writing::printScript);
}

ReviewRules Writing::rulesOf(std::string_view language) const
{
    ReviewRules rules = rulesFor(language);
    if (m_setup.saidLately)
        rules.usedLately = m_setup.saidLately(m_path);
    if (m_setup.pace)
        rules.pace = m_setup.pace->pace();
    return rules;
}

void Writing::beginNew(const StartPage::State& state)
{
    m_start->setState(state);
    m_setup.room->show(m_start);
}

void Writing::openNew(const ClassScript& script)
{
    m_path = m_setup.library->newPath(QString::fromStdString(script.title));
    m_setup.room->show(m_editor->page());
    m_editor->openNew(script, m_path);
    m_path = m_editor->path();
}

void Writing::edit(const QString& path)
{
    m_path = path;
    m_setup.room->show(m_editor->page());
    m_editor->open(path);
}

void Writing::rehearse(const QString& path)
{
    const auto script = readScriptFile(path);
    if (!script)
        return;
    m_path = path;
    rehearseScript(*script, QFileInfo(path).absolutePath(), false);
}

void Writing::rehearseScript(const ClassScript& script, const QString& folder, bool toEditor)
{
    m_toEditor = toEditor;
    m_rehearsal->start(script, folder);
    m_setup.room->show(m_rehearsal->widget());
}

void Writing::print(const QString& path)
{
    m_path = path;
    if (const auto script = readScriptFile(path))
        printScript(*script, QFileInfo(path).absolutePath());
}

/// In the background; then the folder is shown in which the papers lie.
void Writing::printScript(const ClassScript& script, const QString& folder)
{
    if (m_printing)
        return;
    m_printing = true;
    auto* watcher = new QFutureWatcher<Result<handout::Papers>>(this);
    connect(watcher, &QFutureWatcherBase::finished, this, [this, watcher] {
        watcher->deleteLater();
        m_printing = false;
        const Result<handout::Papers> papers = watcher->result();
        if (!papers)
            return emit printed(QString::fromStdString(papers.error().message));
        (void)handout::showFolderOf(papers->handout);
        emit printed(tr("Handout and paper script are saved in %1.")
                         .arg(QDir::toNativeSeparators(QFileInfo(papers->handout).path())));
    });
    const QString to = m_setup.papersFolder.isEmpty() ? handout::folderForPapers(folder) : m_setup.papersFolder;
    const handout::PapersOptions options{m_setup.papers ? m_setup.papers(m_path) : handout::HandoutOptions{}, {}};
    watcher->setFuture(
        QtConcurrent::run([script, folder, to, options] { return handout::makePapers(script, folder, to, options); }));
}

void Writing::keepNow()
{
    m_editor->keepNow();
}

} // namespace vh::write
