// The three ways in which homes reach a relay over TLS.
#include "common/wire/join_link.h"
#include "server/hall/session.h"
#include "tests/stage/relay_process.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

/// A certificate authority of this test, and a certificate by it for hall.test.
void makeCertificates(const QTemporaryDir& folder)
{
    const auto path = [&](const char* name) { return folder.filePath(QString::fromLatin1(name)); };
    const QString curve = QStringLiteral("ec_paramgen_curve:P-256");
    run("openssl", {"req", "-x509", "-newkey", "ec", "-pkeyopt", curve, "-nodes", "-days", "2", "-subj", "/CN=Test CA",
                    "-keyout", path("ca.key"), "-out", path("ca.pem")});
    run("openssl", {"req", "-new", "-newkey", "ec", "-pkeyopt", curve, "-nodes", "-subj", "/CN=hall.test", "-keyout",
                    path("key.pem"), "-out", path("request.pem")});
    QFile names(path("names"));
    QVERIFY(names.open(QIODevice::WriteOnly));
    names.write("subjectAltName=DNS:hall.test\n");
    names.close();
    run("openssl", {"x509", "-req", "-in", path("request.pem"), "-CA", path("ca.pem"), "-CAkey", path("ca.key"),
                    "-CAcreateserial", "-days", "2", "-extfile", path("names"), "-out", path("chain.pem")});
}

/// A client of the system's trust, where the system trusts just this file.
std::shared_ptr<const net::TlsContext> clientTrusting(const QString& file)
{
    qputenv("SSL_CERT_FILE", file.toUtf8());
    qputenv("SSL_CERT_DIR", "/nonexistent");
    return *net::TlsContext::client({});
}

bool opens(net::Loop& loop, const net::ClientOptions& options)
{
    TestLine line(loop, options);
    if (line.isClosed())
        return false;
    line.hello();
    return true;
}

/// How the relay ends a line that knocks with a wrong code and says that it is forwarded for `address`.
wire::CloseCode guess(net::Loop& loop, net::ClientOptions options, const std::string& address)
{
    options.extraHeaders = "X-Forwarded-For: " + address + "\r\n";
    TestLine line(loop, options);
    line.hello();
    line.knock("QQQQQQ", wire::makeKeyPair(), "Guess");
    return line.waitClosed().code;
}

} // namespace

class TestTlsWays : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase() { makeCertificates(m_certificates); }

    void aPublicCertificateIsTrustedByTheSystemAndTheNameMustFit()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path(), {"--tls", "certificate", "--certificate", file("chain.pem"), "--key",
                                           file("key.pem"), "--host", "hall.test"});
        QVERIFY2(relay.start(), relay.said());
        auto options = relay.lineOptions(clientTrusting(file("ca.pem")));
        options.hostName = "hall.test";
        QVERIFY(opens(m_loop.loop(), options));
        options.hostName = "other.test";
        QVERIFY(!opens(m_loop.loop(), options));
        options.hostName = "hall.test";
        options.tls = clientTrusting(file("key.pem")); // a system that does not know this authority
        QVERIFY(!opens(m_loop.loop(), options));
        QVERIFY(!relay.command({"group", "add", "Voices"}).contains("k=")); // no pin: the name is what is trusted
    }

    void aKeyOfTheRelaysOwnIsPinnedAndAChangedKeyIsRefused()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path());
        QVERIFY2(relay.start(), relay.said());
        const QByteArray added = relay.command({"group", "add", "Voices"});
        const auto link = wire::parseJoinLink(added.mid(added.indexOf("voicehall://")).trimmed().toStdString());
        QVERIFY(link && link->pin);
        const auto tls = *net::TlsContext::client(link->pin);
        QVERIFY(opens(m_loop.loop(), relay.lineOptions(tls)));
        QCOMPARE(relay.stop(), std::optional(0));
        QVERIFY2(relay.start(), relay.said()); // the key outlives a restart
        QVERIFY(opens(m_loop.loop(), relay.lineOptions(tls)));
        const QFileInfo key(folder.filePath("own-key.pem"));
        QCOMPARE(key.permissions() & ~(QFile::ReadOwner | QFile::WriteOwner | QFile::ReadUser | QFile::WriteUser),
                 QFile::Permissions());

        QCOMPARE(relay.stop(), std::optional(0));
        QVERIFY(QFile::remove(folder.filePath("own-key.pem")));
        QVERIFY2(relay.start(), relay.said());
        QVERIFY(!opens(m_loop.loop(), relay.lineOptions(tls)));
    }

    void behindAProxyOnAUnixSocketTheDocumentedConfigurationWorks()
    {
        QTemporaryDir folder;
        const QString socket = folder.filePath("relay.sock");
        RelayProcess relay(folder.path(), {"--tls", "off", "--unix", socket});
        QVERIFY2(relay.start(), relay.said());
        throughNginx(folder, "unix:" + socket, [&](const net::ClientOptions& options) {
            QVERIFY(opens(m_loop.loop(), options));
            // What the client wrote into the header itself is not believed: all of these are one address.
            for (int i = 0; i < 10; ++i)
                QCOMPARE(guess(m_loop.loop(), options, "203.0.113." + std::to_string(i)), hall::kCloseNotKnown);
            QCOMPARE(guess(m_loop.loop(), options, "203.0.113.99"), hall::kCloseTryLater);
        });
    }

    void behindAProxyOnLoopbackTheDocumentedConfigurationWorks()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path(), {"--tls", "off", "--proxy", "127.0.0.1"});
        QVERIFY2(relay.start(), relay.said());
        throughNginx(folder, "127.0.0.1:" + QString::number(relay.port()),
                     [&](const net::ClientOptions& options) { QVERIFY(opens(m_loop.loop(), options)); });
    }

    void aForwardedAddressIsBelievedFromAConfiguredProxyOnly()
    {
        for (const bool configured : {true, false}) {
            QTemporaryDir folder;
            RelayProcess relay(folder.path(), configured ? QStringList{"--tls", "off", "--proxy", "127.0.0.1"}
                                                         : QStringList{"--tls", "off"});
            QVERIFY2(relay.start(), relay.said());
            for (int i = 0; i < 10; ++i)
                QCOMPARE(guess(m_loop.loop(), relay.lineOptions(), "203.0.113." + std::to_string(i)),
                         hall::kCloseNotKnown);
            QCOMPARE(guess(m_loop.loop(), relay.lineOptions(), "203.0.113.99"),
                     configured ? hall::kCloseNotKnown : hall::kCloseTryLater);
        }
    }

