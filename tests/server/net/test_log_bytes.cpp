#include "server/net/log_bytes.h"

#include <QtTest>

using namespace vh;
using namespace vh::net;
using namespace std::chrono_literals;
using wire::Opcode;

namespace
{

const SteadyTime kStart{1h};

std::string frame(std::string_view payload)
{
    std::string out;
    wire::appendFrame(out, Opcode::binary, payload);
    return out;
}

} // namespace

class TestLogBytes : public QObject
{
    Q_OBJECT
private slots:
    void framesLieEndToEnd()
    {
        LogBytes log;
        QCOMPARE(log.append(Opcode::binary, "one", FrameKind::droppable, kStart), LogPosition{1});
        QCOMPARE(log.append(Opcode::binary, "two!", FrameKind::lasting, kStart), LogPosition{2});
        QCOMPARE(std::string(log.view(0, 2)), frame("one") + frame("two!"));
        QCOMPARE(std::string(log.view(1, 2)), frame("two!"));
        QVERIFY(log.view(2, 2).empty());
    }

    void aByteBelongsToItsFrame()
    {
        LogBytes log;
        for (const auto* payload : {"aaa", "bb", "c"})
            log.append(Opcode::binary, payload, FrameKind::droppable, kStart);
        // Frames of 5, 4 and 3 bytes.
        const std::array<LogPosition, 13> expected{0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 3};
        for (std::size_t i = 0; i < expected.size(); ++i)
            QCOMPARE(log.frameHolding(0, i), expected[i]);
        QCOMPARE(log.frameHolding(1, 3), LogPosition{1});
        QCOMPARE(log.frameHolding(1, 4), LogPosition{2});
    }

    void lengthIsBoundedAndPositionsGoOn()
    {
        LogBytes log(LogLimits{.bytes = 1000});
        for (int i = 0; i < 10'000; ++i) {
            log.append(Opcode::binary, std::to_string(i), FrameKind::droppable, kStart);
            QVERIFY(log.byteCount() <= 1000);
        }
        QCOMPARE(log.end(), LogPosition{10'000});
        QVERIFY(log.byteCount() >= 450);
        for (auto at = log.begin(); at < log.end(); ++at)
            QCOMPARE(std::string(log.view(at, at + 1)), frame(std::to_string(at)));
    }

    void aReaderInTimeGoesOnWhereItIs()
    {
        LogBytes log;
        for (int i = 0; i < 50; ++i)
            log.append(Opcode::binary, "sound", FrameKind::droppable, kStart + i * 20ms);
        QCOMPARE(log.goOnFrom(0, 0, kStart + 1000ms), LogPosition{0});
        QCOMPARE(log.goOnFrom(30, 0, kStart + 1000ms), LogPosition{30});
    }

    void aReaderTooFarBehindGoesOnAtTheLiveEdge()
    {
        LogBytes log;
        for (int i = 0; i < 500; ++i)
            log.append(Opcode::binary, "sound", FrameKind::droppable, kStart + i * 20ms);
        // Now is 10 s: the last 200 ms are frames 490 to 499.
        QCOMPARE(log.goOnFrom(0, 0, kStart + 10'000ms), LogPosition{490});
        QCOMPARE(log.goOnFrom(449, 0, kStart + 10'000ms), LogPosition{490});
        QCOMPARE(log.goOnFrom(450, 0, kStart + 10'000ms), LogPosition{450});
    }

    void lastingFramesDoNotGrowStale()
    {
        LogBytes log;
        for (int i = 0; i < 20; ++i)
            log.append(Opcode::text, "place", FrameKind::lasting, kStart + i * 20ms);
        QCOMPARE(log.goOnFrom(3, 3, kStart + 60s), LogPosition{3});
        log.append(Opcode::binary, "sound", FrameKind::droppable, kStart + 1s);
        QCOMPARE(log.goOnFrom(3, 3, kStart + 60s), LogPosition{20}); // the newest frame, however old
        QCOMPARE(log.lastingBefore(20), std::uint64_t{20});
        QCOMPARE(log.lastingBefore(5), std::uint64_t{5});
    }

    void whoFellOffTheTailGoesOnWithinTheLog()
    {
        LogBytes log(LogLimits{.bytes = 1000});
        for (int i = 0; i < 1000; ++i)
            log.append(Opcode::text, "place", FrameKind::lasting, kStart);
        QVERIFY(log.begin() > 500);
        const auto at = log.goOnFrom(2, 2, kStart);
        QVERIFY(at >= log.begin() && at <= log.end());
        QCOMPARE(log.lastingBefore(at), at);
    }
};

QTEST_APPLESS_MAIN(TestLogBytes)
#include "test_log_bytes.moc"
