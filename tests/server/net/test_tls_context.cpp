#include "common/base/text.h"
#include "server/net/tls_context.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh::net;

namespace
{

QByteArray openssl(const QString& command, const QString& directory)
{
    QProcess process;
    process.setWorkingDirectory(directory);
    process.start("sh", {"-c", command});
    process.waitForFinished();
    return process.readAllStandardOutput();
}

} // namespace

class TestTlsContext : public QObject
{
    Q_OBJECT
private slots:
    // Against the openssl command: the pin is the SHA-256 of the public key in DER.
    void thePinIsWhatTheCommandSays()
    {
        const auto pem = makeSelfSigned({"localhost", "192.0.2.7", "2001:db8::7"});
        QVERIFY(pem);
        const auto context = TlsContext::server(*pem);
        QVERIFY(context);
        QTemporaryDir directory;
        QFile file(directory.filePath("chain.pem"));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(pem->chain.data(), static_cast<qint64>(pem->chain.size()));
        file.close();
        const auto pin = openssl("openssl x509 -in chain.pem -noout -pubkey | openssl pkey -pubin -outform DER | "
                                 "openssl dgst -sha256 -r",
                                 directory.path());
        QCOMPARE(vh::hexOf(*(*context)->pin()), pin.left(64).toStdString());
        const auto names = openssl("openssl x509 -in chain.pem -noout -ext subjectAltName", directory.path());
        QVERIFY(names.contains("DNS:localhost, IP Address:192.0.2.7, IP Address:2001:DB8:0:0:0:0:0:7"));
        QVERIFY(openssl("openssl x509 -in chain.pem -noout -text", directory.path()).contains("prime256v1"));
    }

    void theSameKeyHasTheSamePinInANewCertificate()
    {
        const auto one = makeSelfSigned({"localhost"}).value();
        const auto two = makeSelfSigned({"localhost"}).value();
        QVERIFY(TlsContext::server(one).value()->pin() == TlsContext::server(one).value()->pin());
        QVERIFY(TlsContext::server(one).value()->pin() != TlsContext::server(two).value()->pin());
    }

    void badInputIsSaidPlainly()
    {
        const auto pem = makeSelfSigned({"localhost"}).value();
        const auto other = makeSelfSigned({"localhost"}).value();
        QCOMPARE(TlsContext::server({"", pem.key}).error().code, std::string("bad-certificate"));
        QCOMPARE(TlsContext::server({pem.chain, "nonsense"}).error().code, std::string("bad-key"));
        QCOMPARE(TlsContext::server({pem.chain, other.key}).error().code, std::string("bad-key"));
        QCOMPARE(makeSelfSigned({}).error().code, std::string("bad-name"));
        QCOMPARE(makeSelfSigned({"a,DNS:evil"}).error().code, std::string("bad-name"));
    }
};

QTEST_GUILESS_MAIN(TestTlsContext)
#include "test_tls_context.moc"
