#include "app/link/line.h"

#include "common/wire/close_codes.h"

#include <QNetworkRequest>
#include <QRandomGenerator>
#include <QWebSocketHandshakeOptions>

#include <algorithm>

namespace vh::link
{

namespace
{

constexpr std::chrono::seconds kClockEvery{5};
/// The relay is never silent longer than this: our own clock question is answered.
constexpr std::chrono::seconds kSilentFor{12};
constexpr std::chrono::milliseconds kBusyWait{500};
/// A disk that is full or slow takes longer to get over it.
constexpr std::chrono::milliseconds kStoreWait{2000};

/// Whether the relay says that trying again is no use. On the way in also "policy" (another version, no name); whoever
/// was in already was only too slow or silent for a while, and may come back.
bool isFinal(int closeCode, bool wasIn)
{
    using namespace wire;
    for (const CloseCode code : {kCloseAnotherDevice, kCloseRevoked, kCloseTurnedAway, kCloseNotKnown})
        if (closeCode == static_cast<int>(code))
            return true;
    return closeCode == static_cast<int>(CloseCode::policy) && !wasIn;
}

} // namespace

Entry entryOf(const Membership& membership, const wire::KeyPair& keys)
{
    Entry entry;
    entry.host = membership.host;
    entry.port = membership.port;
    entry.pin = membership.pin;
    entry.group = membership.group;
    entry.role = membership.role;
    entry.name = membership.name;
    entry.keys = keys;
    return entry;
}

Line::Line(const Clock& clock, QObject* parent) : QObject(parent), m_clock(clock)
{
    m_retry.setSingleShot(true);
    connect(&m_retry, &QTimer::timeout, this, &Line::connectNow);
    m_clockTimer.setInterval(kClockEvery);
    connect(&m_clockTimer, &QTimer::timeout, this, &Line::askClock);
    m_silence.setSingleShot(true);
    m_silence.setInterval(kSilentFor);
    connect(&m_silence, &QTimer::timeout, this, &Line::lose);
}

Line::~Line()
{
    dropSocket();
}

void Line::open(const Entry& entry)
{
    dropSocket();
    m_entry = entry;
    m_welcome.reset();
    m_epoch.reset();
    m_ending.clear();
    m_endingCode.clear();
    m_seenPin.reset();
    m_lastSeq = 0;
    m_speakingSeq = 0;
    m_boardSince = 0;
    m_unanswered.clear();
    m_backoff.reset();
    m_offset.forget();
    m_firstIdea = Millis{0};
    setState(LineState::connecting);
    connectNow();
}

void Line::close()
{
    if (m_socket && m_state == LineState::in)
        sendText(wire::encode(wire::Bye{}));
    if (m_socket) {
        m_socket->flush();
        m_socket->close();
    }
    m_retry.stop();
    dropSocket();
    setState(LineState::closed);
}

void Line::connectNow()
{
    dropSocket();
    m_socket = std::make_unique<QWebSocket>();
    connect(m_socket.get(), &QWebSocket::connected, this, &Line::onConnected);
    connect(m_socket.get(), &QWebSocket::disconnected, this, &Line::onClosed);
    connect(m_socket.get(), QOverload<QAbstractSocket::SocketError>::of(&QWebSocket::error), this, &Line::onClosed);
    connect(m_socket.get(), &QWebSocket::sslErrors, this, &Line::onSslErrors);
    connect(m_socket.get(), &QWebSocket::textMessageReceived, this, &Line::onText);
    connect(m_socket.get(), &QWebSocket::binaryMessageReceived, this, [this](const QByteArray& frame) {
        m_silence.start();
        emit binaryReceived(frame);
    });
    m_socket->setMaxAllowedIncomingMessageSize(wire::kToClient);
    m_socket->setMaxAllowedIncomingFrameSize(wire::kToClient);
    QWebSocketHandshakeOptions options;
    options.setSubprotocols({wire::kSubprotocol});
    QUrl url;
    url.setScheme(m_entry.plain ? "ws" : "wss");
    std::string host = m_entry.host;
    if (host.starts_with('[') && host.ends_with(']'))
        host = host.substr(1, host.size() - 2);
    url.setHost(QString::fromStdString(host));
    url.setPort(m_entry.port);
    url.setPath(wire::kPath);
    m_silence.start();
    m_socket->open(QNetworkRequest(url), options);
}

void Line::dropSocket()
{
    m_clockTimer.stop();
    m_silence.stop();
    if (!m_socket)
        return;
    m_socket->disconnect(this);
    m_socket->abort();
    m_socket.release()->deleteLater(); // we may be inside one of its signals
}

void Line::pullCable()
{
    if (m_socket)
        lose();
}

void Line::lose()
{
    dropSocket();
    if (m_state == LineState::ended || m_state == LineState::closed)
        return;
    if (m_state != LineState::connecting)
        setState(LineState::lost);
    m_retry.start(m_backoff.next(QRandomGenerator::global()->generateDouble()));
}

void Line::end(const QString& why)
{
    m_ending = why;
    m_retry.stop();
    dropSocket();
    setState(LineState::ended);
}

void Line::setState(LineState state)
{
    if (m_state == state)
        return;
    m_state = state;
    m_fetching.clear();
    emit stateChanged(state);
}

void Line::onConnected()
{
    if (!keyIsRight())
        return endChangedKey();
    wire::Hello hello;
    hello.app = "voicehall " VH_VERSION;
    sendText(wire::encode(hello));
    askClock(); // answered at any stage: it is also how a line that waits at the door knows that it is up
    m_clockTimer.start();
}

void Line::onText(const QString& text)
{
    m_silence.start();
    const auto message = wire::decodeToClient(text.toStdString());
    if (message)
        take(*message);
    else if (message.error().code != "unsupported") // something of a newer relay: skipped
        lose();
}

void Line::take(const wire::ToClient& message)
{
    if (const auto* challenge = std::get_if<wire::Challenge>(&message))
        return comeIn(*challenge);
    if (const auto* answer = std::get_if<wire::ClockAnswer>(&message)) {
        m_offset.add({Millis{answer->sent}, answer->received.time_since_epoch(), answer->answered.time_since_epoch(),
                      m_clock.now().time_since_epoch()});
        return;
    }
    if (const auto* welcome = std::get_if<wire::Welcome>(&message))
        isIn(*welcome);
    else if (const auto* door = std::get_if<wire::AtDoor>(&message)) {
        // A relay that has no words to compare has a public certificate; what this line saw was none: not that relay.
        if (isUncompared() && door->words.empty())
            return endUnsure();
        setState(LineState::atDoor);
    } else if (const auto* place = std::get_if<wire::PlaceNow>(&message))
        m_lastSeq = place->seq;
    else if (const auto* board = std::get_if<wire::Board>(&message))
        for (const wire::BoardItem& item : board->items)
            m_boardSince = std::max(m_boardSince, item.change);
    if (const auto* speaking = std::get_if<wire::Speaking>(&message)) {
        if (speaking->seq <= m_speakingSeq)
            return;
        m_speakingSeq = speaking->seq;
    }
    if (const auto* ack = std::get_if<wire::Ack>(&message))
        return settle(ack->id, *ack, nullptr);
    if (const auto* refused = std::get_if<wire::Refused>(&message)) {
        const Error error{refused->code, refused->message, {}};
        if (refused->id)
            return settle(*refused->id, {}, &error);
        m_ending = QString::fromStdString(refused->message); // often the last word before the line ends
        m_endingCode = refused->code;
    }
    emit received(message);
}

void Line::comeIn(const wire::Challenge& challenge)
{
    const auto signedWith = [&](wire::Purpose purpose, const std::string& subject, Role role) {
        return wire::sign(m_entry.keys, wire::loginText(purpose, subject, challenge.nonce, role));
    };
    const bool known = m_welcome || m_entry.how == Entry::How::login;
    if (known) {
        wire::Login login;
        login.group = m_welcome ? m_welcome->group : m_entry.group;
        login.role = m_welcome ? m_welcome->role : m_entry.role;
        login.key = m_entry.keys.publicKey;
        login.signature = signedWith(wire::Purpose::login, login.group.hex(), login.role);
        login.epoch = m_epoch;
        if (m_epoch)
            login.lastSeq = m_lastSeq;
        login.boardSince = m_epoch == challenge.epoch ? m_boardSince : 0;
        return sendText(wire::encode(login));
    }
    if (m_entry.how == Entry::How::redeem) {
        wire::Redeem redeem;
        redeem.token = m_entry.token;
        redeem.key = m_entry.keys.publicKey;
        redeem.signature = signedWith(wire::Purpose::redeem, hexOf(redeem.token), Role::participant);
        redeem.name = m_entry.name;
        redeem.device = m_entry.device;
        return sendText(wire::encode(redeem));
    }
    wire::Knock knock;
    knock.code = m_entry.code;
    knock.key = m_entry.keys.publicKey;
    knock.signature = signedWith(wire::Purpose::knock, knock.code, Role::participant);
    knock.name = m_entry.name;
    knock.device = m_entry.device;
    sendText(wire::encode(knock));
}

void Line::isIn(const wire::Welcome& welcome)
{
    m_welcome = welcome;
    m_epoch = welcome.epoch;
    m_lastSeq = welcome.seq;
    m_speakingSeq = welcome.seq;
    for (const wire::BoardItem& item : welcome.board)
        m_boardSince = std::max(m_boardSince, item.change);
    m_backoff.reset();
    m_firstIdea = welcome.now - m_clock.now();
    for (const Unanswered& each : m_unanswered) // before anybody hears of it and says something newer
        sendText(each.text);
    setState(LineState::in);
}

void Line::onClosed()
{
    const int code = m_socket ? static_cast<int>(m_socket->closeCode()) : 0;
    const QString reason = m_socket ? m_socket->closeReason() : QString();
    if (isFinal(code, m_welcome.has_value()))
        return end(m_ending.startsWith(reason) ? m_ending : reason); // a close has room for little of it
    lose();
}

void Line::keep(const RequestId& id, std::string text, Turn turn)
{
    const auto inOrder = [this] {
        return std::find_if(m_unanswered.begin(), m_unanswered.end(),
                            [](const Unanswered& each) { return each.turn == Turn::inOrder; });
    };
    if (m_unanswered.size() >= kMostUnanswered) {
        const Error gaveUp{"gave-up", "The line has been down for too long.", {}};
        const auto oldest = inOrder() == m_unanswered.end() ? m_unanswered.begin() : inOrder();
        settle(RequestId(oldest->id), {}, &gaveUp); // a copy: settling takes the request out
    }
    if (m_state == LineState::in)
        sendText(text);
    m_unanswered.insert(turn == Turn::first ? inOrder() : m_unanswered.end(), {id, std::move(text), turn});
}

void Line::drop(const RequestId& id)
{
    std::erase_if(m_unanswered, [&](const Unanswered& each) { return each.id == id; });
}

void Line::settle(const RequestId& id, const wire::Ack& ack, const Error* error)
{
    const bool notStored = error && error->code == "store-failed";
    if (notStored || (error && error->code == "busy")) // no answer yet: asked again in a moment
        return QTimer::singleShot(notStored ? kStoreWait : kBusyWait, this, [this, id] { askAgain(id); });
    if (std::erase_if(m_unanswered, [&](const Unanswered& each) { return each.id == id; }) > 0)
        emit answered(id, ack, error);
}

void Line::askAgain(const RequestId& id)
{
    const auto found =
        std::find_if(m_unanswered.begin(), m_unanswered.end(), [&](const Unanswered& each) { return each.id == id; });
    if (found != m_unanswered.end() && m_state == LineState::in)
        sendText(found->text);
}

void Line::askClock()
{
    sendText(wire::encode(wire::ClockAsk{m_clock.now().time_since_epoch().count()}));
}

Instant Line::relayNow() const
{
    const auto best = m_offset.best();
    return m_clock.now() + (best ? std::chrono::duration_cast<Millis>(best->offset()) : m_firstIdea);
}

void Line::tellBinary(const std::string& frame)
{
    if (m_state == LineState::in && m_socket)
        m_socket->sendBinaryMessage(QByteArray(frame.data(), static_cast<qsizetype>(frame.size())));
}

bool Line::beginFetch(QObject* who)
{
    if (m_fetching && m_fetching != who)
        return false;
    m_fetching = who;
    return true;
}

void Line::endFetch(const QObject* who)
{
    if (m_fetching != who)
        return;
    m_fetching.clear();
    emit fetchFree(who);
}

void Line::sendText(const std::string& text)
{
    if (m_socket)
        m_socket->sendTextMessage(QString::fromStdString(text));
}

} // namespace vh::link
