#include "app/write/editor_control.h"

#include "app/widgets/picture_file.h"
#include "app/write/editor_show.h"
#include "common/script/limits.h"
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace vh::write
{

namespace
{

struct Read {
    ClassScript script;
    QString mistake; ///< empty: it could be read
};

Read readClass(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return {{}, file.errorString()};
    const auto read = readClassScript(file.read(static_cast<qint64>(limits::kMaxScriptBytes) + 1).toStdString(),
                                      QFileInfo(path).fileName().toStdString(), plannedAsSpoken);
    if (read)
        return {*read, {}};
    const ScriptError& first = read.error().front();
    return {{},
            EditorControl::tr("Line %1: %2 %3")
                .arg(first.line)
                .arg(QString::fromStdString(first.message), QString::fromStdString(first.remedy))};
}

/// With a number where something is there already.
QString freePath(const QString& path)
{
    const QFileInfo info(path);
    QString free = path;
    for (int number = 2; QFile::exists(free) || QFile::exists(DraftKeeper::draftPathOf(free)); ++number)
        free =
            info.dir().filePath(QStringLiteral("%1-%2.%3").arg(info.completeBaseName()).arg(number).arg(info.suffix()));
    return free;
}

} // namespace

EditorControl::EditorControl(const EditorSetup& setup, QWidget* parent)
    : QObject(parent), m_setup(setup), m_document(setup.rules), m_keeper(setup.drafts), m_page(new EditorPage(parent))
{
    m_keeper.setSource([this] { return Draft{m_document.script(), m_document.spot(), {}, 0}; });
    connect(&m_keeper, &DraftKeeper::stateChanged, this, &EditorControl::show);
    connect(&m_document, &ClassDocument::changed, this, [this] {
        m_said.clear();
        m_unsaved = true;
        m_keeper.touch();
        show();
    });
    connect(&m_document, &ClassDocument::chosen, this, &EditorControl::show);
    connect(&m_document.undoStack(), &QUndoStack::indexChanged, this, &EditorControl::show);
    connectTyping();
    connectPresses();
}

EditorControl::~EditorControl()
{
    m_keeper.disconnect(this);
    m_document.disconnect(this);
    m_document.undoStack().disconnect(this);
    m_keeper.keepNow();
}

// --- opening ---------------------------------------------------------------------------------------------------------

void EditorControl::open(const QString& path)
{
    m_keeper.keepNow();
    m_asked = path;
    if (m_keeper.take(path) == DraftKeeper::Place::anothers)
        return ask({EditorQuestion::elsewhere,
                    tr("This class is open in another window"),
                    tr("Two windows would write over each other. Close it there, then try again."),
                    {{EditorAnswer::again, tr("Try again")}, {EditorAnswer::leave, tr("Leave")}}});
    openHere(path);
}

void EditorControl::openHere(const QString& path)
{
    const Read read = readClass(path);
    m_onDisk = read.script;
    m_unfinished = m_keeper.unfinished();
    if (!m_unfinished && !read.mistake.isEmpty())
        return ask({EditorQuestion::unreadable,
                    tr("This class cannot be read"),
                    read.mistake,
                    {{EditorAnswer::leave, tr("Leave")}}});
    if (!m_unfinished)
        return begin(read.script, *stepAfter(read.script, {}), true);
    if (!read.mistake.isEmpty()) { // there is no class yet, only the draft
        const DraftKeeper::Unfinished draft = *m_unfinished;
        return begin(draft.draft.script, draft.draft.spot, false);
    }
    const QString when =
        QLocale().toString(QDateTime::fromMSecsSinceEpoch(m_unfinished->draft.written), tr("d MMMM, HH:mm"));
    ask({EditorQuestion::unfinished,
         tr("Something here was not finished"),
         (m_unfinished->classChanged
              ? tr("There is a draft of this class from %1. The class itself has been changed since then.")
              : tr("There is a draft of this class from %1 that was not saved."))
                 .arg(when) +
             u' ' + tr("What you do not take now is kept beside it."),
         {{EditorAnswer::goOn, tr("Go on with what was not finished")},
          {EditorAnswer::leaveIt, tr("Leave it, and take the class as it is")}}});
}

void EditorControl::openNew(const ClassScript& script, const QString& path)
{
    m_keeper.keepNow();
    const QString free = freePath(path);
    if (m_keeper.take(free) == DraftKeeper::Place::anothers)
        return openNew(script,
                       freePath(QFileInfo(free).dir().filePath(QFileInfo(free).completeBaseName() + "-2.yaml")));
    begin(script, {}, false);
    m_keeper.touch();
    goTo(m_document.nextToWrite());
}

void EditorControl::begin(const ClassScript& script, Spot spot, bool finished)
{
    m_ask = {};
    m_unfinished.reset();
    m_pictures.clear();
    m_document.blockSignals(true); // nothing has been changed
    m_document.begin(script, spot);
    m_document.blockSignals(false);
    m_unsaved = !finished;
    m_said =
        m_document.toWrite().empty() ? QString() : tr("%1 texts are to be written.").arg(m_document.toWrite().size());
    show();
    m_page->toFields();
}

void EditorControl::ask(AskView view)
{
    m_ask = std::move(view);
    show();
}

void EditorControl::answered(EditorAnswer answer)
{
    const EditorQuestion question = std::exchange(m_ask, {}).question;
    switch (answer) {
    case EditorAnswer::goOn: {
        const auto draft = *m_unfinished;
        return begin(draft.draft.script, draft.draft.spot, false);
    }
    case EditorAnswer::leaveIt:
        m_keeper.setAside();
        return begin(m_onDisk, *stepAfter(m_onDisk, {}), true);
    case EditorAnswer::again:
        return open(m_asked);
    case EditorAnswer::save:
        save();
        if (m_unsaved)
            return show();
        return leaveNow();
    case EditorAnswer::keepDraft:
        return leaveNow();
    case EditorAnswer::leave:
        if (question == EditorQuestion::notKept)
            m_keeper.letGo();
        return leaveNow();
    case EditorAnswer::stay:
        show();
        return m_page->toFields();
    }
}

// --- leaving and saving ----------------------------------------------------------------------------------------------

void EditorControl::save()
{
    if (!m_document.isClass()) {
        m_keeper.keepNow();
        for (const Remark& remark : m_document.remarks())
            if (remark.kind == Remark::Kind::fault)
                return say(
                    tr("Kept as a draft. Before people can have it: %1").arg(QString::fromStdString(remark.why)));
    }
    const auto saved = m_keeper.saveClass(m_document.tidy());
    if (!saved)
        return show(); // the keeper's state says it, and it is tried again as a draft
    m_document.undoStack().setClean();
    m_unsaved = false;
    say(tr("Saved."));
    emit this->saved(*saved);
}

void EditorControl::leave()
{
    if (!m_keeper.keepNow())
        return ask({EditorQuestion::notKept,
                    tr("What you wrote is not on the disk"),
                    tr("%1. While you stay it is tried again every few seconds.").arg(m_keeper.state().why),
                    {{EditorAnswer::stay, tr("Stay")}, {EditorAnswer::leave, tr("Leave, and lose it")}}});
    if (!m_unsaved)
        return leaveNow();
    AskView view{EditorQuestion::leaving,
                 tr("Shall people have it as it is now?"),
                 tr("What you wrote is kept as a draft. The class itself is still as it was when you saved it last."),
                 {}};
    if (m_document.isClass())
        view.answers.emplace_back(EditorAnswer::save, tr("Save it, and leave"));
    else
        view.words = tr("What you wrote is kept as a draft: it cannot be saved as a class yet.");
    view.answers.emplace_back(EditorAnswer::keepDraft, tr("Leave it as a draft"));
    view.answers.emplace_back(EditorAnswer::stay, tr("Stay"));
    ask(std::move(view));
}

void EditorControl::leaveNow()
{
    m_keeper.letGo();
    emit leaveRequested();
}

// --- what is shown ---------------------------------------------------------------------------------------------------

void EditorControl::show()
{
    ShowOptions options;
    options.sheetTurn = m_sheetTurn;
    options.largest = m_largest;
    options.said = m_said;
    options.unsaved = m_unsaved;
    options.picture = [this](const std::string& file) { return picture(file); };
    EditorView view = viewOf(m_document, m_keeper.state(), options);
    view.ask = m_ask;
    view.canSave = m_unsaved;
    m_page->setState(view);
}

void EditorControl::say(const QString& words)
{
    m_said = words;
    show();
}

QString EditorControl::folder() const
{
    return QFileInfo(m_keeper.path()).absolutePath();
}

QImage EditorControl::picture(const std::string& file)
{
    const QString name = QString::fromStdString(file);
    const auto known = m_pictures.constFind(name);
    if (known != m_pictures.cend())
        return *known;
    return *m_pictures.insert(name, readPicture(QDir(folder()).filePath(name), kShownEdge));
}

} // namespace vh::write
