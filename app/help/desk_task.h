#pragma once
// What can be done at the desk with one press: each task has one key, which acts only while a list of the desk has the
// focus (WCAG 2.2, 2.1.4). docs/moderating.md has the same table; a test compares the two. Any thread.
#include <QString>

#include <optional>
#include <span>

class QKeyEvent;

namespace vh::help
{

enum class DeskTask : quint8 {
    toBoard,
    setAside,
    toLeader,
    clinician,
    answerOne,
    answerAll,
    quietShort,
    quietClass,
    out,
    takeBack,
    whatWasDone,
    openPicture,
};

struct TaskKey {
    DeskTask task;
    int key;            ///< a Qt::Key
    const char* hint;   ///< as it stands on the control
    const char* button; ///< words of the control; not translated yet
};

std::span<const TaskKey> taskKeys();
const TaskKey& keyOf(DeskTask task);
QString buttonWords(DeskTask task);
/// What a key means, if it was pressed alone.
std::optional<DeskTask> taskOf(const QKeyEvent& event);
/// Made with a line of somebody's, not with the list or the desk as a whole.
bool needsLine(DeskTask task);

} // namespace vh::help
