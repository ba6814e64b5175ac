#include "app/write/editor_view.h"

#include <QCoreApplication>

namespace vh::write
{

namespace
{

QString words(const char* text)
{
    return QCoreApplication::translate("vh::write::EditorPage", text);
}

Keyed keyed(const char* text, const QKeySequence& keys, const char* keyWords)
{
    return {words(text), keys, *keyWords ? words(keyWords) : QString()};
}

} // namespace

Keyed keyedOf(Press press)
{
    using enum Press;
    switch (press) {
    case save:
        return keyed("Save", Qt::CTRL | Qt::Key_S, "Ctrl+S");
    case undo:
        return keyed("Undo", Qt::CTRL | Qt::Key_Z, "Ctrl+Z");
    case redo:
        return keyed("Redo", Qt::CTRL | Qt::Key_Y, "Ctrl+Y");
    case rehearse:
        return keyed("Rehearse", Qt::Key_F5, "F5");
    case handout:
        return keyed("Handout", Qt::CTRL | Qt::Key_P, "Ctrl+P");
    case leave:
        return keyed("Leave", Qt::CTRL | Qt::Key_W, "Ctrl+W");
    case newStep:
        return keyed("New step", Qt::CTRL | Qt::Key_N, "Ctrl+N");
    case newPart:
        return keyed("New part", Qt::CTRL | Qt::SHIFT | Qt::Key_N, "Ctrl+Shift+N");
    case copy:
        return keyed("Copy", Qt::CTRL | Qt::Key_D, "Ctrl+D");
    case up:
        return keyed("Up", Qt::ALT | Qt::Key_Up, "Alt+Up");
    case down:
        return keyed("Down", Qt::ALT | Qt::Key_Down, "Alt+Down");
    case remove:
        return keyed("Remove", Qt::ALT | Qt::Key_Delete, "Alt+Del");
    case toWrite:
        return keyed("Next to write", Qt::Key_F2, "F2");
    case split:
        return keyed("Split here", Qt::CTRL | Qt::Key_Return, "Ctrl+Enter");
    case mark:
        return keyed("Mark vowel", Qt::CTRL | Qt::Key_M, "Ctrl+M");
    case markAll:
        return keyed("Mark all", Qt::CTRL | Qt::SHIFT | Qt::Key_M, "Ctrl+Shift+M");
    case nextRemark:
        return keyed("Next", Qt::Key_F8, "F8");
    case mend:
        return keyed("Mend", Qt::Key_F9, "F9");
    case mendAll:
        return keyed("Mend all", Qt::SHIFT | Qt::Key_F9, "Shift+F9");
    case Press::words:
        return keyed("Words", Qt::ALT | Qt::Key_1, "Alt+1");
    case turns:
        return keyed("Turns", Qt::ALT | Qt::Key_2, "Alt+2");
    case picture:
        return keyed("Picture", Qt::ALT | Qt::Key_3, "Alt+3");
    case whoseTurn:
        return keyed("Listen or You", Qt::Key_F6, "F6");
    case largest:
        return keyed("Largest text", Qt::Key_F7, "F7");
    case before:
        return keyed("The step before", Qt::CTRL | Qt::Key_PageUp, "Ctrl+Page Up");
    case after:
        return keyed("The next step", Qt::CTRL | Qt::Key_PageDown, "Ctrl+Page Down");
    case choosePicture:
        return keyed("Choose a picture\u2026", Qt::ALT | Qt::Key_P, "Alt+P");
    case dropPicture:
        return keyed("Take it out", {}, "");
    }
    return {};
}

} // namespace vh::write
