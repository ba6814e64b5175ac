// The far end from what the whole system plays, and a second copy of her voice in it.
#include "app/sound/copy_watch.h"
#include "app/sound/ears.h"
#include "app/sound/elsewhere.h"
#include "common/signal/meter.h"
#include "common/voice/voice.h"
#include "tests/app/sound/desk.h"

#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::sound;
using namespace std::chrono_literals;

namespace
{

/// A monitor that a test speaks into.
struct Monitor {
    SampleSink* sink = nullptr;
    SourceHealth health = SourceHealth::good;
    int opened = 0;
};

class FakeMonitor final : public SoundSource
{
public:
    explicit FakeMonitor(Monitor& monitor) : m_monitor(monitor) {}
    ~FakeMonitor() override { m_monitor.sink = nullptr; }
    int sampleRateHz() const override { return 48'000; }
    SourceHealth health() const override { return m_monitor.health; }
    void stop() override { m_monitor.sink = nullptr; }
    void start(SampleSink& sink) override
    {
        m_monitor.sink = &sink;
        ++m_monitor.opened;
    }

private:
    Monitor& m_monitor;
};

/// A microphone that a test speaks into, measured on its worker.
class OpenSource final : public SoundSource
{
public:
    explicit OpenSource(SampleSink*& sink) : m_sink(sink) {}
    ~OpenSource() override { m_sink = nullptr; }
    int sampleRateHz() const override { return 48'000; }
    SourceHealth health() const override { return SourceHealth::good; }
    void stop() override { m_sink = nullptr; }
    void start(SampleSink& sink) override { m_sink = &sink; }

private:
    SampleSink*& m_sink;
};

class OpenBackend final : public SoundBackend
{
public:
    explicit OpenBackend(SampleSink*& sink) : m_sink(sink) {}
    QVector<DeviceInfo> devices() override { return {kBuiltIn}; }
    std::unique_ptr<SoundSource> openDevice(const QByteArray& /*id*/) override
    {
        return std::make_unique<OpenSource>(m_sink);
    }
    std::optional<float> inputVolume(const QByteArray& /*id*/) override { return std::nullopt; }

private:
    SampleSink*& m_sink;
};

std::vector<float> leaderSpeaks()
{
    std::vector<float> samples;
    for (std::uint64_t seed = 1; samples.size() < 13 * 48'000; ++seed) {
        voice::Utterance utterance;
        utterance.text = "They filled it with dark earth up to the seats, and set a pole where the mast had been.";
        utterance.silentSeconds = 0.2;
        utterance.levelDbfsA = -26;
        const auto sound = voice::render(utterance, {}, seed);
        samples.insert(samples.end(), sound.samples.begin(), sound.samples.end());
    }
    return samples;
}

} // namespace

class TestElsewhere : public QObject
{
    Q_OBJECT
private slots:
    void whatTheSystemPlaysBecomesTheFarEnd()
    {
        Monitor monitor;
        const auto far = std::make_shared<FarEnd>();
        Elsewhere elsewhere(far, [&] { return std::make_unique<FakeMonitor>(monitor); });
        QCOMPARE(elsewhere.state(), Elsewhere::State::off);
        elsewhere.start();
        QTRY_COMPARE(elsewhere.state(), Elsewhere::State::on);
        QVERIFY(far->microphoneDelay() > 50ms); // a monitor may come later than the microphone
        far->begin();
        monitor.sink->take(std::vector<float>(960, 0.5F));
        std::vector<float> read(480);
        far->read(read);
        QCOMPARE(read.front(), 0.5F);
        elsewhere.stop();
        QCOMPARE(elsewhere.state(), Elsewhere::State::off);
        QVERIFY(!monitor.sink);
        QCOMPARE(far->microphoneDelay(), 0ms);
    }

    void withoutAMonitorItSaysSoAndTriesAgain()
    {
        Monitor monitor;
        monitor.health = SourceHealth::failed;
        Elsewhere elsewhere(std::make_shared<FarEnd>(), [&] { return std::make_unique<FakeMonitor>(monitor); });
        elsewhere.start();
        QTRY_COMPARE(elsewhere.state(), Elsewhere::State::noMonitor);
        monitor.health = SourceHealth::good;
        QTRY_COMPARE(elsewhere.state(), Elsewhere::State::on);
        QVERIFY(monitor.opened >= 2);
    }

    void aSecondCopyIsHeardOnThisComputerOrInTheRoom_data()
    {
        QTest::addColumn<bool>("inSystem");
        QTest::addColumn<bool>("inRoom");
        QTest::newRow("ours alone") << false << false;
        QTest::newRow("a call on this computer") << true << true;
        QTest::newRow("a call on another device") << false << true;
    }
    void aSecondCopyIsHeardOnThisComputerOrInTheRoom()
    {
        QFETCH(bool, inSystem);
        QFETCH(bool, inRoom);
        SampleSink* microphone = nullptr;
        Monitor monitor;
        const auto far = std::make_shared<FarEnd>();
        Ears ears(std::make_unique<OpenBackend>(microphone));
        ears.setFarEnd(far);
        CopyWatch watch(ears, [&] { return std::make_unique<FakeMonitor>(monitor); });
        QSignalSpy changed(&watch, &CopyWatch::changed);
        watch.start();
        ears.start(DeviceChoice::standardDevice());
        QVERIFY(microphone && monitor.sink);
        const auto leader = leaderSpeaks();
        const auto at = [&](std::size_t i, std::size_t later) { return i < later ? 0.0F : leader[i - later]; };
        std::vector<float> system(480);
        std::vector<float> room(480);
        for (std::size_t from = 0; from + 480 <= leader.size(); from += 480) {
            for (std::size_t i = 0; i < 480; ++i) {
                system[i] = at(from + i, 5'000) + (inSystem ? at(from + i, 20'000) : 0);
                room[i] = 0.3F * (at(from + i, 6'000) + (inRoom ? at(from + i, 21'000) : 0));
            }
            far->hand(std::span(leader).subspan(from, 480));
            monitor.sink->take(system);
            microphone->take(room);
            while (ears.snapshot().frameCount + Meter::kDelayFrames <
                   from / 480 + 1) // in step, as they are by the clock
                std::this_thread::yield();
        }
        if (inRoom)
            QTRY_VERIFY(watch.heard().inTheRoom);
        if (inSystem)
            QTRY_VERIFY(watch.heard().onThisComputer);
        QTest::qWait(600); // one more look
        QVERIFY((watch.heard() == CopyWatch::Heard{inSystem, inRoom}));
        QCOMPARE(changed.count() > 0, inSystem || inRoom);
        QCOMPARE(watch.heard().twice(), inSystem || inRoom);
        ears.stop();
        watch.stop();
        QVERIFY(!monitor.sink);
    }
};

QTEST_GUILESS_MAIN(TestElsewhere)
#include "test_elsewhere.moc"
