#include "net_fixture.h"

#include <QFile>
#include <QTemporaryDir>
#include <QtTest>

#include <fcntl.h>
#include <netinet/in.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

using namespace vh;
using namespace vh::net;
using namespace vh::net::test;
using namespace std::chrono_literals;

namespace
{

/// A bare TCP line: says what it is told and keeps what it hears.
class Line final : public PollTarget
{
public:
    Line(Loop& loop, std::uint16_t port) : m_loop(loop), m_descriptor(::socket(AF_INET, SOCK_STREAM, 0))
    {
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_port = htons(port);
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        connected = ::connect(m_descriptor, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0 &&
                    ::fcntl(m_descriptor, F_SETFL, O_NONBLOCK) == 0 &&
                    m_loop.poller().add(m_descriptor, *this, EPOLLIN);
    }
    ~Line() override
    {
        m_loop.poller().remove(m_descriptor, *this);
        ::close(m_descriptor);
    }
    bool say(std::string_view text) const
    {
        return ::send(m_descriptor, text.data(), text.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(text.size());
    }
    void onReady(std::uint32_t) override
    {
        char buffer[4096];
        const auto count = ::recv(m_descriptor, buffer, sizeof buffer, 0);
        if (count > 0) {
            heard.append(buffer, static_cast<std::size_t>(count));
        } else if (!ended) {
            ended = true;
            m_loop.poller().remove(m_descriptor, *this);
        }
    }
    bool connected = false;
    bool ended = false;
    std::string heard;

private:
    Loop& m_loop;
    int m_descriptor;
};

ListenerOptions secure()
{
    ListenerOptions options;
    options.tls = selfSigned();
    return options;
}

} // namespace

class TestListener : public QObject
{
    Q_OBJECT
private slots:
    void plainHttpGetsAnAnswerAndTheLineEnds()
    {
        Relay relay;
        Line line(relay.loop, relay.listener->port());
        QVERIFY(line.connected && line.say("GET / HTTP/1.1\r\nHost: x\r\n\r\n"));
        QVERIFY(relay.until([&] { return line.ended; }));
        QVERIFY(line.heard.rfind("HTTP/1.1 404 Not Found\r\n", 0) == 0);
        QCOMPARE(relay.closedBy(CloseReason::badRequest), std::uint64_t{1});
        QVERIFY(relay.saw->opened.empty());
    }

    void aHeadByteByByteIsRead()
    {
        Relay relay;
        std::string key;
        const auto request = upgradeRequest({}, "x", key) + "\r\n";
        Line line(relay.loop, relay.listener->port());
        std::size_t at = 0;
        const auto drip = relay.loop.every(1ms, [&] {
            if (at < request.size())
                QVERIFY(line.say(request.substr(at++, 1)));
        });
        QVERIFY(relay.until([&] { return line.heard.find("\r\n\r\n") != std::string::npos; }));
        QVERIFY(!checkUpgradeAnswer(line.heard, {}, key));
    }

    void aHeadTooLargeIsRefused()
    {
        Relay relay;
        Line line(relay.loop, relay.listener->port());
        QVERIFY(line.say("GET /voicehall HTTP/1.1\r\nHost: x\r\nA: " + std::string(9000, 'a')));
        QVERIFY(relay.until([&] { return line.ended; }));
        QVERIFY(line.heard.rfind("HTTP/1.1 431 ", 0) == 0);
    }

    void whoSaysNothingIsClosedInTime_data()
    {
        QTest::addColumn<bool>("tls");
        QTest::newRow("plain") << false;
        QTest::newRow("tls") << true;
    }
    void whoSaysNothingIsClosedInTime()
    {
        QFETCH(bool, tls);
        auto options = tls ? secure() : ListenerOptions{};
        options.limits.handshake = 50ms;
        Relay relay(std::move(options));
        Line line(relay.loop, relay.listener->port());
        QVERIFY(relay.until([&] { return line.ended; }));
        QCOMPARE(relay.closedBy(CloseReason::handshakeTimeout), std::uint64_t{1});
    }

