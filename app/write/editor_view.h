#pragma once
// Everything that the page of the editor shows, as values; and what can be pressed on it, with words and keys. The
// page becomes the view it is given; what somebody presses or types goes out and changes nothing by itself.
#include "app/widgets/class_sheet.h"
#include "app/widgets/notice_line.h"
#include "app/widgets/script_rail.h"
#include "app/write/script_edits.h"

#include <QKeySequence>

namespace vh::write
{

enum class Press : std::uint8_t {
    save,
    undo,
    redo,
    rehearse,
    handout,
    leave,
    newStep,
    newPart,
    copy,
    up,
    down,
    remove,
    toWrite,
    split,
    mark,
    markAll,
    nextRemark,
    mend,
    mendAll,
    words,
    turns,
    picture,
    whoseTurn,
    largest,
    before,
    after,
    choosePicture,
    dropPicture
};
inline constexpr int kPresses = static_cast<int>(Press::dropPicture) + 1;

struct Keyed {
    QString words; ///< on its button
    QKeySequence keys;
    QString keyWords; ///< as the button says them; empty: no key of its own
};
Keyed keyedOf(Press press);

/// The three sides of a step.
enum class Side : std::uint8_t { words, turns, picture };

struct StepRow {
    enum class Kind : std::uint8_t { wholeClass, part, step } kind = Kind::step;
    Spot spot;
    QString words;
    QString length; ///< "2:30", of a part
    bool toWrite = false;
    bool pause = false;
    int remarks = 0;
    friend bool operator==(const StepRow&, const StepRow&) = default;
};

struct RemarkRow {
    QString where;
    QString why;
    QString mend; ///< what mending does; empty: it is for the leader
    friend bool operator==(const RemarkRow&, const RemarkRow&) = default;
};

/// The fields of what is chosen.
struct ClassFields {
    QString title;
    QString theme;
    QString language;
    int minutes = 0;
};
struct PartFields {
    QString title;
    SectionKind kind = SectionKind::phrases;
};
struct StepFields {
    QString where;       ///< "Phrases, 3 of 8"
    QString text;        ///< empty while it is to write
    QString wouldBeGood; ///< shown where there is no text yet
    std::string marked;  ///< the text in UTF-8, of which these are the marks
    std::vector<Stretch> marks;
    bool inPause = false;
    QString note;
    std::vector<Round> rounds;
    std::optional<int> dearness;
    QImage picture;
    bool hasPicture = false;
    QString description;
};

enum class EditorQuestion : std::uint8_t {
    none,
    unfinished, ///< go on with a draft, or leave it
    elsewhere,  ///< open in another window
    unreadable,
    leaving, ///< changes that are not in the class yet
    notKept  ///< leaving, and the disk refuses
};
enum class EditorAnswer : std::uint8_t { goOn, leaveIt, again, save, keepDraft, stay, leave };

struct AskView {
    EditorQuestion question = EditorQuestion::none;
    QString title;
    QString words;
    std::vector<std::pair<EditorAnswer, QString>> answers; ///< the first is the main one
};

struct EditorView {
    AskView ask;
    QString title;
    QString times;          ///< "19:40 of 20 minutes"
    NoticeLine::State kept; ///< where what was written is, and what was just done
    ScriptRail::State rail;
    std::vector<StepRow> rows;
    int current = 0; ///< of rows
    ClassFields whole;
    PartFields part;
    StepFields step;
    ClassSheet::State sheet;
    QSize sheetSize; ///< as a home has it
    bool largest = false;
    TurnKind sheetTurn = TurnKind::yours;
    std::vector<RemarkRow> remarks;
    QString remarksWords; ///< "Nothing is left to say." or how many
    int toWrite = 0;
    bool canUndo = false;
    bool canRedo = false;
    bool canSave = false;
    bool canMark = false;
    bool canMend = false;
};

} // namespace vh::write
