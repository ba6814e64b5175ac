// Playing to devices that a test plugs in and out, and to files.
#include "app/sound/loudspeaker.h"
#include "app/sound/sound_file.h"
#include "common/sound/voice_sender.h"
#include "tests/app/sound/count_allocations.h"
#include "tests/app/sound/desk.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

using namespace vh;
using namespace vh::sound;
using namespace std::chrono_literals;

namespace
{

const DeviceInfo kSpeaker{"speaker", "Built-in loudspeaker", true};
const DeviceInfo kPhones{"phones", "Headphones", false};

/// A constant, so that it is known again anywhere.
class EvenFeed final : public VoiceFeed
{
public:
    void render(std::span<float> into) noexcept override
    {
        std::fill(into.begin(), into.end(), 0.25F);
        m_upTo += into.size();
    }
    HeardUpTo renderedUpTo() const noexcept override { return {3, m_upTo}; }

private:
    std::atomic<std::uint64_t> m_upTo{0};
};

struct Table {
    Shelf shelf;
    EvenFeed feed;
    std::shared_ptr<FarEnd> farEnd = std::make_shared<FarEnd>();
    Loudspeaker loudspeaker{feed, farEnd, std::make_unique<ShelfBackend>(shelf)};
};

} // namespace

class TestLoudspeaker : public QObject
{
    Q_OBJECT
private slots:
    void everyStateHasPlainWords()
    {
        for (const auto state : {LoudspeakerState::off, LoudspeakerState::opening, LoudspeakerState::playing,
                                 LoudspeakerState::deviceLost, LoudspeakerState::noDevice, LoudspeakerState::fileBad})
            QVERIFY(wordsOf(state).endsWith('.'));
    }

    void theStandardDevicePlaysAndTheFarEndHearsTheSame()
    {
        Table table;
        table.shelf.plugged = {kPhones, kSpeaker};
        QSignalSpy states(&table.loudspeaker, &Loudspeaker::stateChanged);
        table.loudspeaker.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        QCOMPARE(table.loudspeaker.openDevice().id, kSpeaker.id);
        QCOMPARE(states.count(), 2); // opening, playing
        std::vector<float> far(480);
        table.farEnd->begin();
        QTRY_VERIFY((table.farEnd->read(far), far.front() == 0.25F));
        QTRY_VERIFY(table.loudspeaker.audibleUpTo().sample > 0);
        QCOMPARE(table.loudspeaker.audibleUpTo().stream, 3U);
        QCOMPARE(table.loudspeaker.latency(), std::optional(40ms));
        table.loudspeaker.stop();
        QCOMPARE(table.shelf.openStreams.load(), 0);
        QCOMPARE(table.loudspeaker.state(), LoudspeakerState::off);
        QVERIFY(table.loudspeaker.audibleUpTo() == HeardUpTo{});
        QVERIFY(!table.loudspeaker.latency());
    }

