#pragma once
// Binds the library, the group's days and the room: presses in, changes on disk, words about them. Owns the room until
// something else takes it as a child. The library and the clock must outlive it. GUI thread.
#include "app/write/days_file.h"
#include "app/write/days_state.h"
#include "app/write/library_state.h"
#include "app/write/write_room.h"
#include "app/write/writing.h"

#include <QPointer>

namespace vh::write
{

struct WriteGroup {
    GroupId id;
    QString name;
};

struct WriteSetup {
    const Clock* clock = nullptr;
    QString folder; ///< the profile: the days lie there
    ClassLibrary* library = nullptr;
    std::vector<WriteGroup> groups; ///< that she leads; none: the days are hers alone
    OwnPaceBook* pace = nullptr;    ///< null: nothing is known of her pace
    sound::Ears* ears = nullptr;    ///< for rehearsing; null: it hears nothing
    sound::DeviceChoice microphone = sound::DeviceChoice::standardDevice();
    QString papersFolder{}; ///< empty: beside the class or among her documents
};

class WriteControl : public QObject
{
    Q_OBJECT
public:
    explicit WriteControl(const WriteSetup& setup, QObject* parent = nullptr);
    ~WriteControl() override;

    [[nodiscard]] WriteRoom& room() { return *m_room; }
    [[nodiscard]] const ClassDays& days() const { return m_days; }
    /// Writes down what is not on disk yet. To be called before the program ends.
    void keepNow() { m_writing->keepNow(); }

    void toLibrary();
    void toDays();
    /// The days' file has been changed by somebody else.
    void reloadDays();

signals:
    void leaveRequested();

private:
    void bindLibrary();
    void bindDays();
    void bindWriting();
    [[nodiscard]] Writing::Setup writingSetup();
    void newClass();
    void writeChosen();
    void savedClass(const QString& path);
    [[nodiscard]] StartPage::State startState() const;
    [[nodiscard]] handout::HandoutOptions papersOptions(const QString& path) const;
    void loadDays();
    void nextGroup();
    void saveDays();
    void keepTitle(const QString& title);
    void putAside();
    void putBack();
    void copy();
    void planPressed();
    void placePressed();
    void sayInLibrary(const QString& words, NoticeLine::Tone tone = NoticeLine::Tone::calm);
    void sayInDays(const QString& words, NoticeLine::Tone tone = NoticeLine::Tone::calm);
    void sayError(const Error& error) { sayInLibrary(QString::fromStdString(error.message), NoticeLine::Tone::heed); }
    void refresh();
    [[nodiscard]] QDate today() const;
    [[nodiscard]] GroupId group() const;

    WriteSetup m_setup;
    ClassLibrary& m_library;
    std::size_t m_group = 0;
    ClassDays m_days;
    LibraryState m_libraryState;
    DaysState m_daysState;
    QPointer<WriteRoom> m_room;
    Writing* m_writing; ///< its pages are the room's
    QDate m_newFor;     ///< the day that a new class is written for
};

} // namespace vh::write
