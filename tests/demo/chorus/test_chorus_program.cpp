// The command line of voicehall-chorus: what it says and how it ends.
#include "common/wire/join_link.h"
#include "tests/stage/relay_process.h"

#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using vh::testing::RelayProcess;

namespace
{

constexpr int kPatienceMs = 30'000;

struct Ended {
    int code = -1;
    QByteArray said;
    QByteArray complained;
};

/// Starts it; once it has said `until` it is told to stop. Nothing to wait for: it ends by itself.
Ended run(const QStringList& options, const QByteArray& until = {})
{
    QProcess chorus;
    chorus.start(QStringLiteral(VH_BINARY_DIR "/bin/voicehall-chorus"), options);
    Ended ended;
    while (!until.isEmpty() && !ended.said.contains(until) && chorus.waitForReadyRead(kPatienceMs))
        ended.said += chorus.readAllStandardOutput();
    if (!until.isEmpty())
        chorus.terminate();
    if (chorus.waitForFinished(kPatienceMs) && chorus.exitStatus() == QProcess::NormalExit)
        ended.code = chorus.exitCode();
    ended.said += chorus.readAllStandardOutput();
    ended.complained = chorus.readAllStandardError();
    return ended;
}

} // namespace

class TestChorusProgram : public QObject
{
    Q_OBJECT
private slots:
    void itExplainsItself()
    {
        const Ended ended = run({"--help"});
        QCOMPARE(ended.code, 0);
        for (const char* option : {"--link", "--homes", "--leader-link", "--lead", "--for"})
            QVERIFY2(ended.said.contains(option), option);
    }

    void wrongOptionsEndItWithWordsAboutThem_data()
    {
        QTest::addColumn<QStringList>("options");
        QTest::addColumn<QByteArray>("about");
        const QString link = "voicehall://127.0.0.1:1/#c=ACDEFG";
        QTest::newRow("none") << QStringList{} << QByteArray("--link");
        QTest::newRow("unknown") << QStringList{"--link", link, "--loudly"} << QByteArray("--loudly");
        QTest::newRow("no homes") << QStringList{"--link", link, "--homes", "0"} << QByteArray("--homes");
        QTest::newRow("not a link") << QStringList{"--link", "voicehall://"} << QByteArray("address");
        QTest::newRow("no code") << QStringList{"--link", "voicehall://127.0.0.1/"} << QByteArray("code");
        QTest::newRow("nobody lets in") << QStringList{"--link", link, "--let-in"} << QByteArray("--leader-link");
        QTest::newRow("nobody leads") << QStringList{"--link", link, "--lead", "class.yaml"}
                                      << QByteArray("--leader-link");
        QTest::newRow("not a one-time link")
            << QStringList{"--link", link, "--leader-link", link} << QByteArray("one-time link");
    }
    void wrongOptionsEndItWithWordsAboutThem()
    {
        QFETCH(QStringList, options);
        QFETCH(QByteArray, about);
        const Ended ended = run(options);
        QCOMPARE(ended.code, 2);
        QVERIFY2(ended.complained.contains(about), ended.complained);
        QCOMPARE(ended.said, QByteArray());
    }

    void itBringsItsHomesInAndEndsWhenItIsTold()
    {
        QTemporaryDir folder;
        RelayProcess relay(folder.path());
        QVERIFY2(relay.start(), relay.said());
        const QByteArray added = relay.command({"group", "add", "Voices"});
        auto link = wire::parseJoinLink(added.mid(added.indexOf("voicehall://")).trimmed().toStdString());
        QVERIFY(link && link->token && link->pin);
        link->port = relay.port();
        wire::JoinLink forHomes = *link;
        forHomes.token.reset();
        forHomes.code = normaliseCode(added.mid(added.indexOf("code ") + 5, 7).toStdString()).value_or("");
        const QStringList options{"--link", QString::fromStdString(wire::format(forHomes)), "--homes", "3", "--late-by",
                                  "0"};

        const Ended told =
            run(options + QStringList{"--leader-link", QString::fromStdString(wire::format(*link)), "--let-in"},
                "ready after");
        QVERIFY2(told.code == 0, told.complained);
        QVERIFY2(told.said.contains("homes in            3"), told.said);

        const Ended byItself = run(options + QStringList{"--for", "0.1"});
        QVERIFY2(byItself.code == 0, byItself.complained);
        QVERIFY(byItself.said.contains("homes in "));
        QCOMPARE(relay.stop(), std::optional(0));
    }
};

QTEST_GUILESS_MAIN(TestChorusProgram)
#include "test_chorus_program.moc"
