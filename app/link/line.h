#pragma once
// The one line of this program to a relay: comes in (login, one-time link, or code and door), comes back by itself when
// it is lost (from 0.3 s on, full jitter), knows the relay's time, and keeps what has been asked for until it is
// acknowledged: after a reconnect the same requests go up again under the same ids, so each is done once. Live things
// (readings) are dropped while the line is down. GUI thread.
// Failure: an entry that the relay refuses, or a relay whose key has changed, ends the line (state `ended`) with words;
// everything else is tried again.
#include "app/link/identity.h"
#include "common/base/backoff.h"
#include "common/base/clock_offset.h"
#include "common/wire/codec.h"

#include <QObject>
#include <QPointer>
#include <QTimer>
#include <QWebSocket>

#include <deque>

namespace vh::link
{

enum class LineState : std::uint8_t {
    closed,     ///< not asked for
    connecting, ///< for the first time
    atDoor,     ///< waits to be let in
    in,
    lost,  ///< was in (or at the door), tries again by itself
    ended, ///< will not come back by itself; see Line::ending()
};

/// How to come in.
struct Entry {
    enum class How : std::uint8_t { login, redeem, knock };
    How how = How::login;
    std::string host;
    std::uint16_t port = 443;
    std::optional<wire::Hash> pin;
    GroupId group;                 ///< login
    Role role = Role::participant; ///< login
    wire::Token token{};           ///< redeem
    std::string code;              ///< knock
    std::string name;              ///< redeem, knock
    std::string device;            ///< in words: "laptop"
    wire::KeyPair keys;
    bool plain = false; ///< without TLS: a relay on this machine, in tests
};
Entry entryOf(const Membership& membership, const wire::KeyPair& keys);

class Line : public QObject
{
    Q_OBJECT
public:
    explicit Line(const Clock& clock, QObject* parent = nullptr);
    ~Line() override;

    void open(const Entry& entry);
    /// Says goodbye.
    void close();

    [[nodiscard]] LineState state() const { return m_state; }
    /// Why it ended, in plain words; before that, what the relay last said of why it could not let us in yet.
    [[nodiscard]] const QString& ending() const { return m_ending; }
    /// The code of what the relay said last of itself (docs/protocol.md, refusals); empty: nothing.
    [[nodiscard]] const std::string& endingCode() const { return m_endingCode; }
    /// Set from the first welcome on.
    [[nodiscard]] const std::optional<wire::Welcome>& welcome() const { return m_welcome; }
    [[nodiscard]] const Entry& entry() const { return m_entry; }
    /// Of the key this relay showed, where no public certificate vouches for it.
    [[nodiscard]] const std::optional<wire::Hash>& seenPin() const { return m_seenPin; }
    /// By the code alone: whether the key is still to be compared, by its four words. Until then say nothing private.
    [[nodiscard]] bool isUncompared() const { return m_seenPin && !m_entry.pin; }
    /// The words were the same: from now on this key is the relay's.
    void trustSeenKey();

    /// The relay's time now, as well as it is known.
    [[nodiscard]] Instant relayNow() const;

    /// Done once, even across lost lines. The answer comes by answered(). Kept in order, at most kMostUnanswered:
    /// beyond that the oldest is given up and answered with "gave-up".
    template <class Message>
    RequestId ask(Message message)
    {
        message.id = RequestId::random();
        keep(message.id, wire::encode(message));
        return message.id;
    }
    /// The same, but before everything else that waits (agreements). An id that it brings along is kept.
    template <class Message>
    RequestId askFirst(Message message)
    {
        if (message.id.isNull())
            message.id = RequestId::random();
        keep(message.id, wire::encode(message), Turn::first);
        return message.id;
    }
    /// Not asked again, and never answered; what has gone up already is not called back.
    void drop(const RequestId& id);
    /// Sent only if the line is up now.
    template <class Message>
    void tell(const Message& message)
    {
        if (m_state == LineState::in)
            sendText(wire::encode(message));
    }
    void tellBinary(const std::string& frame);
    /// Those who fetch by hash take turns: a refusal does not say what it is about. False: somebody else is fetching,
    /// and fetchFree() tells when not any more. A lost line ends the turn.
    [[nodiscard]] bool beginFetch(QObject* who);
    void endFetch(const QObject* who);
    [[nodiscard]] std::size_t unanswered() const { return m_unanswered.size(); }

    /// Ends the line without a word, as a pulled cable would; it comes back by itself.
    void pullCable();

    static constexpr std::size_t kMostUnanswered = 1000;

signals:
    void stateChanged(vh::link::LineState state);
    /// Every message but those that the line needs for itself (challenge, clockAnswer).
    void received(const vh::wire::ToClient& message);
    void binaryReceived(const QByteArray& frame);
    /// `by` does not fetch any more; others may.
    void fetchFree(const QObject* by);
    /// `error` is null when it was done. `ack` then holds what it gave.
    void answered(const vh::RequestId& id, const vh::wire::Ack& ack, const vh::Error* error);

private:
    enum class Turn : std::uint8_t { inOrder, first };
    struct Unanswered {
        RequestId id;
        std::string text;
        Turn turn = Turn::inOrder;
    };

    void connectNow();
    void dropSocket();
    void lose();
    void end(const QString& why);
    void setState(LineState state);
    void onConnected();
    void onSslErrors(const QList<QSslError>& errors);
    [[nodiscard]] bool keyIsRight() const;
    void endUnsure();
    void endChangedKey();
    void onText(const QString& text);
    void take(const wire::ToClient& message);
    void comeIn(const wire::Challenge& challenge);
    void isIn(const wire::Welcome& welcome);
    void onClosed();
    void keep(const RequestId& id, std::string text, Turn turn = Turn::inOrder);
    void settle(const RequestId& id, const wire::Ack& ack, const Error* error);
    void askAgain(const RequestId& id);
    void askClock();
    void sendText(const std::string& text);

    const Clock& m_clock;
    Entry m_entry;
    LineState m_state = LineState::closed;
    QString m_ending;
    std::string m_endingCode;
    std::unique_ptr<QWebSocket> m_socket;
    QTimer m_retry;
    QTimer m_clockTimer;
    QTimer m_silence; ///< nothing heard for too long: the line is taken for lost
    Backoff m_backoff;
    ClockOffset m_offset;
    Millis m_firstIdea{0}; ///< of the offset, from the welcome, until the first exchange is back
    std::optional<wire::Hash> m_seenPin;
    std::optional<wire::Welcome> m_welcome;
    std::optional<HallEpoch> m_epoch;
    std::uint64_t m_lastSeq = 0;
    std::uint64_t m_speakingSeq = 0; ///< of the last `speaking`: the first of a seq says more than the one for all
    std::uint64_t m_boardSince = 0;
    QPointer<QObject> m_fetching;
    std::deque<Unanswered> m_unanswered;
};

} // namespace vh::link
