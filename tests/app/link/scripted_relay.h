#pragma once
// A relay that says just what a test tells it to: for what a real one does only now and then (busy, close codes, bytes
// that are not what they claim to be). Answers hello with a challenge and every way in with `welcome`, unless told not
// to. Everything it hears is kept. The test's thread.
#include "common/wire/codec.h"

#include <QWebSocket>
#include <QWebSocketHandshakeOptions>
#include <QWebSocketServer>
#include <QtTest>

#include <deque>

namespace vh::testing
{

class ScriptedRelay : public QObject
{
public:
    ScriptedRelay() : m_server("test", QWebSocketServer::NonSecureMode)
    {
        m_server.setSupportedSubprotocols({wire::kSubprotocol});
        if (!m_server.listen(QHostAddress::LocalHost))
            qFatal("no port on loopback");
        connect(&m_server, &QWebSocketServer::newConnection, this, [this] { take(m_server.nextPendingConnection()); });
        welcome.groupName = "Lakeside voices";
        welcome.name = "Ruth";
    }

    [[nodiscard]] std::uint16_t port() const { return m_server.serverPort(); }
    [[nodiscard]] int connections() const { return m_connections; }

    template <class Message>
    void send(const Message& message)
    {
        m_peer->sendTextMessage(QString::fromStdString(wire::encode(message)));
    }
    void sendBytes(const std::string& bytes)
    {
        m_peer->sendBinaryMessage(QByteArray(bytes.data(), static_cast<qsizetype>(bytes.size())));
    }
    void closeWith(int code, const QString& reason)
    {
        m_peer->close(static_cast<QWebSocketProtocol::CloseCode>(code), reason);
    }

    /// The first of its kind that nobody has taken yet; waits for it.
    template <class Message>
    std::optional<Message> hear()
    {
        std::optional<Message> found;
        (void)QTest::qWaitFor([&] {
            for (auto at = heard.begin(); !found && at != heard.end(); ++at)
                if (const auto* message = std::get_if<Message>(&*at)) {
                    found = *message;
                    heard.erase(at);
                    break;
                }
            return found.has_value();
        });
        return found;
    }

    wire::Welcome welcome;
    HallEpoch epoch = HallEpoch::random();
    bool letsIn = true;
    std::deque<wire::ToRelay> heard;

private:
    void take(QWebSocket* peer)
    {
        ++m_connections;
        m_peer = peer;
        peer->setParent(this);
        connect(peer, &QWebSocket::textMessageReceived, this, [this, peer](const QString& text) {
            const auto message = wire::decodeToRelay(text.toStdString());
            if (!message || peer != m_peer)
                return;
            heard.push_back(*message);
            if (std::holds_alternative<wire::Hello>(*message))
                send(wire::Challenge{{}, wire::kVersion, epoch});
            const bool entering = std::holds_alternative<wire::Login>(*message) ||
                                  std::holds_alternative<wire::Redeem>(*message) ||
                                  std::holds_alternative<wire::Knock>(*message);
            welcome.epoch = epoch;
            if (entering && letsIn)
                send(welcome);
        });
    }

    QWebSocketServer m_server;
    QWebSocket* m_peer = nullptr;
    int m_connections = 0;
};

} // namespace vh::testing
