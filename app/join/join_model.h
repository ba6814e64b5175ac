#pragma once
// The participant's way through: from a link or code to the class, one question a screen, and what the class screen
// shows. Takes what happens (messages, answers, frames) and gives the view and what is to be done. No widget, no
// socket, no sound: tested without any. GUI thread. What the person does is in join_presses.cpp and choices.cpp; the
// views are made in ask_views.cpp, class_view.cpp and words_views.cpp. The board is in model_words.cpp.
#include "app/join/check_flow.h"
#include "app/join/handout_here.h"
#include "app/join/join_view.h"
#include "app/join/own_call.h"
#include "app/join/questions.h"
#include "app/join/voices_here.h"
#include "app/join/words_here.h"
#include "app/link/class_follow.h"
#include "app/pictures/home_pictures.h"
#include "app/sound/ears_state.h"
#include "common/home/cue_clock.h"
#include "common/home/home_meter.h"

namespace vh::join
{

enum class Screen : std::uint8_t {
    entry, ///< address, code, name
    connecting,
    door,
    sameWords,  ///< let in by the code alone: were the four words compared?
    agreements, ///< one after the other
    choices,    ///< all of them, from the class
    contact,
    place, ///< is this person where they were last time?
    today,
    check,
    inClass,
    writing, ///< at the board
    people,  ///< who is here, from the board
    leaving, ///< "Leave the class?"
    calling, ///< the person has called for help
    over,
};

/// What the person, on this screen, wants done. The control does it.
struct Wish {
    enum class Kind : std::uint8_t {
        comeIn,
        trustKey,
        agree,
        contact,
        today,
        checked,   ///< the mic check is done: what it found is to be kept
        playCheck, ///< the check's own sound
        stopCheckSound,
        write,
        takeBackLine,
        askPeople,
        keepPutAway, ///< an answer that has been read: it is not shown again
        hello,
        callHelp,
        takeBackCall,
        leave,
        listen,
        stopListening,
        speakAnswer, ///< to whether everybody may hear this person
        endSpeaking,
        fetchHandout,
        openHandout,
    };
    Kind kind;
    AgreementKind agreement = AgreementKind::levelVisible;
    std::string value{};    ///< of the agreement; the line to write; where the person is; the address
    std::string second{};   ///< whom to ring; the code
    std::string third{};    ///< the name
    Millis held{0};         ///< holds here at once, but may go up this much later: until then it can be undone
    std::uint64_t call = 0; ///< to take back
    std::uint64_t line = 0; ///< of the board: which one here (write), or the relay's item
    bool on = true;         ///< of a hello: said, or taken back; of the answer: yes
};
using Wishes = std::vector<Wish>;

class JoinModel
{
public:
    // --- what happens ----------------------------------------------------------------------------------------------
    void startAtEntry(const QString& address, const QString& code, const QString& name, const QString& wrong = {});
    void connecting(const QString& to);
    /// `words`: why the line ended, or cannot come in yet.
    void lineIs(link::LineState state, const QString& words);
    /// The line has ended because a helper has put this person out of the class.
    void isOut() { m_isOut = true; }
    void keyWords(const QStringList& words) { m_keyWords = words; }
    /// Let in, but nobody has said yet that the relay is the right one.
    void askForSameWords() { m_screen = Screen::sameWords; }
    /// `knowsMicrophone`: it was checked before, and nothing about it has changed.
    void welcome(const wire::Welcome& welcome, bool knowsMicrophone);
    void take(const wire::ToClient& message);
    /// The relay has the call for help. What is still to be done about it, if it was taken back meanwhile.
    [[nodiscard]] Wishes callHasGoneOut(std::uint64_t call);
    /// The relay has a line of one's own, or has refused it (`why`: in its words). What is still to be done about it.
    [[nodiscard]] Wishes lineHasGoneOut(std::uint64_t line, std::uint64_t item);
    void lineRefused(std::uint64_t line, const QString& why);
    /// Whether the relay has still to hear of a hello, said or taken back while the line was down.
    [[nodiscard]] std::optional<bool> helloToSay() const;
    /// Time passes: a private word stays for a while only.
    void tick(Instant now);
    /// What was asked for could not be done.
    void refused(Wish::Kind what);
    void earsAre(sound::EarsState state) { m_ears = state; }
    /// In class, until something newer is said.
    void say(const QString& words) { m_said = words; }
    void devicesAre(const QStringList& names, int chosen);
    void frame(const VoiceFrame& frame);
    /// Of the mic check's own sound, while it is played: see CheckFlow::played.
    void checkPlayed(const VoiceFrame& frame, float microphone, float played);
    void playingBegins(ProbeLayout layout) { m_check.play(layout); }
    void loudspeakerIs(sound::LoudspeakerState state) { m_loudspeaker = state; }
    /// The input volume is not that of the usual level.
    void volumeIsOther() { m_check.setOtherVolume(true); }
    /// The text shows at once; the cue, and what the meter listens to, when lookAtCue() says so.
    void followClass(const link::ClassFollow& follow, Instant now);
    /// A sound frame has come, in the order of the hall's log.
    void soundCame(std::uint32_t stream, std::uint64_t firstSample, Instant now);
    /// Up to which sample of the leader's stream the loudspeaker has been heard. True: the cue has changed.
    bool lookAtCue(std::optional<std::uint64_t> audibleUpTo, Instant now);
    /// Worth looking more often than the screen is refreshed.
    [[nodiscard]] bool cueWaits() const { return m_cue.waits(); }
    /// The microphone is not as it was: another check, from the start.
    void checkAgain();

