#pragma once
// Binds the participant's room: the model decides, the line carries, the ears hear, the room shows. Owns all of them.
// GUI thread. The microphone is open from the mic check to the end of class and at no other time: that half of it is in
// join_listening.cpp; the way in is in join_entry.cpp, voices in join_voices.cpp, the handout in join_handout.cpp, the
// board in join_words.cpp.
#include "app/join/answers_read.h"
#include "app/join/check_sound.h"
#include "app/join/join_model.h"
#include "app/join/join_room.h"
#include "app/join/join_sound.h"
#include "app/join/pending_agreements.h"
#include "app/join/usual_store.h"
#include "app/link/class_follow.h"
#include "app/link/handout_fetch.h"
#include "app/sound/ears.h"

#include <QPointer>

#include <set>

namespace vh::join
{

struct JoinSetup {
    const Clock* clock = nullptr;
    QString folder; ///< of this installation's profile
    sound::DeviceChoice sound = sound::DeviceChoice::standardDevice();
    bool plain = false; ///< without TLS: a relay on this machine, in tests
    /// Where voices are played, and the mic check's own sound (with a microphone that is a file, nowhere).
    sound::DeviceChoice loudspeaker = sound::DeviceChoice::standardDevice();
    QString handoutFolder{}; ///< where a handout is saved; empty: among the person's downloads
};

class JoinControl : public QObject
{
    Q_OBJECT
public:
    JoinControl(JoinSetup setup, JoinRoom& room, QObject* parent = nullptr);
    ~JoinControl() override;

    /// The first time: a link, or an address and a code, may be filled in already.
    void startNew(const QString& link = {}, const QString& name = {});
    /// Somebody known: straight in.
    void startKnown(const link::Membership& membership);

    [[nodiscard]] const JoinModel& model() const { return m_model; }
    [[nodiscard]] const VoicesHere& voices() const { return m_model.voices(); }
    [[nodiscard]] link::Line& line() { return m_line; }
    [[nodiscard]] const link::ClassFollow& follow() const { return m_follow; }
    [[nodiscard]] sound::Ears& ears() { return m_ears; }
    [[nodiscard]] JoinSound& sound() { return m_sound; }

signals:
    /// The person wants to be somewhere else: back to the first screen.
    void left();
    /// The link that was pasted here is for leading or helping: this person, in that room.
    void otherRoomNeeded(const vh::link::Membership& membership);

private:
    void carryOut(const std::vector<Wish>& wishes);
    void comeIn(const QString& address, const QString& code, const QString& name);
    void bindClass(const JoinRoom& room);
    void bindVoices(const JoinRoom& room);
    void bindBoard(const JoinRoom& room);
    void carryOutWords(const Wish& wish);
    void bindPictures(const JoinRoom& room);
    void pressLine(quint64 line);
    void followPictures();
    void showPictures(JoinView& view) const;
    void bindHandout(const JoinRoom& room);
    void saveHandout(const QByteArray& pdf);
    void openHandout();
    void lookAtCue();
    void answerInvitation(bool yes);
    void openEars();
    void followVoices();
    void agree(const Wish& wish);
    void sendHeld();
    void onLine(link::LineState state);
    void onMessage(const wire::ToClient& message);
    void isIn(const wire::Welcome& welcome);
    void beat();
    void listen();
    void stopListening();
    void hearFrames();
    void playCheck();
    void keepCheck();
    void keepLearnt();
    void useSpot();
    [[nodiscard]] QByteArray device() const;
    [[nodiscard]] bool isAsChecked(const UsualStore::Spot& spot) const;
    void onAnswered(const RequestId& id, const wire::Ack& ack, const Error* error);
    void showDevices();
    void chooseDevice(int chosen);
    void leave();
    void render();
    void computeKeyWords();

    JoinSetup m_setup;
    QPointer<JoinRoom> m_room;
    link::Memberships m_memberships;
    std::unique_ptr<link::KeyBox> m_keys;
    UsualStore m_usuals;
    PendingAgreements m_pending;
    AnswersRead m_answersRead;
    link::Line m_line;
    link::ClassFollow m_follow;
    link::HandoutFetch m_handout{m_line, m_follow};
    pictures::HomePictures m_pictures{m_line};
    sound::Ears m_ears;
    JoinSound m_sound;
    CheckSound m_checkSound{m_ears, m_sound.farEnd()};
    JoinModel m_model;
    QTimer m_cueTimer; ///< while a cue waits for its sound
    QTimer m_beat;
    QTimer m_held; ///< until an answer that may still be undone goes up
    std::optional<wire::Agree> m_heldAnswer;
    std::optional<wire::Hash> m_wordsOf;
    std::optional<HallEpoch> m_epoch;
    struct Asked {
        Wish::Kind what;
        std::uint64_t line = 0; ///< of the board
    };
    std::map<RequestId, Asked> m_asked; ///< what a person waits to see done
    std::set<RequestId> m_results;      ///< of turns, not acknowledged yet
    bool m_membershipKept = false;
    Instant m_lastBeat{};
    bool m_listening = false;
};

} // namespace vh::join
