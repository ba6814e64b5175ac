#pragma once
// What can be done with one class in the writing room: laid out anew, edited, rehearsed, printed. Puts the pages for it
// into the room and goes back from one to the other; which class, and for which day, is for WriteControl to say. Room,
// library, pace and clock must outlive it. GUI thread.
#include "app/handout/handout_maker.h"
#include "app/write/class_library.h"
#include "app/write/editor_control.h"
#include "app/write/rehearse.h"
#include "app/write/start_page.h"

#include <memory>
#include <set>

namespace vh::write
{

class WriteRoom;

class Writing : public QObject
{
    Q_OBJECT
public:
    struct Setup {
        WriteRoom* room = nullptr;
        ClassLibrary* library = nullptr;
        OwnPaceBook* pace = nullptr; ///< null: nothing is known of the leader's pace
        const Clock* clock = nullptr;
        sound::Ears* ears = nullptr; ///< for a rehearsal; null: it hears nothing
        sound::DeviceChoice microphone = sound::DeviceChoice::standardDevice();
        QString papersFolder; ///< empty: beside the class or among her documents
        /// Sentences of the last weeks, but for those of this class itself.
        std::function<std::set<std::string>(const QString& path)> saidLately;
        /// Group, date and week as they are printed.
        std::function<handout::HandoutOptions(const QString& path)> papers;
    };
    explicit Writing(Setup setup, QObject* parent = nullptr);
    ~Writing() override;

    /// The page that lays out a class; then the editor with it.
    void beginNew(const StartPage::State& state);
    void edit(const QString& path);
    /// As it is in the file.
    void rehearse(const QString& path);
    void print(const QString& path);
    /// Writes down what is not on disk yet.
    void keepNow();

signals:
    /// Back to where all classes are; `path` is the class it was about, or empty.
    void leaveRequested(const QString& path);
    /// A class is a file now, or a newer one.
    void saved(const QString& path);
    void printed(const QString& words);

private:
    void bindEditor();
    void rehearseScript(const ClassScript& script, const QString& folder, bool toEditor);
    void printScript(const ClassScript& script, const QString& folder);
    void openNew(const ClassScript& script);
    [[nodiscard]] ReviewRules rulesOf(std::string_view language) const;

    Setup m_setup;
    QString m_path; ///< of the class it is about
    StartPage* m_start;
    EditorControl* m_editor;
    std::unique_ptr<Rehearsal> m_rehearsal;
    bool m_toEditor = false; ///< from the rehearsal; else to the library
    bool m_printing = false;
};

} // namespace vh::write