    // --- what the person does: index of a choice, or what stands in the fields --------------------------------------
    [[nodiscard]] Wishes choose(int choice);
    [[nodiscard]] Wishes submit(const QStringList& fields);
    [[nodiscard]] Wishes goBack();
    [[nodiscard]] Wishes pressWait() const;
    [[nodiscard]] Wishes pressCheck(CheckPress press);
    [[nodiscard]] Wishes pressHelp();
    [[nodiscard]] Wishes pressHello();
    [[nodiscard]] Wishes pressPrivate();
    /// The control beside the notices, as it was when it was pressed.
    [[nodiscard]] Wishes pressNotice(NoticeAction action);
    /// To whether everybody may hear this person; `stream`: of the sound that goes out after a yes.
    [[nodiscard]] Wishes answerInvitation(bool yes, std::uint32_t stream);
    [[nodiscard]] Wishes endBeingHeard();
    /// Before the class and after it; during it there is no control for it.
    [[nodiscard]] Wishes pressHandout();
    void pressWrite();
    /// At the board: the line that is being written; it is sent; the control of one's own line; who is here.
    void write(const QString& draft) { m_words.setDraft(draft); }
    [[nodiscard]] Wishes send();
    [[nodiscard]] Wishes pressLine(std::uint64_t line);
    [[nodiscard]] Wishes pressPeople();
    [[nodiscard]] Wishes putAwayAnswer(bool writeBack);
    /// A picture of the board that somebody wants to see large; nothing when there is no such one (any more).
    [[nodiscard]] std::optional<pictures::Looked> pictureAt(std::uint64_t line) const;
    /// This person agrees that pictures of theirs are shown.
    [[nodiscard]] Wishes agreeToPictures();
    /// Where small pictures come from: null while one is not here.
    void setPictures(std::function<QImage(const wire::Hash&)> smallOf) { m_smallOf = std::move(smallOf); }
    /// In the group's window now; how many of one's own have not gone out yet.
    void picturesAre(const pictures::ShownPicture& shown, std::size_t onTheirWay);
    void pressChoices();
    void pressLeave();
    /// On the screen of all choices: an answer of one row; the one before it again; where I am.
    [[nodiscard]] Wishes pick(int row, int answer);
    [[nodiscard]] Wishes undo();
    void pressMore();

    [[nodiscard]] Screen screen() const { return m_screen; }
    [[nodiscard]] JoinView view(const link::ClassFollow* follow) const;
    [[nodiscard]] HomeMeter& meter() { return m_meter; }
    [[nodiscard]] WordsHere& board() { return m_words; }
    [[nodiscard]] const WordsHere& board() const { return m_words; }
    [[nodiscard]] VoicesHere& voices() { return m_voices; }
    [[nodiscard]] const VoicesHere& voices() const { return m_voices; }
    [[nodiscard]] HandoutHere& handout() { return m_handout; }
    [[nodiscard]] const HandoutHere& handout() const { return m_handout; }
    [[nodiscard]] const CheckFlow& check() const { return m_check; }
    [[nodiscard]] const Agreements& agreements() const { return m_agreements; }
    /// Nothing asks this person to be silent just now.
    [[nodiscard]] bool maySpeak() const { return !isInside() || m_meter.view().listening; }
    /// In class, whichever of its screens is shown.
    [[nodiscard]] bool isInside() const;
    [[nodiscard]] bool isResting() const { return m_voice == wire::VoiceToday::listening; }
    /// What was said of today's voice, once it was said; the relay forgets it when it restarts.
    [[nodiscard]] std::optional<wire::Today> today() const;

private:
    enum class Way : std::uint8_t { joining, reviewing };
    struct Step {
        Screen screen;
        std::size_t question;
    };
    struct Changed { ///< the last choice that was changed, and what it was before
        int row = 0;
        int before = 0;
    };

    [[nodiscard]] bool isAsked(AgreementKind kind) const;
    [[nodiscard]] bool isReviewed(AgreementKind kind) const;
    [[nodiscard]] std::vector<std::size_t> reviewed() const; ///< which questions the screen of choices shows
    [[nodiscard]] int pickedIn(int row) const;
    [[nodiscard]] Wishes change(int row, int answer);
    [[nodiscard]] Wishes changeToday(int answer);
    void go(Screen screen);
    void nextQuestion();
    void askMayRing();
    void toClass();
    Wishes answer(int choice);
    Wishes sayToday(int choice);
    void startCheck();
    Wishes afterCheck(CheckFlow::Next next);
    void setAgreement(AgreementKind kind, const std::string& value);