    void plainHttpAndGarbageOnTheTlsPortHurtNobody()
    {
        Relay relay(secure());
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->open; }));
        Line http(relay.loop, relay.listener->port());
        Line garbage(relay.loop, relay.listener->port());
        QVERIFY(http.say("GET /voicehall HTTP/1.1\r\nHost: x\r\n\r\n"));
        QVERIFY(garbage.say("\xff\xff\xff\xff\xff\xff and then some more of it"));
        QVERIFY(relay.until([&] { return http.ended && garbage.ended; }));
        QVERIFY(http.heard.find("HTTP/1.1") == std::string::npos);
        QCOMPARE(relay.closedBy(CloseReason::tlsFailed), std::uint64_t{2});
        client->sendText("still here");
        QVERIFY(relay.until([&] { return !relay.saw->texts.empty(); }));
    }

    void anotherKeyThanThePinIsNotSpokenTo()
    {
        Relay relay(secure());
        const auto stranger = TlsContext::server(makeSelfSigned({"localhost"}).value()).value();
        relay.clientOptions.tls = TlsContext::client(stranger->pin()).value();
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->ended; }));
        QVERIFY(!seen->open);
        QVERIFY(relay.saw->opened.empty());
    }

    void withoutAPinASelfSignedKeyIsNotTrusted()
    {
        Relay relay(secure());
        relay.clientOptions.tls = TlsContext::client(std::nullopt).value();
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([s = seen] { return s->ended; }));
        QVERIFY(!seen->open);
    }

    void forwardedAddressesAreBelievedFromProxiesOnly_data()
    {
        QTest::addColumn<bool>("trusted");
        QTest::addColumn<QString>("address");
        QTest::newRow("configured proxy") << true << "198.51.100.1";
        QTest::newRow("anybody else") << false << "127.0.0.1";
    }
    void forwardedAddressesAreBelievedFromProxiesOnly()
    {
        QFETCH(bool, trusted);
        QFETCH(QString, address);
        ListenerOptions options;
        if (trusted)
            options.proxies.ranges.push_back(AddressRange::parse("127.0.0.1").value());
        Relay relay(std::move(options));
        relay.clientOptions.extraHeaders = "X-Forwarded-For: 203.0.113.5, 198.51.100.1\r\n";
        const auto [client, seen] = relay.connect();
        QVERIFY(relay.until([&] { return !relay.saw->opened.empty(); }));
        QCOMPARE(relay.saw->opened[0]->address(), address.toStdString());
    }

    void aUnixSocketServesAProxyAndIsTidiedUp()
    {
        QTemporaryDir directory;
        const auto path = directory.filePath("relay.sock").toStdString();
        ListenerOptions options;
        options.address.unixPath = path;
        options.proxies.local = true;
        {
            Relay relay(options);
            relay.clientOptions.extraHeaders = "X-Forwarded-For: 198.51.100.1\r\n";
            const auto [client, seen] = relay.connect();
            QVERIFY(relay.until([&] { return !relay.saw->opened.empty(); }));
            QCOMPARE(relay.saw->opened[0]->address(), std::string("198.51.100.1"));
            QVERIFY(QFile::exists(QString::fromStdString(path)));
        }
        QVERIFY(!QFile::exists(QString::fromStdString(path)));
    }

    void aFileThatIsNoSocketIsLeftAlone()
    {
        QTemporaryDir directory;
        QFile file(directory.filePath("precious"));
        QVERIFY(file.open(QIODevice::WriteOnly));
        Loop loop;
        ListenerOptions options;
        options.address.unixPath = file.fileName().toStdString();
        QCOMPARE(Listener::open(loop, std::move(options)).error().code, std::string("cannot-listen"));
        QVERIFY(file.exists());
    }

    void aTakenPortAndAWrongAddressAreSaid()
    {
        Relay relay;
        ListenerOptions options;
        options.address.port = relay.listener->port();
        QCOMPARE(Listener::open(relay.loop, std::move(options)).error().code, std::string("cannot-listen"));
        ListenerOptions named;
        named.address.host = "localhost";
        QCOMPARE(Listener::open(relay.loop, std::move(named)).error().code, std::string("bad-address"));
    }

    void aboveItsLimitItTakesNobody()
    {
        ListenerOptions options;
        options.maxConnections = 2;
        Relay relay(std::move(options));
        const auto [one, oneSeen] = relay.connect();
        const auto [two, twoSeen] = relay.connect();
        QVERIFY(relay.until([a = oneSeen, b = twoSeen] { return a->open && b->open; }));
        const auto [three, threeSeen] = relay.connect();
        QVERIFY(relay.until([s = threeSeen] { return s->ended; }));
        QCOMPARE(relay.loop.counters().refusedFull, std::uint64_t{1});
        relay.saw->opened.clear();
        one->drop();
        QVERIFY(relay.until([&] { return relay.saw->closed.size() == 1; }));
        bool open = false;
        QVERIFY(relay.until([&] {
            static std::shared_ptr<ClientSaw> latest;
            if (!latest || latest->ended)
                latest = relay.connect().second;
            open = latest->open;
            if (open)
                latest.reset();
            return open;
        }));
    }

    void outOfDescriptorsItRestsAndGoesOn()
    {
        Relay relay;
        rlimit before{};
        QCOMPARE(::getrlimit(RLIMIT_NOFILE, &before), 0);
        // One descriptor is left: the line takes it, the other end of it cannot be accepted.
        std::vector<int> spare;
        rlimit low = before;
        low.rlim_cur = 256;
        QCOMPARE(::setrlimit(RLIMIT_NOFILE, &low), 0);
        for (int fd = ::dup(0); fd >= 0; fd = ::dup(0))
            spare.push_back(fd);
        ::close(spare.back());
        spare.pop_back();
        Line line(relay.loop, relay.listener->port());
        QVERIFY(line.connected);
        bool waited = false;
        const auto wait = relay.loop.after(250ms, [&] { waited = true; });
        QVERIFY(relay.until([&] { return waited; }));
        const auto pauses = relay.loop.counters().acceptPauses;
        QVERIFY2(pauses >= 1 && pauses <= 4, std::to_string(pauses).c_str()); // spinning would be thousands
        for (const int fd : spare)
            ::close(fd);
        QVERIFY(line.say("GET / HTTP/1.1\r\nHost: x\r\n\r\n"));
        QVERIFY(relay.until([&] { return line.ended; }));
        QVERIFY(!line.heard.empty());
        QCOMPARE(::setrlimit(RLIMIT_NOFILE, &before), 0);
    }
};

QTEST_GUILESS_MAIN(TestListener)
#include "test_listener.moc"
