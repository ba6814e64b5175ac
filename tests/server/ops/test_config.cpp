#include "server/ops/config.h"

#include <QTemporaryDir>
#include <QtTest>
#include <fstream>

using namespace vh;
using namespace vh::ops;

class TestConfig : public QObject
{
    Q_OBJECT
private slots:
    void whatComesWithTheProgramIsFine() { QVERIFY(check(Config{})); }

    void withoutTlsOnlyThisMachineIsListenedTo()
    {
        Config config;
        config.tls = Tls::off;
        for (const char* here : {"127.0.0.1", "127.1.2.3", "::1"}) {
            config.address = here;
            QVERIFY(check(config));
        }
        for (const char* outside : {"0.0.0.0", "::", "192.0.2.1"}) {
            config.address = outside;
            const auto wrong = check(config);
            QVERIFY(!wrong);
            QCOMPARE(wrong.error().where, std::string("tls"));
            QVERIFY(wrong.error().message.find(outside) != std::string::npos);
        }
        config.unixPath = "/run/voicehall/relay.sock";
        QVERIFY(check(config));
    }

    void aNameIsNoAddress()
    {
        Config config;
        config.address = "localhost";
        QCOMPARE(check(config).error().where, std::string("address"));
    }

    void aPublicCertificateNeedsItsFiles()
    {
        QTemporaryDir folder;
        Config config;
        config.tls = Tls::certificate;
        QCOMPARE(check(config).error().where, std::string("certificate"));
        config.certificate = folder.filePath("chain.pem").toStdString();
        std::ofstream(config.certificate) << "x";
        QCOMPARE(check(config).error().where, std::string("key"));
        config.key = config.certificate;
        QVERIFY(check(config));
    }

    void aProxyIsAnAddressOrARange()
    {
        Config config;
        config.proxies = {"10.0.0.0/8", "::1"};
        QVERIFY(check(config));
        config.proxies = {"proxy.example.org"};
        QCOMPARE(check(config).error().where, std::string("proxy"));
    }

    void thereIsAtLeastOneLoop()
    {
        Config config;
        config.loops = 0;
        QCOMPARE(check(config).error().where, std::string("loops"));
    }
};

QTEST_APPLESS_MAIN(TestConfig)
#include "test_config.moc"
