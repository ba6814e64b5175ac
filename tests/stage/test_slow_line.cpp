#include "tests/stage/slow_line.h"

#include <QElapsedTimer>
#include <QTcpServer>
#include <QTcpSocket>
#include <QtTest>

using namespace vh::stage;

class TestSlowLine : public QObject
{
    Q_OBJECT
private slots:
    void theModelHoldsWhatIsBehindAHeldSegmentThenLetsAllGo()
    {
        LineModel line({.oneWayMs = 40, .heldShare = 0.02, .heldMs = 300}, 1);
        double before = 0;
        int held = 0, bursts = 0;
        for (int i = 0; i < 50'000; ++i) {
            const double at = line.arrivalOf(20.0 * i).value();
            QVERIFY(at >= before && at >= 20.0 * i + 40 && at <= 20.0 * i + 340);
            held += at == 20.0 * i + 340 ? 1 : 0;
            bursts += at == before ? 1 : 0;
            before = at;
        }
        QVERIFY(held > 850 && held < 1'150); // 2 % of 50,000 is 1,000, standard deviation 31
        QVERIFY(bursts > 10'000);            // up to 15 frames lie behind each
    }

    void theModelStallsOnceAMinute()
    {
        LineModel line({.oneWayMs = 40, .stallMs = 3'000}, 1);
        int late = 0;
        for (int i = 0; i < 9'000; ++i) { // three minutes
            const double at = line.arrivalOf(20.0 * i).value();
            late += at > 20.0 * i + 40 ? 1 : 0;
            if (line.stallEnd(20.0 * i + 40))
                QCOMPARE(at, line.stallEnd(20.0 * i + 40).value());
        }
        QVERIFY(std::abs(late - 450) <= 3);
    }

    void datagramsAreLostInstead()
    {
        LineModel line({.oneWayMs = 40, .heldShare = 0.02, .datagrams = true}, 1);
        int lost = 0;
        for (int i = 0; i < 50'000; ++i) {
            const auto at = line.arrivalOf(20.0 * i);
            lost += at ? 0 : 1;
            if (at)
                QCOMPARE(*at, 20.0 * i + 40);
        }
        QVERIFY(lost > 850 && lost < 1'150);
    }

    void bytesComeUnalteredInOrderAndLateBothWays()
    {
        QTcpServer server;
        QVERIFY(server.listen(QHostAddress::LocalHost));
        SlowLine line(server.serverPort(), {.oneWayMs = 30, .heldShare = 0.2, .heldMs = 50});
        QTcpSocket client;
        QElapsedTimer since;
        client.connectToHost(QHostAddress::LocalHost, line.port());
        QTRY_VERIFY(server.hasPendingConnections());
        QTcpSocket* home = server.nextPendingConnection();
        QByteArray sent, there, back;
        connect(home, &QTcpSocket::readyRead, this, [&] {
            there += home->peek(home->bytesAvailable());
            home->write(home->readAll());
        });
        connect(&client, &QTcpSocket::readyRead, this, [&] { back += client.readAll(); });
        since.start();
        for (int i = 0; i < 400; ++i) {
            const QByteArray piece(1 + i * 7 % 3'000, static_cast<char>(i));
            sent += piece;
            client.write(piece);
        }
        QTRY_COMPARE(back.size(), sent.size());
        QVERIFY(there == sent && back == sent);
        QVERIFY(since.elapsed() >= 60); // it cannot have come sooner than the line lets it
        client.disconnectFromHost();
        QTRY_COMPARE(home->state(), QAbstractSocket::UnconnectedState);
    }
};

QTEST_GUILESS_MAIN(TestSlowLine)
#include "test_slow_line.moc"