    [[nodiscard]] AskView contactView() const;
    [[nodiscard]] AskView placeView() const;
    [[nodiscard]] CallView callView() const;
    [[nodiscard]] Wishes takeBackCall();
    [[nodiscard]] AskView agreementView() const;
    [[nodiscard]] ChoicesView choicesView() const;
    [[nodiscard]] AskView todayView() const;
    [[nodiscard]] AskView leavingView() const;
    [[nodiscard]] BoardView boardView(const link::ClassFollow* follow) const;
    [[nodiscard]] BoardView peopleView(const link::ClassFollow* follow) const;
    [[nodiscard]] AnswerView answerView() const;
    [[nodiscard]] QImage pictureFor(const wire::PictureAbout& about) const;
    [[nodiscard]] bool mayShowPicture(const link::ClassFollow* follow) const;
    void describePicture(ClassView& view, const link::ClassFollow* follow) const;
    [[nodiscard]] QString othersWords() const;
    [[nodiscard]] QString boardWords() const;
    [[nodiscard]] CueBadge::State cueBeside(const link::ClassFollow* follow) const;
    [[nodiscard]] bool takeWords(const wire::ToClient& message);
    void lookAtWords(Instant now);
    [[nodiscard]] bool showsAnswer() const;
    [[nodiscard]] JoinView sameWordsView() const;
    [[nodiscard]] WaitView doorView() const;
    [[nodiscard]] WaitView overView() const;
    [[nodiscard]] ClassView classView(const link::ClassFollow* follow) const;
    [[nodiscard]] CueBadge::State cue(const TurnAt& shown, const wire::PlaceNow& place) const;
    void describeMeter(ClassView& view) const;
    void describeTurn(ClassView& view, const link::ClassFollow& follow, const TurnAt& at) const;
    void describePeople(ClassView& view, const link::ClassFollow* follow) const;
    void describeNotices(ClassView& view, const link::ClassFollow* follow) const;
    [[nodiscard]] std::vector<NoticeLine::State> notices(const link::ClassFollow* follow) const;
    [[nodiscard]] std::optional<NoticeLine::State> placeNotice(const link::ClassFollow* follow) const;
    [[nodiscard]] static bool isBefore(const link::ClassFollow* follow);
    [[nodiscard]] Blank adviceFor(const link::ClassFollow* follow) const;
    void hearWord(const wire::WordHeard& word);
    [[nodiscard]] std::optional<TurnAt> cuedTurn() const;

    Screen m_screen = Screen::entry;
    AskView m_entry;
    QString m_waitWords;
    QStringList m_keyWords;
    link::LineState m_line = link::LineState::closed;
    QString m_lineWords;

    std::optional<wire::Welcome> m_welcome;
    Agreements m_agreements;
    std::vector<AgreementKind> m_answered;
    std::size_t m_question = 0;
    std::vector<Step> m_trail; ///< the way back, while joining
    Way m_way = Way::joining;
    bool m_knowsMicrophone = false;
    wire::VoiceToday m_voice = wire::VoiceToday::fine;
    bool m_saidToday = false;
    bool m_checked = false;

    sound::EarsState m_ears = sound::EarsState::off;
    QStringList m_devices;
    int m_device = 0;
    std::optional<float> m_levelDbfsA;
    sound::LoudspeakerState m_loudspeaker = sound::LoudspeakerState::off;
    CheckFlow m_check;
    HomeMeter m_meter;
    CueClock m_cue;
    std::optional<std::uint64_t> m_audible; ///< as of the last look
    std::shared_ptr<const ClassScript> m_script;
    VoicesHere m_voices;
    HandoutHere m_handout;

    std::uint32_t m_here = 0;
    std::uint32_t m_hellos = 0;
    bool m_saidHello = false;
    bool m_helloHeard = false; ///< what the relay knows of it
    QString m_word;            ///< from the leader, to this person alone
    std::optional<Instant> m_wordSince;
    std::optional<Changed> m_changed;
    WordsHere m_words;
    std::optional<wire::PlaceNow> m_placeNow;
    std::optional<wire::People> m_people;
    enum class Reads : std::uint8_t { no, wished, now } m_reads = Reads::no; ///< an answer, at the person's own wish
    bool m_isOut = false;                                                    ///< of the class, by the desk
    QString m_said; ///< an answer to what the person did, until something newer comes
    OwnCall m_call;
    bool m_followed = false; ///< a class was there
    bool m_classEnded = false;
    std::string m_pictureFile;
    QImage m_picture; ///< of the step, decoded once
    std::function<QImage(const wire::Hash&)> m_smallOf;
    pictures::ShownPicture m_shown; ///< to all, by the leader
    std::size_t m_picturesOnTheirWay = 0;
};

} // namespace vh::join
