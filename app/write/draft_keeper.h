#pragma once
// What is written, kept on disk while it is written. The class file itself ("kites.yaml") is only ever replaced by a
// whole valid class, when it is saved; until then the newest state lies beside it as "kites.yaml.draft", at most
// `delay` after a change and the time of one write. Every file is written beside its place, synced and renamed
// (QSaveFile), so that none is ever torn. A lock file tells a second window. What cannot be written is said and tried
// again. GUI thread; drafts are written on a thread of its own.
#include "app/write/draft_file.h"

#include <QLockFile>
#include <QObject>
#include <QThreadPool>
#include <QTimer>

#include <functional>
#include <memory>
#include <optional>

namespace vh::write
{

class DraftKeeper : public QObject
{
    Q_OBJECT
public:
    struct Setup {
        std::chrono::milliseconds delay{1000}; ///< after the first change that is not on disk
        std::chrono::milliseconds retry{3000};
    };
    enum class Place {
        mine,
        anothers, ///< open in another window or program, or on another computer
        refused   ///< no lock can be written there; drafts will hardly be either
    };
    struct Unfinished {
        Draft draft;
        bool classChanged = false; ///< the class file is not the one that it was begun with
    };
    /// How what was written stands.
    struct State {
        enum class Kept { nothingNew, soon, draft, cannot } kept = Kept::nothingNew;
        QString why; ///< of `cannot`
        friend bool operator==(const State&, const State&) = default;
    };

    explicit DraftKeeper(Setup setup, QObject* parent = nullptr);
    ~DraftKeeper() override;

    static QString draftPathOf(const QString& classPath) { return classPath + QStringLiteral(".draft"); }
    /// The draft beside a class, whoever it belongs to.
    static Result<Draft> draftBeside(const QString& classPath);

    /// Takes the file for this window; what was kept before is let go.
    Place take(const QString& classPath);
    void letGo();
    [[nodiscard]] QString path() const { return m_path; }
    /// The draft that lies there and says something else than the class file.
    [[nodiscard]] std::optional<Unfinished> unfinished() const;
    /// The draft that lies there gets a name of its own ("kites.yaml.aside-1") and is not asked about again.
    void setAside();

    /// Where the newest state comes from when it is written.
    void setSource(std::function<Draft()> source) { m_source = std::move(source); }
    /// Something is to be kept.
    void touch();
    /// Now, before this returns. False: it is not on disk.
    bool keepNow();
    /// The class that people will read; a valid one. Its draft goes.
    Result<QString> saveClass(const ClassScript& script);
    [[nodiscard]] const State& state() const { return m_state; }

signals:
    void stateChanged();

private:
    void write();
    void stopWriting();
    void written(quint64 number, quint64 changes, const QString& error);
    void setState(State state);
    [[nodiscard]] QByteArray newest() const;

    Setup m_setup;
    QString m_path;
    QByteArray m_basedOn;
    std::unique_ptr<QLockFile> m_lock;
    std::function<Draft()> m_source;
    State m_state;
    QTimer m_timer;
    quint64 m_changes = 0; ///< counted
    quint64 m_kept = 0;    ///< how many of them are on disk
    quint64 m_writes = 0;
    quint64 m_writing = 0; ///< which write is under way; 0: none
    QThreadPool m_thread;
};

} // namespace vh::write