    void withoutADeviceItSaysSoAndTakesTheFirstThatComes()
    {
        Table table;
        table.loudspeaker.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::noDevice);
        table.shelf.plugged = {kPhones};
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        QCOMPARE(table.loudspeaker.openDevice().id, kPhones.id);
    }

    void headphonesPulledOutInMidClassGoOnOnTheLoudspeakerAndBackOnceTheyAreIn()
    {
        Table table;
        table.shelf.plugged = {kPhones, kSpeaker};
        table.loudspeaker.start(DeviceChoice::deviceOf("phones"));
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        QSignalSpy states(&table.loudspeaker, &Loudspeaker::stateChanged);
        table.shelf.plugged = {kSpeaker};
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::deviceLost); // said in words
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        QCOMPARE(table.loudspeaker.openDevice().id, kSpeaker.id);
        table.shelf.plugged = {kPhones, kSpeaker};
        QTRY_COMPARE(table.loudspeaker.openDevice().id, kPhones.id);
        QCOMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        QCOMPARE(states.count(), 2); // back without another word
        QVERIFY((table.shelf.opened == std::vector<QByteArray>{"phones", "speaker", "phones"}));
        QCOMPARE(table.shelf.openStreams.load(), 1);
    }

    void anotherStandardDeviceIsFollowed()
    {
        Table table;
        table.shelf.plugged = {kPhones, kSpeaker};
        table.loudspeaker.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        QSignalSpy devices(&table.loudspeaker, &Loudspeaker::devicesChanged);
        table.shelf.plugged[0].standard = true;
        table.shelf.plugged[1].standard = false;
        QTRY_COMPARE(table.loudspeaker.openDevice().id, kPhones.id);
        QCOMPARE(devices.count(), 1);
    }

    void aDeviceThatNoLongerTakesSoundIsLostAndTriedAgain()
    {
        Table table;
        table.shelf.plugged = {kSpeaker};
        table.loudspeaker.start(DeviceChoice::standardDevice());
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        table.shelf.flowing = false;
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::deviceLost);
        table.shelf.flowing = true;
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        table.shelf.health = SourceHealth::failed;
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::deviceLost);
        table.shelf.health = SourceHealth::good;
        QTRY_COMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
    }

    void aFileGetsWhatIsPlayedAsFarAsItIsMovedByHand()
    {
        QTemporaryDir folder;
        const QString path = folder.filePath("played.wav");
        Table table;
        table.loudspeaker.start(DeviceChoice::fileOf(path, Pace::byHand));
        QCOMPARE(table.loudspeaker.state(), LoudspeakerState::playing);
        table.loudspeaker.advance(25ms);
        table.loudspeaker.advance(975ms);
        QVERIFY((table.loudspeaker.audibleUpTo() == HeardUpTo{3, 48'000})); // by hand it is heard at once
        table.loudspeaker.stop();
        auto file = SoundFile::open(path);
        QVERIFY(file.has_value());
        QCOMPARE(file->frames(), std::int64_t{48'000});
        std::vector<float> samples(48'000);
        QCOMPARE(file->read(samples), samples.size());
        QVERIFY(std::all_of(samples.begin(), samples.end(), [](float sample) { return sample == 0.25F; }));
    }

    void aFileThatCannotBeWrittenIsSaid()
    {
        Table table;
        table.loudspeaker.start(DeviceChoice::fileOf("/no/such/folder/played.wav"));
        QCOMPARE(table.loudspeaker.state(), LoudspeakerState::fileBad);
    }

    void nowhereInRealTimeIsPlayedToo()
    {
        Table table;
        table.loudspeaker.start(DeviceChoice::fileOf({}));
        QTRY_VERIFY(table.loudspeaker.audibleUpTo().sample > 960);
        table.loudspeaker.start(DeviceChoice::nothing());
        QCOMPARE(table.loudspeaker.state(), LoudspeakerState::noDevice);
        QVERIFY(table.loudspeaker.audibleUpTo() == HeardUpTo{});
    }

    void aClipIsLaidOverTheVoicesOnceAndNothingIsAllocated()
    {
        VoiceMix mix;
        MixFeed feed(mix);
        VoiceSender sender(9);
        std::uint64_t sent = 0;
        sender.push(std::vector<float>(48'000, 0.1F), [&](const wire::SoundHead& head, auto payload) {
            mix.leader().arrive(head, payload, Instant{});
            ++sent;
        });
        QVERIFY(sent > 40);
        QVERIFY(!feed.clipPlays());
        feed.playClip(std::vector<float>(1000, 0.5F));
        QVERIFY(feed.clipPlays());
        std::vector<float> out(480);
        const std::size_t before = allocations;
        feed.render(out);
        QVERIFY(out.front() == 0.5F); // the jitter buffer has not begun to play
        feed.render(out);
        feed.render(out);
        QVERIFY(!feed.clipPlays());
        QCOMPARE(out[39], 0.5F); // 1000 = 960 + 40
        QVERIFY(out[40] < 0.4F);
        for (int i = 0; i < 50; ++i)
            feed.render(out);
        QCOMPARE(allocations - before, std::size_t{0});
        QCOMPARE(feed.renderedUpTo().stream, 9U);
        QVERIFY(feed.renderedUpTo().sample > 0);
        feed.playClip(std::vector<float>(48'000, 0.5F));
        feed.playClip({}); // in its place: nothing any more
        feed.render(out);
        QVERIFY(!feed.clipPlays());
    }
};

QTEST_GUILESS_MAIN(TestLoudspeaker)
#include "test_loudspeaker.moc"
