#pragma once
// One class from beginning to end, for pictures: a relay, a chorus of homes, a leader, a participant and a helper in
// one process, each in the real program's window, driven as people would drive them. The clock may run fast. GUI
// thread; relay and chorus have their own.
#include "app/program.h"
#include "demo/chorus/choir.h"
#include "demo/stage/group_maker.h"
#include "demo/stage/voice_file.h"
#include "server/ops/relay.h"

#include <QTemporaryDir>

#include <chrono>
#include <memory>

namespace vh::tour
{

struct TourOptions {
    QString pictures;       ///< folder; empty: none are taken
    double speed = 1;       ///< of the clock
    bool onlyAlone = false; ///< homes speak only while the leader is silent
    unsigned homes = 27;
    QString script; ///< class script to lead
};

class Tour
{
public:
    explicit Tour(TourOptions options);
    ~Tour();
    /// 0 when the class went from beginning to end. Says on standard error what did not.
    int run();

private:
    struct Failed {
        std::string what;
    };

    void openHouse();
    void leaderOpensClass();
    void helperComes();
    void chorusComes();
    void participantComes();
    void classGoesOn();
    void participantIsGreeted();
    void participantIsHeard();
    void voiceCannotBeJudged();
    void lookAtPeople();
    void wordsGoRound();
    void pictureGoesRound();
    void helpIsCalled();
    void lineIsLost();
    void leaderIsAway();
    void classEnds();
    void somebodyElseComes();
    void leaderWrites();
    void tellCost();

    [[nodiscard]] std::unique_ptr<Program> window(const QString& who, const sound::DeviceChoice& sound);
    [[nodiscard]] sound::DeviceChoice soundOf(const QString& name, const stage::VoiceFile& voice,
                                              sound::Pace pace = sound::Pace::byHand) const;
    [[nodiscard]] join::ClassView classScreen();
    [[nodiscard]] bool isOnDesk(const QString& words) const;
    [[nodiscard]] QString oneTimeLink(Role role);
    quint64 writes(const QString& words);
    void deskKey(quint64 item, int key);
    void need(bool held, const char* what) const;
    void until(const std::function<bool()>& condition, const char* what) const;
    void pressIn(QWidget& room, const QString& words) const;
    void skipTo(SectionKind kind, TurnKind turn);
    [[nodiscard]] std::optional<TurnAt> now();
    void picture(QWidget& of, const QString& name);
    void pictureAsItIs(QWidget& of, const QString& name);

    TourOptions m_options;
    FastClock m_clock;
    QTemporaryDir m_folder;
    ops::Config m_config;
    std::unique_ptr<ops::Relay> m_relay;
    stage::MadeGroup m_group;
    std::unique_ptr<net::LoopThread> m_chorusLoop;
    std::unique_ptr<chorus::Choir> m_choir;
    std::unique_ptr<Program> m_leader;
    std::unique_ptr<Program> m_helper;
    std::unique_ptr<Program> m_participant;
    sound::DeviceChoice m_voice = sound::DeviceChoice::nothing(); ///< of the participant
    sound::DeviceChoice m_tooLoud = sound::DeviceChoice::nothing();
    int m_pictures = 0;
    std::chrono::steady_clock::time_point m_began = std::chrono::steady_clock::now();
};

} // namespace vh::tour
