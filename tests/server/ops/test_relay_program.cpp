// voicehall-relay as the operator meets it.
#include "common/wire/join_link.h"
#include "tests/stage/relay_process.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

wire::JoinLink linkIn(const QByteArray& output)
{
    const auto link = wire::parseJoinLink(output.mid(output.indexOf("voicehall://")).trimmed().toStdString());
    return link ? *link : wire::JoinLink{};
}

} // namespace

class TestRelayProgram : public QObject
{
    Q_OBJECT
private slots:
    void healthAndMetricsAreToldOnLoopback()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path());
        QVERIFY2(relay.start(), relay.said());
        const QByteArray health = httpGet(relay.opsPort(), "/healthz");
        QVERIFY(health.startsWith("HTTP/1.1 200"));
        QVERIFY(health.endsWith("well\n"));
        const QByteArray metrics = httpGet(relay.opsPort(), "/metrics");
        QVERIFY(metrics.startsWith("HTTP/1.1 200"));
        QVERIFY(metrics.contains("text/plain; version=0.0.4"));
        QVERIFY(metrics.contains("\n# TYPE voicehall_lines_open gauge\nvoicehall_lines_open 0\n"));
        QVERIFY(metrics.contains("\nvoicehall_lines_closed_total{reason=\"too-slow\"} 0\n"));
        QVERIFY(metrics.contains("\n# TYPE voicehall_pictures_made_total counter\nvoicehall_pictures_made_total 0\n"));
        QVERIFY(!relay.said().contains("pictures"));
        QVERIFY(httpGet(relay.opsPort(), "/elsewhere").startsWith("HTTP/1.1 404"));
        QVERIFY(httpGet(relay.opsPort(), "/healthz", "POST").startsWith("HTTP/1.1 405"));
    }

    void aGroupThatIsAddedBesideARunningRelayHasALinkThatWorks()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path());
        QVERIFY2(relay.start(), relay.said());
        const QByteArray added =
            relay.command({"--link-port", QString::number(relay.port()), "group", "add", "Tuesday voices"});
        const wire::JoinLink link = linkIn(added);
        QCOMPARE(link.host, std::string("127.0.0.1"));
        QCOMPARE(link.port, relay.port());
        QVERIFY(link.pin && link.token);

        net::LoopThread loop;
        const wire::KeyPair keys = wire::makeKeyPair();
        GroupId group;
        {
            TestLine line(loop.loop(), relay.lineOptions(*net::TlsContext::client(link.pin)));
            line.hello();
            line.redeem(*link.token, keys, "Ann");
            const auto welcome = line.wait<wire::Welcome>();
            QCOMPARE(welcome.role, Role::leader);
            QCOMPARE(welcome.groupName, std::string("Tuesday voices"));
            group = welcome.group;
            QVERIFY(added.contains("code " + QByteArray::fromStdString(spacedCode(welcome.code))));
        }
        QVERIFY(relay.command({"group", "list"}).contains("Tuesday voices"));
        TestLine again(loop.loop(), relay.lineOptions(*net::TlsContext::client(link.pin)));
        again.hello();
        again.login(group, keys, Role::leader);
        again.wait<wire::Welcome>();
    }

    void theFourWordsAtTheDoorAreThoseOfTheKeyThatTheHomeSees()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path());
        QVERIFY2(relay.start(), relay.said());
        const wire::JoinLink link = linkIn(relay.command({"group", "add", "Tuesday voices"}));
        net::LoopThread loop;
        const auto tls = *net::TlsContext::client(link.pin);
        TestLine leader(loop.loop(), relay.lineOptions(tls));
        leader.hello();
        leader.redeem(*link.token, wire::makeKeyPair(), "Ann");
        const auto welcome = leader.wait<wire::Welcome>();
        TestLine stranger(loop.loop(), relay.lineOptions(tls));
        stranger.hello();
        stranger.knock(welcome.code, wire::makeKeyPair(), "Bo");
        const auto words = wire::fourWords(*link.pin);
        const std::vector<std::string> expected(words.begin(), words.end());
        QCOMPARE(stranger.wait<wire::AtDoor>().words, expected);
        QCOMPARE(leader.wait<wire::Door>([](const auto& door) { return !door.waiting.empty(); }).words, expected);
    }

    void sigtermSaysGoodbyeAndEndsWithZero()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path(), {"--tls", "off"});
        QVERIFY2(relay.start(), relay.said());
        net::LoopThread loop;
        TestLine line(loop.loop(), relay.lineOptions());
        line.hello();
        QCOMPARE(relay.stop(), std::optional(0));
        QCOMPARE(line.waitClosed().code, wire::CloseCode::goingAway);
    }

    void aSecondRelayOnTheSameDataIsRefusedInWords()
    {
        QTemporaryDir folder;
        RelayProcess first(folder.path());
        QVERIFY2(first.start(), first.said());
        RelayProcess second(folder.path());
        QVERIFY(!second.start());
        QVERIFY2(second.said().contains("voicehall-relay: "), second.said());
        QVERIFY(httpGet(first.opsPort(), "/healthz").startsWith("HTTP/1.1 200"));
    }

    void aConfigurationFileSaysTheSameAsTheOptions()
    {
        QTemporaryDir folder;
        QFile file(folder.filePath("relay.toml"));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write("tls = \"off\"\nlog-level = \"warn\"\nproxy = [\"10.0.0.0/8\", \"::1\"]\n");
        file.close();
        RelayProcess relay(folder.path(), {"--config", file.fileName()});
        QVERIFY2(relay.start(), relay.said());
        net::LoopThread loop;
        TestLine line(loop.loop(), relay.lineOptions());
        line.hello();
        RelayProcess wrong(folder.filePath("other"), {"--tls", "off", "--address", "0.0.0.0"});
        QVERIFY(!wrong.start());
        QVERIFY2(wrong.said().contains("behind a proxy"), wrong.said());
    }

    void withoutThePicturesProgramItSaysSoAndGoesOn()
    {
        QTemporaryDir folder;
        const QString alone = folder.filePath("voicehall-relay");
        QVERIFY(QFile::copy(QStringLiteral(VH_BINARY_DIR "/bin/voicehall-relay"), alone));
        QProcess relay;
        relay.setProcessChannelMode(QProcess::MergedChannels);
        relay.start(alone, {"--data", folder.filePath("data"), "--tls", "off", "--port", "0"});
        QByteArray said;
        while (!said.contains("\nready\n") && relay.waitForReadyRead(30'000))
            said += relay.readAll();
        QVERIFY2(said.contains("no pictures are taken: " + folder.filePath("voicehall-photos").toUtf8()), said);
        QVERIFY2(said.contains("\nready\n"), said);
        relay.terminate();
        QVERIFY(relay.waitForFinished());
        QCOMPARE(relay.exitCode(), 0);
    }

    void nothingPersonalIsLogged()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path(), {"--tls", "off", "--log-level", "debug"});
        QVERIFY2(relay.start(), relay.said());
        const wire::JoinLink link = linkIn(relay.command({"group", "add", "Tuesday voices"}));
        net::LoopThread loop;
        {
            TestLine line(loop.loop(), relay.lineOptions());
            line.hello();
            line.redeem(*link.token, wire::makeKeyPair(), "Anneliese");
            line.wait<wire::Welcome>();
        }
        QCOMPARE(relay.stop(), std::optional(0));
        QVERIFY(!relay.said().contains("Anneliese"));
        QVERIFY(!relay.said().contains("Tuesday"));
        QVERIFY2(relay.said().contains("stopping"), relay.said()); // it does log
    }
};

QTEST_GUILESS_MAIN(TestRelayProgram)
#include "test_relay_program.moc"
