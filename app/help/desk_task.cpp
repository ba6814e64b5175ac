#include "app/help/desk_task.h"

#include <QCoreApplication>
#include <QKeyEvent>

#include <algorithm>
#include <array>

namespace vh::help
{

namespace
{

// The digits stand on the screen as on a telephone: 1 to 9 in three rows, 0 apart.
constexpr std::array kKeys{
    TaskKey{DeskTask::toBoard, Qt::Key_1, "1", QT_TRANSLATE_NOOP("vh::help::DeskTask", "To the board")},
    TaskKey{DeskTask::setAside, Qt::Key_2, "2", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Set aside")},
    TaskKey{DeskTask::toLeader, Qt::Key_3, "3", QT_TRANSLATE_NOOP("vh::help::DeskTask", "To leader")},
    TaskKey{DeskTask::clinician, Qt::Key_4, "4", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Clinician")},
    TaskKey{DeskTask::answerOne, Qt::Key_5, "5", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Answer")},
    TaskKey{DeskTask::answerAll, Qt::Key_6, "6", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Answer all")},
    TaskKey{DeskTask::quietShort, Qt::Key_7, "7", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Quiet 10 min")},
    TaskKey{DeskTask::quietClass, Qt::Key_8, "8", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Quiet, class")},
    TaskKey{DeskTask::out, Qt::Key_9, "9", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Out\u2026")},
    TaskKey{DeskTask::takeBack, Qt::Key_0, "0", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Take back")},
    TaskKey{DeskTask::whatWasDone, Qt::Key_L, "L", QT_TRANSLATE_NOOP("vh::help::DeskTask", "What was done")},
    TaskKey{DeskTask::openPicture, Qt::Key_Return, "Enter", QT_TRANSLATE_NOOP("vh::help::DeskTask", "Open")},
};

} // namespace

std::span<const TaskKey> taskKeys()
{
    return kKeys;
}

const TaskKey& keyOf(DeskTask task)
{
    return *std::find_if(kKeys.begin(), kKeys.end(), [task](const TaskKey& each) { return each.task == task; });
}

QString buttonWords(DeskTask task)
{
    return QCoreApplication::translate("vh::help::DeskTask", keyOf(task).button);
}

std::optional<DeskTask> taskOf(const QKeyEvent& event)
{
    if (event.modifiers() & ~Qt::KeypadModifier)
        return std::nullopt;
    const int key = event.key() == Qt::Key_Enter ? static_cast<int>(Qt::Key_Return) : event.key();
    const auto* found =
        std::find_if(kKeys.begin(), kKeys.end(), [key](const TaskKey& each) { return each.key == key; });
    return found == kKeys.end() ? std::nullopt : std::optional(found->task);
}

bool needsLine(DeskTask task)
{
    return task != DeskTask::takeBack && task != DeskTask::whatWasDone;
}

} // namespace vh::help
