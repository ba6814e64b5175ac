// What Qt is handed to play: the feed's samples in the device's format and rate.
#include "app/sound/from_mono.h"
#include "app/sound/outlet.h"
#include "app/sound/to_mono.h"
#include "tests/app/sound/count_allocations.h"

#include <QtTest>

#include <cmath>
#include <numbers>

using namespace vh::sound;

namespace
{

/// A tone of 1 kHz, amplitude a half.
class ToneFeed final : public SampleFeed
{
public:
    void render(std::span<float> into, std::chrono::microseconds untilHeard) noexcept override
    {
        until = untilHeard;
        for (float& sample : into)
            sample =
                0.5F * static_cast<float>(std::sin(2 * std::numbers::pi * 1000 * static_cast<double>(m_at++) / 48'000));
    }
    std::chrono::microseconds until{-1};
    [[nodiscard]] std::size_t rendered() const { return m_at; }

private:
    std::size_t m_at = 0;
};

QAudioFormat formatOf(int rateHz, int channels, QAudioFormat::SampleFormat kind)
{
    QAudioFormat format;
    format.setSampleRate(rateHz);
    format.setChannelCount(channels);
    format.setSampleFormat(kind);
    return format;
}

} // namespace

class TestOutlet : public QObject
{
    Q_OBJECT
private slots:
    void theToneComesAtItsLevelAndRate_data()
    {
        QTest::addColumn<int>("rateHz");
        QTest::addColumn<int>("channels");
        QTest::addColumn<int>("kind");
        QTest::newRow("as we have it") << 48'000 << 1 << int(QAudioFormat::Float);
        QTest::newRow("a usual card") << 44'100 << 2 << int(QAudioFormat::Int16);
        QTest::newRow("a studio card") << 192'000 << 2 << int(QAudioFormat::Int32);
        QTest::newRow("a telephone") << 8'000 << 1 << int(QAudioFormat::UInt8);
    }
    void theToneComesAtItsLevelAndRate()
    {
        QFETCH(int, rateHz);
        QFETCH(int, channels);
        QFETCH(int, kind);
        const auto format = formatOf(rateHz, channels, static_cast<QAudioFormat::SampleFormat>(kind));
        ToneFeed feed;
        Outlet outlet(format, feed);
        QByteArray bytes(format.bytesForDuration(20'000), 0);
        std::vector<float> played;
        std::vector<float> mono(static_cast<std::size_t>(rateHz / 50));
        const std::size_t before = allocations;
        std::size_t inLoop = 0;
        for (int i = 0; i < 50; ++i) { // a second
            const std::size_t now = allocations;
            QCOMPARE(outlet.read(bytes.data(), bytes.size()), qint64(bytes.size()));
            inLoop += allocations - now;
            QCOMPARE(toMono(std::as_bytes(std::span(bytes.constData(), bytes.size())), format, mono), mono.size());
            played.insert(played.end(), mono.begin(), mono.end());
        }
        QCOMPARE(inLoop, std::size_t{0});
        QVERIFY(allocations > before);                                               // the counter does count
        QVERIFY(std::abs(static_cast<double>(feed.rendered()) - 48'000) <= 48 * 25); // pieces of 10 ms, ahead
        // A sine of amplitude a half has a mean square of 1/8; the first 50 ms are the resampler's start. 0.1 dB; eight
        // bits are rougher.
        double sum = 0;
        int turns = 0;
        const std::size_t skip = played.size() / 20;
        for (std::size_t i = skip; i < played.size(); ++i) {
            sum += static_cast<double>(played[i]) * static_cast<double>(played[i]);
            turns += played[i - 1] < 0 && played[i] >= 0 ? 1 : 0;
        }
        const double level = 10 * std::log10(sum / static_cast<double>(played.size() - skip) * 8);
        QVERIFY2(std::abs(level) <= (kind == QAudioFormat::UInt8 ? 0.2 : 0.1), qPrintable(QString::number(level)));
        QVERIFY(std::abs(turns - 950) <= 1);
    }

    void withoutASinkNothingIsClaimedOfTheLatency()
    {
        ToneFeed feed;
        Outlet outlet(formatOf(48'000, 1, QAudioFormat::Float), feed);
        (void)outlet.read(960);
        QCOMPARE(feed.until.count(), 0);
    }

    void fullScaleIsCutAndNotWrapped()
    {
        const std::vector<float> mono{2.0F, -2.0F, 1.0F, 0.0F};
        std::array<std::int16_t, 8> stereo{};
        const auto format = formatOf(48'000, 2, QAudioFormat::Int16);
        QCOMPARE(fromMono(mono, format, std::as_writable_bytes(std::span(stereo))), std::size_t{4});
        QVERIFY((stereo == std::array<std::int16_t, 8>{32767, 32767, -32767, -32767, 32767, 32767, 0, 0}));
        std::array<std::int32_t, 4> wide{};
        QCOMPARE(fromMono(mono, formatOf(48'000, 1, QAudioFormat::Int32), std::as_writable_bytes(std::span(wide))),
                 std::size_t{4});
        QCOMPARE(wide[0], 2147483647);
        std::array<std::byte, 5> tooFew{};
        QCOMPARE(fromMono(mono, format, tooFew), std::size_t{1}); // whole frames only
        QCOMPARE(fromMono(mono, QAudioFormat(), tooFew), std::size_t{0});
    }
};

QTEST_APPLESS_MAIN(TestOutlet)
#include "test_outlet.moc"