private:
    [[nodiscard]] QString file(const char* name) const { return m_certificates.filePath(QString::fromLatin1(name)); }

    /// nginx with docs/nginx.conf: only places, port and certificate are this test's.
    template <class Check>
    void throughNginx(const QTemporaryDir& folder, const QString& relay, Check check)
    {
        QFile document(VH_SOURCE_DIR "/docs/nginx.conf");
        QVERIFY(document.open(QIODevice::ReadOnly));
        QString example = QString::fromUtf8(document.readAll());
        const std::uint16_t port = freePort();
        const auto replace = [&example](const QString& from, const QString& to) {
            QVERIFY2(example.contains(from), qPrintable(from));
            example.replace(from, to);
        };
        replace("http://unix:/run/voicehall/relay.sock", "http://" + relay);
        replace("    listen 443 ssl", QStringLiteral("    listen 127.0.0.1:%1 ssl").arg(port));
        replace("    listen [::]:443 ssl;\n", {});
        replace("hall.example.org;", "hall.test;");
        replace("/etc/ssl/hall.example.org/fullchain.pem", file("chain.pem"));
        replace("/etc/ssl/hall.example.org/privkey.pem", file("key.pem"));
        QString temp;
        for (const char* kind : {"client_body", "proxy", "fastcgi", "uwsgi", "scgi"})
            temp += QStringLiteral("%1_temp_path temp;\n").arg(QString::fromLatin1(kind));
        QFile config(folder.filePath("nginx.conf"));
        QVERIFY(config.open(QIODevice::WriteOnly));
        config.write(QStringLiteral("daemon off; master_process off; pid nginx.pid; error_log stderr;\n"
                                    "events {}\nhttp {\naccess_log off;\n%1%2}\n")
                         .arg(temp, example)
                         .toUtf8());
        config.close();

        QProcess nginx;
        nginx.setProcessChannelMode(QProcess::MergedChannels);
        nginx.start(QStandardPaths::findExecutable("nginx", {"/usr/sbin", "/usr/bin"}),
                    {"-p", folder.path(), "-c", config.fileName()});
        QVERIFY(nginx.waitForStarted());
        QTRY_VERIFY2_WITH_TIMEOUT(httpGetsThrough(port) || nginx.state() == QProcess::NotRunning, nginx.readAll(),
                                  10'000);
        QVERIFY2(nginx.state() == QProcess::Running, nginx.readAll());
        net::ClientOptions options;
        options.port = port;
        options.rules = {wire::kPath, wire::kSubprotocol};
        options.hostName = "hall.test";
        options.tls = clientTrusting(file("ca.pem"));
        check(options);
        nginx.terminate();
        QVERIFY(nginx.waitForFinished(10'000));
    }

    /// Something listens there and speaks HTTP (nginx answers plain requests to a TLS port with 400).
    static bool httpGetsThrough(std::uint16_t port) { return httpGet(port, "/").startsWith("HTTP/1.1 "); }

    QTemporaryDir m_certificates;
    net::LoopThread m_loop;
};

QTEST_GUILESS_MAIN(TestTlsWays)
#include "test_tls_ways.moc"
