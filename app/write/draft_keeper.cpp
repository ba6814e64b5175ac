#include "app/write/draft_keeper.h"

#include "app/write/whole_file.h"
#include "common/script/limits.h"
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"
#include "common/script/writer.h"

#include <QCryptographicHash>
#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace vh::write
{

namespace
{

/// A draft of a class at all its limits is far smaller.
constexpr qint64 kMostDraftBytes = 16LL * 1024 * 1024;

/// What a program that was ended in the middle of writing left: a draft's name and six letters of QSaveFile's.
void removeHalfWritten(const QString& classPath)
{
    const QFileInfo draft(DraftKeeper::draftPathOf(classPath));
    const auto left = draft.dir().entryList({draft.fileName() + QStringLiteral(".??????")}, QDir::Files);
    for (const QString& each : left)
        QFile::remove(draft.dir().filePath(each));
}

QByteArray hashOf(const QByteArray& bytes)
{
    return QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex();
}

QByteArray hashOfFile(const QString& path)
{
    const auto bytes = readWhole(path, static_cast<qint64>(limits::kMaxScriptBytes));
    return bytes ? hashOf(*bytes) : QByteArray();
}

} // namespace

DraftKeeper::DraftKeeper(Setup setup, QObject* parent) : QObject(parent), m_setup(setup)
{
    m_thread.setMaxThreadCount(1);
    m_timer.setSingleShot(true);
    connect(&m_timer, &QTimer::timeout, this, &DraftKeeper::write);
}

DraftKeeper::~DraftKeeper()
{
    m_thread.waitForDone();
}

Result<Draft> DraftKeeper::draftBeside(const QString& classPath)
{
    const auto bytes = readWhole(draftPathOf(classPath), kMostDraftBytes);
    if (!bytes)
        return fail("no-draft", "There is no draft.");
    return readDraft(*bytes);
}

DraftKeeper::Place DraftKeeper::take(const QString& classPath)
{
    letGo();
    auto lock = std::make_unique<QLockFile>(classPath + QStringLiteral(".lock"));
    lock->setStaleLockTime(0); // however long somebody writes; a program that is gone holds nothing all the same
    if (!lock->tryLock(0) && lock->error() == QLockFile::LockFailedError)
        return Place::anothers;
    m_path = classPath;
    m_basedOn = hashOfFile(classPath);
    if (!lock->isLocked())
        return Place::refused;
    m_lock = std::move(lock);
    removeHalfWritten(classPath);
    return Place::mine;
}

void DraftKeeper::letGo()
{
    stopWriting();
    m_lock.reset();
    m_path.clear();
    m_kept = m_changes;
    setState({});
}

std::optional<DraftKeeper::Unfinished> DraftKeeper::unfinished() const
{
    auto draft = draftBeside(m_path);
    if (!draft)
        return std::nullopt;
    const auto bytes = readWhole(m_path, static_cast<qint64>(limits::kMaxScriptBytes));
    if (bytes) {
        const auto script = readClassScript(bytes->toStdString(), m_path.toStdString(), plannedAsSpoken);
        if (script && *script == draft->script)
            return std::nullopt;
    }
    return Unfinished{*draft, draft->basedOn != m_basedOn};
}

void DraftKeeper::setAside()
{
    const QString draft = draftPathOf(m_path);
    if (!QFile::exists(draft))
        return;
    for (int number = 1; !QFile::rename(draft, QStringLiteral("%1.aside-%2").arg(m_path).arg(number)); ++number)
        if (number > 999)
            return; // not even renaming goes; it stays where it is until something is written
}

void DraftKeeper::touch()
{
    ++m_changes;
    if (m_state.kept != State::Kept::cannot)
        setState({State::Kept::soon, {}});
    if (!m_timer.isActive() && !m_writing)
        m_timer.start(m_setup.delay);
}

QByteArray DraftKeeper::newest() const
{
    Draft draft = m_source();
    draft.basedOn = m_basedOn;
    draft.written = QDateTime::currentMSecsSinceEpoch();
    return bytesOf(draft);
}

void DraftKeeper::write()
{
    if (m_path.isEmpty() || m_writing)
        return;
    m_writing = ++m_writes;
    m_thread.start([this, path = draftPathOf(m_path), bytes = newest(), number = m_writes, changes = m_changes] {
        const QString error = writeWhole(path, bytes);
        // The destructor waits for this thread, so `this` is alive.
        QMetaObject::invokeMethod(
            this, [=, this] { written(number, changes, error); }, Qt::QueuedConnection);
    });
}

void DraftKeeper::stopWriting()
{
    m_thread.waitForDone();
    m_timer.stop();
    m_writing = 0;
}

void DraftKeeper::written(quint64 number, quint64 changes, const QString& error)
{
    if (number != m_writing)
        return; // stopWriting() was here meanwhile
    m_writing = 0;
    if (!error.isEmpty()) {
        setState({State::Kept::cannot, error});
        m_timer.start(m_setup.retry);
        return;
    }
    m_kept = changes;
    setState({m_kept == m_changes ? State::Kept::draft : State::Kept::soon, {}});
    if (m_kept != m_changes)
        m_timer.start(m_setup.delay);
}

bool DraftKeeper::keepNow()
{
    if (m_path.isEmpty())
        return true;
    stopWriting();
    if (m_kept == m_changes)
        return true;
    const QString error = writeWhole(draftPathOf(m_path), newest());
    if (error.isEmpty()) {
        m_kept = m_changes;
        setState({State::Kept::draft, {}});
        return true;
    }
    setState({State::Kept::cannot, error});
    m_timer.start(m_setup.retry);
    return false;
}

Result<QString> DraftKeeper::saveClass(const ClassScript& script)
{
    stopWriting();
    const std::string yaml = writeClassScript(script);
    const QByteArray bytes(yaml.data(), static_cast<qsizetype>(yaml.size()));
    if (const QString error = writeWhole(m_path, bytes); !error.isEmpty()) {
        setState({State::Kept::cannot, error});
        m_timer.start(m_setup.retry);
        return fail("not-saved", error.toStdString(), m_path.toStdString());
    }
    QFile::remove(draftPathOf(m_path)); // it says the same
    m_basedOn = hashOf(bytes);
    m_kept = m_changes;
    setState({});
    return m_path;
}

void DraftKeeper::setState(State state)
{
    if (state == m_state)
        return;
    m_state = std::move(state);
    emit stateChanged();
}

} // namespace vh::write
