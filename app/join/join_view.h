#pragma once
// All that the participant's room can show, as plain values: one screen at a time. Made by JoinModel, shown by
// JoinRoom.
#include "app/look/sign.h"
#include "app/pictures/large_page.h"
#include "app/pictures/send_view.h"
#include "app/widgets/class_sheet.h"
#include "app/widgets/notice_line.h"
#include "app/widgets/script_rail.h"
#include "app/widgets/voice_line.h"
#include "app/widgets/voice_meter.h"

#include <QStringList>

#include <variant>
#include <vector>

namespace vh::join
{

/// A place to write something down: a label and what stands there already.
struct Field {
    QString label;
    QString value;
    QString hint;
    int most = 200; ///< characters
    friend bool operator==(const Field&, const Field&) = default;
};

struct Choice {
    QString words;
    bool chosen = false; ///< the answer given before
    friend bool operator==(const Choice&, const Choice&) = default;
};

/// One question on a screen: something to write, or one of a few answers, or only to go on.
struct AskView {
    QString heading;
    QString words;
    QStringList cautions;
    std::vector<Field> fields;
    std::vector<Choice> choices;
    QString notice; ///< what was wrong with the last answer
    bool canGoBack = false;
    bool startsOnFirst = false; ///< the keyboard stands on the first answer; else on none: nobody agrees by chance
    friend bool operator==(const AskView&, const AskView&) = default;
};

/// Something is going on, or over.
struct WaitView {
    QString heading;
    QString words;
    QStringList keyWords; ///< the four words to compare by voice
    QString button;       ///< empty: none
    QString handout{};    ///< a second, quiet control: fetches or opens the handout; empty: none
    QString help{};       ///< who is there to help, below the words of that control; empty: none
    friend bool operator==(const WaitView&, const WaitView&) = default;
};

/// What a person can press on a screen of the mic check.
enum class CheckPress : std::uint8_t { goOn, skip, back, more };

/// The mic check.
struct CheckView {
    QString heading;
    QString words;
    QString where;         ///< which question of how many; empty: none of them
    QString line;          ///< to be read aloud; empty while the room is heard
    bool listening = true; ///< level and progress are shown
    float progress = 0;    ///< 0 ... 1
    std::optional<float> levelDbfsA;
    QStringList devices; ///< to choose from
    int device = 0;
    bool showsDevices = true;
    QString notice;
    QString goOn;      ///< empty: nothing to go on to yet
    QString skip;      ///< empty: cannot be left out any more
    QString skipMeans; ///< what comes of that
    QString back;      ///< empty: nothing to go back to
    QString more;      ///< another way on; empty: none
    friend bool operator==(const CheckView&, const CheckView&) = default;
};

/// Everything that a person chose, each changed by one press.
struct ChoicesView {
    struct Row {
        QString words;
        std::vector<Choice> answers;
        friend bool operator==(const Row&, const Row&) = default;
    };
    QString heading;
    QString words; ///< what to do, or what has just been changed
    std::vector<Row> rows;
    QString more; ///< a control that leads to another screen
    QString undo; ///< what "Take it back" brings back; empty: there is nothing to take back
    friend bool operator==(const ChoicesView&, const ChoicesView&) = default;
};

/// The person has called for help.
struct CallView {
    QString heading; ///< "Anna has your call"
    QString words;
    QString where;     ///< what whoever takes it sees; may be empty
    QString ring;      ///< whom to ring, or what to do instead
    QString emergency; ///< what Voicehall does not do
    QString back;
    QString takeBack; ///< empty: there is nothing to take back
    QString again;    ///< to call once more; empty: it is out
    friend bool operator==(const CallView&, const CallView&) = default;
};

/// The leader asks whether everybody may hear this person. It stands until it is answered.
struct InvitationView {
    QString question;
    QString words;
    QString yes;
    QString no;
    friend bool operator==(const InvitationView&, const InvitationView&) = default;
};

/// A line of the board, or among those who are here.
struct BoardRow {
    enum class Kind : std::uint8_t { line, mine, notice, answer };
    std::uint64_t key = 0;
    Kind kind = Kind::line;
    QString head;  ///< who
    QString text;  ///< plain, whatever it says
    QString below; ///< how it stands; what an answer answers
    QString act{}; ///< words of its control; empty: none
    look::Sign sign = look::Sign::undo;
    QImage picture{};         ///< of a picture; its caption is the text
    QString pictureDescribed; ///< for those who do not see it
    friend bool operator==(const BoardRow& a, const BoardRow& b)
    {
        return a.key == b.key && a.kind == b.kind && a.head == b.head && a.text == b.text && a.below == b.below &&
               a.act == b.act && a.sign == b.sign && a.picture.cacheKey() == b.picture.cacheKey() &&
               a.pictureDescribed == b.pictureDescribed;
    }
};

/// The board, with a place to write; or who is here, without one.
struct BoardView {
    QString heading;
    QString words;       ///< "28 others are here"; that the board rests
    CueBadge::State cue; ///< whose turn it is meanwhile
    std::vector<BoardRow> rows;
    QString nothing; ///< where there is no row
    enum class Writing : std::uint8_t { none, open, paused } writing = Writing::open;
    QString draft;
    NoticeLine::State notice; ///< what became of one's words; how much room is left; why writing is paused
    bool canSeePeople = false;
    QString back;
    friend bool operator==(const BoardView&, const BoardView&) = default;
};

/// A helper's answer to this person alone. It stands until it is put away.
struct AnswerView {
    QString heading;
    QString about; ///< what the person had written
    QString text;
    QString putAway;
    QString writeBack; ///< empty: writing is paused
    friend bool operator==(const AnswerView&, const AnswerView&) = default;
};

/// What the one control beside the notices does.
enum class NoticeAction : std::uint8_t { none, takeBackCall, checkMicrophone, handout, readAnswer };

struct ClassView {
    QString title;
    QString others;         ///< "27 others are here"
    QString leads;          ///< "Anna leads" and how many have said hello
    VoiceLine::State voice; ///< whose voice is heard here
    ScriptRail::State rail;
    ClassSheet::State sheet;
    bool calm = false; ///< a water pause: the sheet shows a still picture instead of text
    bool showMeter = true;
    VoiceMeter::State meter;
    NoticeLine::State notice;
    NoticeLine::State alsoNotice; ///< a second one, never instead of the first
    NoticeAction action = NoticeAction::none;
    QString handout;       ///< what that control says when it is the handout's
    QString calmWords;     ///< where there is nothing to notice
    QStringList helpWords; ///< who is there to help; then shorter
    QString boardWords;    ///< of the board: that it rests, how much is new
    bool saidHello = false;
    QStringList sharing; ///< who sees the level, in two lines; then shorter
    bool isPrivate = false;
};

using JoinView = std::variant<AskView, WaitView, CheckView, ChoicesView, ClassView, InvitationView, BoardView,
                              AnswerView, CallView, pictures::SendView, pictures::LargeView>;

} // namespace vh::join
