// The test of the test: the same class with a microphone that hears nothing must fail, and at the level.
#include <QProcess>
#include <QtTest>

class TestMutedClassFails : public QObject
{
    Q_OBJECT
private slots:
    void aClassThatHearsNothingFailsAtTheLevel()
    {
        QProcess process;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert("VOICEHALL_TEST_MUTED", "1");
        process.setProcessEnvironment(environment);
        process.setProcessChannelMode(QProcess::MergedChannels);
        process.start(VH_BINARY_DIR "/bin/test_one_class", QStringList{});
        QVERIFY(process.waitForFinished(170'000));
        const QByteArray said = process.readAll();
        QVERIFY2(process.exitCode() != 0, said);
        QVERIFY2(said.contains("the leader sees no level"), said);
    }
};

QTEST_GUILESS_MAIN(TestMutedClassFails)
#include "test_muted_class_fails.moc"
