// The operator's port holds out against whoever says nothing.
#include "server/ops/ops_port.h"

#include <QTcpSocket>
#include <QtTest>

using namespace vh;

class TestOpsPort : public QObject
{
    Q_OBJECT

    static std::unique_ptr<ops::OpsPort> open()
    {
        return std::move(*ops::OpsPort::open(0, {[] { return true; }, [] { return std::string("figures\n"); }}));
    }
    static void connectTo(QTcpSocket& socket, const ops::OpsPort& port)
    {
        socket.connectToHost("127.0.0.1", port.port());
        QVERIFY(socket.waitForConnected());
    }

private slots:
    void aSilentAskerKeepsTheNextOneWaitingForAMomentOnly()
    {
        const auto port = open();
        QTcpSocket silent;
        connectTo(silent, *port);
        QTcpSocket halfSaid;
        connectTo(halfSaid, *port);
        halfSaid.write("GET /heal");
        QVERIFY(halfSaid.waitForBytesWritten());
        QTcpSocket asker;
        connectTo(asker, *port);
        asker.write("GET /healthz HTTP/1.1\r\nHost: here\r\n\r\n");
        QByteArray answer;
        while (asker.waitForReadyRead(20'000))
            answer += asker.readAll();
        QVERIFY2(answer.startsWith("HTTP/1.1 200"), answer);
        QVERIFY(answer.endsWith("well\n"));
    }

    void aRequestMayComeInPieces()
    {
        const auto port = open();
        QTcpSocket asker;
        connectTo(asker, *port);
        for (const char* piece : {"GET /met", "rics HTTP/1.1\r\nHo", "st: here\r\n\r", "\n"}) {
            asker.write(piece);
            QVERIFY(asker.waitForBytesWritten());
        }
        QByteArray answer;
        while (asker.waitForReadyRead(20'000))
            answer += asker.readAll();
        QVERIFY2(answer.endsWith("figures\n"), answer);
    }

    void itEndsWhileSomebodyIsSilent()
    {
        auto port = open();
        QTcpSocket silent;
        connectTo(silent, *port);
        port.reset(); // hung for ever once
        QVERIFY(silent.state() == QAbstractSocket::UnconnectedState || silent.waitForDisconnected());
    }
};

QTEST_GUILESS_MAIN(TestOpsPort)
#include "test_ops_port.moc"
