#pragma once
// Binds a leader's (or stand-in's) line, the model and the room: messages in, presses out, the heartbeat while she
// holds the place, her own level. Owns the room and the group's window until something else takes them as children.
// Line, clock and ears must outlive it. Made before the line comes in, or in its stateChanged(in):
// what the relay sends right after the welcome is not sent twice. GUI thread.
#include "app/handout/handout_maker.h"
#include "app/lead/class_choice.h"
#include "app/lead/class_trace.h"
#include "app/lead/group_window.h"
#include "app/lead/handout_offer.h"
#include "app/lead/lead_model.h"
#include "app/lead/lead_room.h"
#include "app/lead/lead_sound.h"
#include "app/lead/publish.h"
#include "app/link/class_follow.h"
#include "app/pictures/window_now.h"
#include "app/sound/ears.h"

#include <QPointer>

#include <map>

namespace vh::lead
{

/// A class that has ended: for the group's days.
struct HeldNow {
    std::shared_ptr<const ClassScript> script;
    QString path; ///< of the file it was opened from; empty: it was opened elsewhere
    Instant startedAt{};
    Millis planned{0};
    Millis took{0};
};

class LeadControl : public QObject
{
    Q_OBJECT
public:
    LeadControl(link::Line& line, const Clock& clock, sound::Ears& ears, QObject* parent = nullptr);
    ~LeadControl() override;

    [[nodiscard]] LeadRoom& room() { return *m_room; }
    [[nodiscard]] GroupWindow& groupWindow() { return *m_groupWindow; }
    [[nodiscard]] const LeadView& view() const { return m_view; }

    /// Classes to choose from: of the library, or all that lie in a folder.
    void offer(const write::ClassOffers& offers);
    void offerFolder(const QString& folder);
    void chooseFile(const QString& path);
    /// Printed on the handout; empty: no plan.
    void setWeek(std::vector<handout::PlannedDay> week) { m_week = std::move(week); }
    /// Where the papers go; unless said, beside the class or among her documents.
    void setPapersFolder(const QString& folder) { m_papersFolder = folder; }
    /// A word above everything, for a while.
    void say(const QString& words);
    /// Her microphone, from the moment a class is open, and where she hears the invited person; the standard ones
    /// unless said.
    void setSound(const sound::DeviceChoice& choice) { m_microphone = choice; }
    void setLoudspeaker(const sound::DeviceChoice& choice) { m_sound.setLoudspeaker(choice); }

    // What the room's requests do; also for whoever drives a class by program.
    void openChosen();
    /// The first press makes and saves both papers, the next one shows where they are.
    void pressPapers();
    void command(CommandKind kind);
    void endPressed();
    /// Jump, more time, steps left out, a correction; or the sheet for it.
    void change(const ChangeRequest& request);
    /// What the desk has for her, the board and the levels.
    void desk(const DeskRequest& request);
    void takePlace();
    void invite(Role role);
    void openSoundCheck();
    void closeSoundCheck();
    /// The people: a private word, a band, a seat opened, the hall covered.
    void sendWorthWord(int line) { send(m_model.hall().worthWord(line)); }
    void sendOwnWord(int which) { send(m_model.hall().ownWord(which)); }
    void moveBand(BandMove move);
    // Her voice, and one person's whom she asks to be heard by all.
    void pressMute();
    void ring();
    void toggleRecording();
    void loadRecording(const QString& path);
    void choose(VoiceWay way);
    void inviteToSpeak();
    void endGuest();

    /// Looks at the clock: the heartbeat and everything that is shown. Its own timer calls it every 100 ms.
    void beat();

signals:
    void viewChanged();
    void classHeld(const vh::lead::HeldNow& held);
    /// The class is over; how long what she led of it took. May be empty.
    void classLed(const vh::PaceSample& pace);
    void leaveRequested();

private:
    void bindRoom();
    void take(const wire::ToClient& message);
    void takeBinary(const QByteArray& frame);
    void answered(const RequestId& id, const wire::Ack& ack, const Error* error);
    void putParts(const PublishedClass& published);
    void partAnswered(const Error* error);
    void press(const std::optional<wire::Lead>& lead);
    void correct(const QString& marked);
    void takeFile();
    void revise(const std::vector<Part>& put, const std::vector<wire::Hash>& parts);
    void correctionAnswered(const Error* error);
    void followed();
    void tellHeld(const wire::Summary& summary);
    void listen();
    void refresh();
    void workOutWords();
    void toggleGroupWindow();
    void tellGroupWindow();
    void bindCalls();
    void lookAfterCalls();
    void bindPeople();
    void bindSound();
    void bindPapers();
    void bindPictures();
    void showPictures();
    [[nodiscard]] handout::HandoutOptions handoutOptions() const;
    [[nodiscard]] bool hasPapers() const;
    [[nodiscard]] std::shared_ptr<const ClassScript> forPapers() const;
    [[nodiscard]] PapersView papersView() const;
    void papersMade(const Result<handout::Papers>& papers, bool stillChosen);
    void sendVoice();
    void askForRecording();
    void handOut(const QString& link);
    void send(const std::optional<wire::PrivateWord>& word);
    void askForFile();
    [[nodiscard]] QImage pictureOf(const std::string& file);

    link::Line& m_line;
    const Clock& m_clock;
    sound::Ears& m_ears;
    link::ClassFollow m_follow;
    LeadModel m_model;
    ClassTraceKeeper m_trace;
    ClassChoice m_choice;
    LeadView m_view;
    QPointer<LeadRoom> m_room;
    QPointer<GroupWindow> m_groupWindow;
    QTimer m_timer;
    Instant m_lastLeading{};

    enum class Asked { part, open, correction, press, take, reassert, invite, word, band, speak, item, other };
    struct Question {
        Asked what = Asked::other;
        Role role = Role::participant; ///< invite
        PersonId person{};             ///< word, band, speak
        unsigned press = 0;            ///< number of the press
        std::uint64_t item = 0;        ///< of the desk
    };
    std::map<RequestId, Question> m_asked;
    std::size_t m_partsLeft = 0;
    std::optional<wire::OpenClass> m_toOpen;
    std::optional<wire::ReviseClass> m_toRevise;
    QString m_openedPath;               ///< of the class that was opened here last
    std::optional<ClassId> m_heldClass; ///< it has been told that this one is over
    std::map<std::string, QImage> m_pictures;
    std::optional<wire::Hash> m_wordsFor; ///< the pin whose four words are known or being worked out
    LeadSound m_sound;                    ///< before the ears are started
    sound::DeviceChoice m_microphone;
    bool m_listening = false;
    std::optional<MicCheck> m_check; ///< her own, while it is open

    pictures::PictureShelf m_shelf{m_line};
    pictures::WindowNow m_window{m_line, m_shelf};
    pictures::WindowWaiting m_waiting{m_line, m_shelf, m_window};
    pictures::WindowStripView m_strip; ///< as she sees it
    DeskNews::Turn m_stripTurn;        ///< the turn at which she last did

    HandoutOffer m_handout{m_line};
    std::vector<handout::PlannedDay> m_week;
    QString m_papersFolder;
    std::optional<handout::Papers> m_papers; ///< of the class that is chosen
    bool m_making = false;
    std::optional<ClassId> m_openedHere;           ///< the class that this room has opened
    std::shared_ptr<const ClassScript> m_onPaper;  ///< it, with its pictures' names on this computer, as it stands now
    std::shared_ptr<const ClassScript> m_forPaper; ///< and as the correction under way leaves it
};

} // namespace vh::lead
