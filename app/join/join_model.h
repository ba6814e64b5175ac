#pragma once
// The participant's way through: from a link or code to the class, one question a screen, and what the class screen
// shows. Takes what happens (messages, answers, frames, ticks) and gives the view and what is to be done. No widget, no
// socket, no sound: tested without any. GUI thread.
#include "app/join/home_meter.h"
#include "app/join/join_view.h"
#include "app/join/mic_check.h"
#include "app/link/class_follow.h"
#include "app/sound/ears_state.h"
#include "common/live/agreements.h"

namespace vh::join
{

enum class Screen : std::uint8_t {
    entry, ///< address, code, name
    connecting,
    door,
    agreements, ///< one after the other
    contact,
    today,
    check,
    inClass,
    writing,
    over,
};

/// What the person, on this screen, wants done. The control does it.
struct Wish {
    enum class Kind : std::uint8_t {
        comeIn,
        agree,
        contact,
        today,
        checked,
        skipCheck,
        write,
        callHelp,
        leave,
        listen
    };
    Kind kind;
    AgreementKind agreement = AgreementKind::levelVisible;
    std::string value;  ///< of the agreement; the line to write; where the person is
    std::string second; ///< whom to ring; the code
    std::string third;  ///< the name
    wire::VoiceToday voice = wire::VoiceToday::fine;
};

class JoinModel
{
public:
    // --- what happens ----------------------------------------------------------------------------------------------
    void startAtEntry(const QString& address, const QString& code, const QString& name, const QString& wrong = {});
    void connecting(const QString& to);
    void lineIs(link::LineState state, const QString& ending);
    void keyWords(const QStringList& words) { m_keyWords = words; }
    void welcome(const wire::Welcome& welcome, bool knowsMicrophone);
    void take(const wire::ToClient& message);
    void earsAre(sound::EarsState state) { m_ears = state; }
    void devicesAre(const QStringList& names, int chosen);
    void frame(const VoiceFrame& frame);
    void followClass(const link::ClassFollow& follow, Instant now);

    // --- what the person does: index of a choice, or what stands in the fields --------------------------------------
    [[nodiscard]] std::vector<Wish> choose(int choice);
    [[nodiscard]] std::vector<Wish> submit(const QStringList& fields);
    [[nodiscard]] std::vector<Wish> goBack();
    [[nodiscard]] std::vector<Wish> pressWait();
    [[nodiscard]] std::vector<Wish> pressCheck(bool skip);
    [[nodiscard]] std::vector<Wish> pressHelp();
    [[nodiscard]] std::vector<Wish> pressPrivate();
    void pressWrite();
    void pressAgreements();

    [[nodiscard]] Screen screen() const { return m_screen; }
    [[nodiscard]] JoinView view(const link::ClassFollow* follow) const;
    [[nodiscard]] HomeMeter& meter() { return m_meter; }
    [[nodiscard]] const MicCheck& check() const { return m_check; }
    [[nodiscard]] const Agreements& agreements() const { return m_agreements; }
    [[nodiscard]] bool isResting() const { return m_voice == wire::VoiceToday::listening; }
    void restartCheck() { m_check = {}; }
    /// Nothing more is asked at the door than today's voice.
    void skipCheckWhenKnown(bool known) { m_knowsMicrophone = known; }

private:
    [[nodiscard]] bool isAsked(AgreementKind kind) const;
    void nextQuestion();
    void toToday();
    void toClass();
    [[nodiscard]] AskView agreementView() const;
    [[nodiscard]] AskView todayView() const;
    [[nodiscard]] CheckView checkView() const;
    [[nodiscard]] ClassView classView(const link::ClassFollow* follow) const;
    [[nodiscard]] NoticeLine::State noticeNow(const link::ClassFollow* follow) const;
    [[nodiscard]] NoticeLine::State situation(const link::ClassFollow* follow) const;
    void setAgreement(AgreementKind kind, const std::string& value);

    Screen m_screen = Screen::entry;
    AskView m_entry;
    QString m_waitWords;
    QStringList m_keyWords;
    link::LineState m_line = link::LineState::closed;
    QString m_ending;

    std::optional<wire::Welcome> m_welcome;
    Agreements m_agreements;
    std::vector<AgreementKind> m_answered;
    std::size_t m_question = 0;
    bool m_reviewing = false; ///< the agreements were opened from the class
    bool m_knowsMicrophone = false;
    wire::VoiceToday m_voice = wire::VoiceToday::fine;
    bool m_saidToday = false;

    sound::EarsState m_ears = sound::EarsState::off;
    QStringList m_devices;
    int m_device = 0;
    float m_levelDbfsA = -120;
    MicCheck m_check;
    HomeMeter m_meter;

    std::uint32_t m_here = 0;
    std::uint32_t m_helpers = 0;
    QStringList m_board;
    std::optional<wire::CallStatus> m_call;
    bool m_calling = false; ///< pressed, not yet acknowledged
    bool m_classEnded = false;
};

} // namespace vh::join
