#include "server/net/upgrade.h"

#include <QtTest>

using namespace vh::net;

namespace
{

/// A right request with one of its lines replaced; an empty replacement leaves the line out.
std::string request(const std::string& line = {}, const std::string& replacement = {})
{
    std::string out;
    for (const std::string each : {"GET /voicehall HTTP/1.1", "Host: relay.example", "Upgrade: websocket",
                                   "Connection: keep-alive, Upgrade", "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==",
                                   "Sec-WebSocket-Protocol: other.2, voicehall.1", "Sec-WebSocket-Version: 13"}) {
        const bool replaced = !line.empty() && each.rfind(line, 0) == 0;
        if (!replaced || !replacement.empty())
            out += (replaced ? replacement : each) + "\r\n";
    }
    return out + "\r\n";
}

} // namespace

class TestUpgrade : public QObject
{
    Q_OBJECT
private slots:
    // RFC 6455 section 1.3 and 4.2.2: the sample nonce and its answer.
    void theKeyOfTheRfcIsAnswered()
    {
        QCOMPARE(acceptKey("dGhlIHNhbXBsZSBub25jZQ=="), std::string("s3pPLMBiTxaQ9kYGzzhZRbK+xOo="));
        const auto answer = answerUpgrade(request(), {});
        QVERIFY(answer.accepted);
        QVERIFY(answer.response.rfind("HTTP/1.1 101 ", 0) == 0);
        QVERIFY(answer.response.find("Sec-WebSocket-Accept: s3pPLMBiTxaQ9kYGzzhZRbK+xOo=\r\n") != std::string::npos);
        QVERIFY(answer.response.find("Sec-WebSocket-Protocol: voicehall.1\r\n") != std::string::npos);
    }

    void wrongRequestsGetTheirAnswer_data()
    {
        QTest::addColumn<QString>("line");
        QTest::addColumn<QString>("replacement");
        QTest::addColumn<int>("status");
        QTest::newRow("another path") << "GET"
                                      << "GET /admin HTTP/1.1" << 404;
        QTest::newRow("another method") << "GET"
                                        << "POST /voicehall HTTP/1.1" << 405;
        QTest::newRow("HTTP/1.0") << "GET"
                                  << "GET /voicehall HTTP/1.0" << 400;
        QTest::newRow("no host") << "Host"
                                 << "" << 400;
        QTest::newRow("no upgrade") << "Upgrade"
                                    << "" << 426;
        QTest::newRow("no connection") << "Connection"
                                       << "Connection: close" << 426;
        QTest::newRow("old version") << "Sec-WebSocket-Version"
                                     << "Sec-WebSocket-Version: 8" << 426;
        QTest::newRow("no key") << "Sec-WebSocket-Key"
                                << "" << 400;
        QTest::newRow("short key") << "Sec-WebSocket-Key"
                                   << "Sec-WebSocket-Key: abc=" << 400;
        QTest::newRow("no subprotocol") << "Sec-WebSocket-Protocol"
                                        << "" << 400;
        QTest::newRow("other subprotocol") << "Sec-WebSocket-Protocol"
                                           << "Sec-WebSocket-Protocol: voicehall.10" << 400;
        QTest::newRow("with a body") << "Host"
                                     << "Host: relay.example\r\nContent-Length: 5" << 400;
        QTest::newRow("nonsense") << "GET"
                                  << "\x16\x03\x01 hello" << 400;
    }
    void wrongRequestsGetTheirAnswer()
    {
        QFETCH(QString, line);
        QFETCH(QString, replacement);
        QFETCH(int, status);
        const auto answer = answerUpgrade(request(line.toStdString(), replacement.toStdString()), {});
        QVERIFY(!answer.accepted);
        QCOMPARE(answer.response.substr(0, 13), "HTTP/1.1 " + std::to_string(status) + " ");
        QVERIFY(answer.response.find("Connection: close\r\n") != std::string::npos);
    }

    void aQueryIsAllowedAndForwardedLinesAreJoined()
    {
        QVERIFY(answerUpgrade(request("GET", "GET /voicehall?x=1 HTTP/1.1"), {}).accepted);
        const auto answer = answerUpgrade(
            request("Host", "Host: a\r\nX-Forwarded-For: 1.1.1.1\r\nX-Forwarded-For: 2.2.2.2, 3.3.3.3"), {});
        QVERIFY(answer.accepted);
        QCOMPARE(answer.forwardedFor, std::string("1.1.1.1,2.2.2.2, 3.3.3.3"));
    }

    void theClientChecksWhatItGets()
    {
        const UpgradeRules rules;
        std::string key;
        const auto asked = upgradeRequest(rules, "relay.example", key) + "\r\n";
        const auto answer = answerUpgrade(asked, rules);
        QVERIFY(answer.accepted);
        QVERIFY(!checkUpgradeAnswer(answer.response, rules, key));
        QVERIFY(checkUpgradeAnswer(answer.response, rules, "dGhlIHNhbXBsZSBub25jZQ=="));
        QVERIFY(checkUpgradeAnswer(answer.response, UpgradeRules{.path = "/voicehall", .subprotocol = "x"}, key));
        QCOMPARE(*checkUpgradeAnswer(tooLargeAnswer(), rules, key), std::string("the server answered 431"));
        QVERIFY(checkUpgradeAnswer("SSH-2.0-x\r\n\r\n", rules, key));
    }
};

QTEST_APPLESS_MAIN(TestUpgrade)
#include "test_upgrade.moc"
