#pragma once
// Everything the leader's room shows, as one value. A stand-in sees the same room with less in it. Made by LeadModel,
// shown by LeadRoom.
#include "app/lead/changes_view.h"
#include "app/lead/class_choice.h"
#include "app/lead/desk_news_view.h"
#include "app/lead/hall_view_state.h"
#include "app/lead/own_voice.h"
#include "app/lead/sound_check.h"
#include "app/people/call_list.h"
#include "app/people/call_screen.h"
#include "app/people/door_list.h"
#include "app/people/lost_list.h"
#include "app/pictures/shown_view.h"
#include "app/pictures/window_strip.h"
#include "app/widgets/class_sheet.h"
#include "app/widgets/cue_badge.h"
#include "app/widgets/fitted_text.h"
#include "app/widgets/level_bar.h"
#include "app/widgets/notice_line.h"
#include "app/widgets/script_rail.h"
#include "common/base/role.h"

#include <QStringList>

namespace vh::lead
{

enum class Stage {
    waiting,  ///< no class is open, and a stand-in cannot open one; or the line is not up yet
    choosing, ///< no class is open
    ready,    ///< open, and people are coming
    inClass,
    over, ///< with the summary
};

/// Who has the place, seen from here.
enum class Hold {
    mine,
    another,       ///< and there
    anotherSilent, ///< and their line is lost: the place may be taken
};

/// How people come in.
struct WayIn {
    QString code; ///< "K7M 42P"
    QString link;
    QString words; ///< the relay's four words; empty with a public certificate or while they are worked out
    QString helperLink, standInLink, leaderLink; ///< one-time; empty until asked for
    friend bool operator==(const WayIn&, const WayIn&) = default;
};

/// The script column under the lens.
struct Column {
    QString last; ///< the line before, in one line
    FittedText::State now;
    TurnRow::State turns;
    QString note;
    QString next;
    bool mayChange = false; ///< what comes may be changed from here
};

/// Her voice, and what else of hers goes out with it.
struct VoiceView {
    VoiceWay way = VoiceWay::voicehall;
    OwnVoice::Mouth mouth = OwnVoice::Mouth::closed;
    bool offered = false; ///< the place is hers and her voice goes through Voicehall: the keys mean something
    bool mayRing = false; ///< bell and recording; not while people speak alone
    QString recording;    ///< name of the file to play; empty: none
    bool plays = false;
    friend bool operator==(const VoiceView&, const VoiceView&) = default;
};

struct SummaryView {
    QString headline;
    QStringList lines;
    friend bool operator==(const SummaryView&, const SummaryView&) = default;
};

/// Her papers of the class: handout and paper script.
enum class PapersView : std::uint8_t { none, offered, making, saved };
/// Of the one control for them.
QString wordsOf(PapersView papers);

struct LeadView {
    Stage stage = Stage::waiting;
    Role role = Role::leader;
    QString groupName;
    QString title;          ///< of the class
    bool rehearsal = false; ///< nobody is there
    NoticeLine::State notice;

    ChoiceView choice;
    PapersView papers = PapersView::none;
    WayIn way;
    QString here; ///< "12 are here, one helper"

    Hold hold = Hold::another;
    QString holder; ///< who leads, if not she: "Anna leads now"
    bool mayTake = false;
    bool waits = false; ///< the clock is held: wait becomes resume
    bool endArmed = false;
    QStringList clock; ///< "ends 10:01, one minute over", then shorter
    Column column;
    LevelBar::State level; ///< the permanent sign; no words: none
    VoiceView voice;
    ScriptRail::State rail;
    HallState hall;
    QString coverWords; ///< while covered: what cannot wait, without names
    ChangesView changes;
    DeskNewsView desk;
    CallList::State calls;
    std::optional<CallScreen::State> filled; ///< a call that nobody takes, over everything
    LostList::State lostLines;               ///< while no helper is here
    QString whomToRing;                      ///< when nobody is there to help
    DoorList::State door;
    bool groupWindowShown = false;
    bool groupWindowFills = false; ///< its display
    bool otherDisplay = false;     ///< there is another one for it
    std::optional<SoundCheckView> soundCheck;

    SummaryView summary;
    ClassSheet::State group;           ///< the group's window
    pictures::WindowStripView waiting; ///< pictures for it
    pictures::ShownPicture shown;      ///< the one that all see
};

} // namespace vh::lead
