#pragma once
// A sound server of a test's own: PulseAudio with a null sink "room" and a source "mic" that hears what is played into
// it (a remapped monitor: Qt hides plain monitors), or other modules. Nothing of the machine's own sound is touched; it
// is killed with the object, and by the system should this process die.
#include <QFile>
#include <QProcess>
#include <QProcessEnvironment>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <csignal>
#include <sys/prctl.h>

namespace vh::sound
{

class SoundServer
{
public:
    ~SoundServer() { kill(); }

    /// Must come before the first use of Qt Multimedia. False, with `reason`, where no server can be run.
    bool start(const QStringList& modules = {kRoom, kMic})
    {
        if (QStandardPaths::findExecutable("pulseaudio").isEmpty() || QStandardPaths::findExecutable("pactl").isEmpty())
            return failed("pulseaudio and pulseaudio-utils are not installed");
        qputenv("PULSE_RUNTIME_PATH", m_folder.path().toLocal8Bit());
        qputenv("PULSE_SERVER", "unix:" + m_folder.filePath("native").toLocal8Bit());
        QFile script(m_folder.filePath("server.pa"));
        if (!script.open(QIODevice::WriteOnly))
            return failed("no temporary folder");
        script.write("load-module module-native-protocol-unix auth-anonymous=1 socket=" +
                     m_folder.filePath("native").toLocal8Bit() + "\n");
        for (const QString& module : modules)
            script.write("load-module " + module.toLatin1() + "\n");
        script.close();
        auto around = QProcessEnvironment::systemEnvironment(); // a machine without a home for this user will do
        for (const char* folder : {"HOME", "XDG_CONFIG_HOME", "XDG_RUNTIME_DIR", "PULSE_STATE_PATH"})
            around.insert(folder, m_folder.path());
        m_server.setProcessEnvironment(around);
        m_server.setChildProcessModifier([] { prctl(PR_SET_PDEATHSIG, SIGKILL); });
        m_server.start("pulseaudio", {"-n", "-F", script.fileName(), "--daemonize=no", "--exit-idle-time=-1",
                                      "--use-pid-file=no", "--high-priority=no", "--realtime=no"});
        if (!m_server.waitForStarted())
            return failed("pulseaudio did not start");
        if (!QTest::qWaitFor([this] { return ask({"info"}); }, 10'000))
            return failed("pulseaudio does not answer: " + QString::fromLocal8Bit(m_server.readAllStandardError()));
        if (modules.contains(kRoom))
            keepAwake("room");
        return true;
    }
    void kill()
    {
        stopPlaying();
        m_keeper.kill();
        m_keeper.waitForFinished();
        m_server.kill();
        m_server.waitForFinished();
    }
    void play(const QString& file, const QString& sink = "room")
    {
        m_player.start("paplay", {"--device=" + sink, file});
        m_player.waitForStarted();
    }
    void stopPlaying()
    {
        m_player.kill();
        m_player.waitForFinished();
    }
    void unplug() { ask({"unload-module", "module-remap-source"}); }
    void plug() { load(kMic); }
    void load(const QString& module) { ask(QStringList{"load-module"} + module.split(' ')); }
    void unload(const QString& module) { ask({"unload-module", module}); }
    void makeStandard(const QString& sink) { ask({"set-default-sink", sink}); }
    void setVolume(const QString& percent) { ask({"set-source-volume", "mic", percent}); }
    /// A suspended source stays in the list and brings no samples, like a microphone that hangs.
    void suspend(bool yes) { ask({"suspend-source", "mic", yes ? "1" : "0"}); }
    /// How many programs have a microphone open.
    int openStreams()
    {
        QString lines;
        return ask({"list", "short", "source-outputs"}, &lines) ? countStreams(lines) : -1;
    }
    [[nodiscard]] QString reason() const { return m_reason; }

private:
    static constexpr char kRoom[] = "module-null-sink sink_name=room rate=48000";
    static constexpr char kMic[] = "module-remap-source master=room.monitor source_name=mic";

    bool failed(const QString& reason)
    {
        m_reason = reason;
        return false;
    }
    /// A null sink that nothing plays into mixes two seconds of silence at once and takes them for played, so that what
    /// comes then is heard up to two seconds late (pacat's sound as well as ours). A stream of zeros that wants it soon
    /// keeps its blocks as short as those of a loudspeaker.
    void keepAwake(const QString& sink)
    {
        m_keeper.start("pacat", {"--raw", "--latency-msec=20", "--device=" + sink, "/dev/zero"});
        m_keeper.waitForStarted();
    }
    /// The remapping itself holds a stream on the monitor: "module-remap-source.c" is its driver.
    static int countStreams(const QString& lines)
    {
        int count = 0;
        for (const QString& line : lines.split('\n', Qt::SkipEmptyParts))
            count += line.contains("remap-source") ? 0 : 1;
        return count;
    }
    static bool ask(const QStringList& words, QString* answer = nullptr)
    {
        QProcess asking;
        asking.start("pactl", words);
        const bool done = asking.waitForFinished(10'000) && asking.exitCode() == 0;
        if (answer)
            *answer = QString::fromUtf8(asking.readAllStandardOutput());
        return done;
    }

    QTemporaryDir m_folder;
    QProcess m_server;
    QProcess m_keeper;
    QProcess m_player;
    QString m_reason;
};

} // namespace vh::sound
