// The app as a user starts it, on a real X server: what Qt's offscreen platform does not have, such as Qt taking
// options for itself. Xvfb is one of the packages that packaging/ installs.
#include "app/link/identity.h"
#include "tests/stage/relay_process.h"

#include <QRegularExpression>
#include <QtTest>

using namespace vh;

namespace
{

/// An X server without a screen, on a display number of its own choice.
class Display
{
public:
    bool start()
    {
        m_server.start(QStringLiteral("Xvfb"), {"-displayfd", "1", "-nolisten", "tcp", "-screen", "0", "1366x768x24"});
        if (!m_server.waitForStarted() || !m_server.waitForReadyRead(20'000))
            return false;
        m_name = QStringLiteral(":") + QString::fromLatin1(m_server.readLine()).trimmed();
        return m_name.size() > 1;
    }
    ~Display()
    {
        m_server.terminate();
        m_server.waitForFinished(10'000);
    }
    [[nodiscard]] const QString& name() const { return m_name; }

private:
    QProcess m_server;
    QString m_name;
};

} // namespace

class TestOnX11 : public QObject
{
    Q_OBJECT
private slots:
    void theNameOnTheCommandLineIsThePersonsName()
    {
        const QTemporaryDir folder;
        vh::testing::RelayProcess relay(folder.filePath("relay"));
        QVERIFY2(relay.start(), relay.said());
        const QByteArray added =
            relay.command({"--link-port", QString::number(relay.port()), "group", "add", "Harbour voices"});
        const auto link = QRegularExpression("voicehall://\\S+").match(QString::fromUtf8(added)).captured();
        QVERIFY2(!link.isEmpty(), added);

        Display display;
        QVERIFY(display.start());
        QProcess app;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert("DISPLAY", display.name());
        environment.insert("QT_QPA_PLATFORM", "xcb");
        app.setProcessEnvironment(environment);
        app.setProcessChannelMode(QProcess::MergedChannels);
        const QString profile = folder.filePath("profile");
        app.start(VH_BINARY_DIR "/bin/voicehall", {"--profile", profile, "--link", link, "--name", "Vera Maas"});
        QVERIFY(app.waitForStarted());
        const auto known = [&] { return link::Memberships(profile).all(); };
        // 40 s: the app is built for tests, and the machine has other things to do.
        QTRY_VERIFY2_WITH_TIMEOUT(!known().empty(), app.readAll(), 40'000);
        QCOMPARE(known().front().name, std::string("Vera Maas"));
        QVERIFY(known().front().role == Role::leader);
        app.terminate();
        QVERIFY(app.waitForFinished(20'000));
    }
};

QTEST_GUILESS_MAIN(TestOnX11)
#include "test_on_x11.moc"
