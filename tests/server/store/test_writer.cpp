// The queue and the one writer: what is accepted is answered once, after its COMMIT, in order; limits are kept; a job
// that fails hurts nobody.
#include "tests/server/store/lossy_vfs.h"
#include "tests/server/store/store_fixture.h"

#include <QElapsedTimer>
#include <SQLiteCpp/SQLiteCpp.h>
#include <atomic>
#include <latch>

using namespace vh;
using namespace vh::store;

namespace
{

/// Keeps the writer busy until it is opened.
class Gate
{
public:
    explicit Gate(Store& store)
    {
        store.submit(
            [this](Tables&) -> Result<bool> {
                m_reached.count_down();
                m_open.wait();
                return true;
            },
            [](const Result<bool>&) {}, kHere);
        m_reached.wait();
    }
    void open() { m_open.count_down(); }

private:
    std::latch m_reached{1};
    std::latch m_open{1};
};

std::size_t groupCount(Store& store)
{
    return store.run([](Tables& t) -> Result<std::size_t> { return t.groups.all().size(); }).value();
}

const auto kAddGroup = [](Tables& t) -> Result<GroupRow> { return t.groups.add("Voices", kStart); };

} // namespace

class TestWriter : public QObject
{
    Q_OBJECT
private slots:
    void aFullQueueSaysSoAndTakesNothing()
    {
        StoreFixture fixture;
        fixture.options.queueLimit = 3;
        fixture.reopen();
        Gate gate(*fixture.store);
        std::atomic<int> answers = 0;
        const auto submit = [&] {
            return fixture.store->submit(
                kAddGroup, [&](const Result<GroupRow>&) { ++answers; }, kHere);
        };
        for (int i = 0; i < 3; ++i)
            QCOMPARE(submit(), Submitted::accepted);
        QCOMPARE(submit(), Submitted::full);
        QCOMPARE(fixture.store->stats().waiting, std::size_t(3));
        QCOMPARE(fixture.store->stats().refused, std::uint64_t(1));
        gate.open();
        QCOMPARE(groupCount(*fixture.store), std::size_t(3));
        QCOMPARE(answers.load(), 3);
        QCOMPARE(submit(), Submitted::accepted);
    }

    void jobsThatWaitShareOneCommit()
    {
        StoreFixture fixture;
        Gate gate(*fixture.store);
        for (int i = 0; i < 100; ++i)
            fixture.store->submit(
                kAddGroup, [](const Result<GroupRow>&) {}, kHere);
        const auto before = fixture.store->stats().commits;
        gate.open();
        QCOMPARE(groupCount(*fixture.store), std::size_t(100));
        fixture.store->stop();
        QVERIFY(fixture.store->stats().commits - before <= 3); // the gate, the hundred, the count
        QCOMPARE(fixture.store->stats().jobs, std::uint64_t(102));
    }

    void oneBadJobDoesNotHurtItsGroup()
    {
        StoreFixture fixture;
        Gate gate(*fixture.store);
        std::vector<std::string> answers;
        const auto note = [&](const Result<GroupRow>& answer) {
            answers.push_back(answer ? "ok" : answer.error().code);
        };
        fixture.store->submit(kAddGroup, note, kHere);
        fixture.store->submit(
            [](Tables& t) -> Result<GroupRow> {
                t.groups.add("left behind by a refusal", kStart);
                return fail("refused", "No.");
            },
            note, kHere);
        fixture.store->submit(
            [](Tables& t) -> Result<GroupRow> {
                t.groups.add("left behind by a throw", kStart);
                throw std::runtime_error("thrown");
            },
            note, kHere);
        fixture.store->submit(
            [](Tables& t) -> Result<GroupRow> {
                t.groups.add("left behind by a constraint", kStart);
                t.people.setBand({PersonId::random(), 0, PersonId::random(), kStart}); // nobody has these ids
                return fail("unreachable", "The line above throws.");
            },
            note, kHere);
        fixture.store->submit(kAddGroup, note, kHere);
        gate.open();
        QCOMPARE(groupCount(*fixture.store), std::size_t(2));
        QCOMPARE(answers, (std::vector<std::string>{"ok", "refused", "store-failed", "store-failed", "ok"}));
    }

    void answersLeaveOnlyAfterTheCommit()
    {
        StoreFixture fixture;
        SQLite::Database other(fixture.options.file.string(), SQLite::OPEN_READONLY, 1000);
        int seenAtAnswer = -1;
        int seenAtWork = -1;
        const auto count = [&other] { return other.execAndGet("SELECT count(*) FROM groups").getInt(); };
        fixture.store->submit(
            [&](Tables& t) -> Result<GroupRow> {
                auto group = t.groups.add("Voices", kStart);
                seenAtWork = count();
                return group;
            },
            [&](const Result<GroupRow>&) { seenAtAnswer = count(); }, kHere);
        fixture.store->stop();
        QCOMPARE(seenAtWork, 0);
        QCOMPARE(seenAtAnswer, 1);
    }

    void aFailedCommitIsToldToEverybodyInTheGroup()
    {
        LossyDisk disk(1);
        LossyVfs vfs("refusing", disk);
        StoreFixture fixture;
        fixture.options.vfs = vfs.name();
        fixture.reopen();
        Gate gate(*fixture.store);
        std::vector<std::string> answers;
        for (int i = 0; i < 3; ++i)
            fixture.store->submit(
                kAddGroup,
                [&](const Result<GroupRow>& answer) { answers.push_back(answer ? "ok" : answer.error().code); }, kHere);
        disk.refuseSyncs(true);
        gate.open();
        const auto refused = fixture.store->run([](Tables&) -> Result<bool> { return true; });
        QCOMPARE(answers, (std::vector<std::string>{"store-failed", "store-failed", "store-failed"}));
        QVERIFY(refused || refused.error().code == "store-failed");
        disk.refuseSyncs(false);
        QCOMPARE(groupCount(*fixture.store), std::size_t(0));
        QVERIFY(fixture.store->run(kAddGroup)); // and goes on once the disk does
        QVERIFY(fixture.store->stats().failedCommits > 0);
        QVERIFY(!fixture.store->stats().lastCommitFailed);
    }

    void answersComeInTheOrderOfSubmission()
    {
        StoreFixture fixture;
        std::vector<int> order;
        for (int i = 0; i < 1000; ++i)
            QCOMPARE(fixture.store->submit([i](Tables&) -> Result<int> { return i; },
                                           [&](const Result<int>& n) { order.push_back(*n); }, kHere),
                     Submitted::accepted);
        fixture.store->stop();
        QCOMPARE(order.size(), std::size_t(1000));
        QVERIFY(std::is_sorted(order.begin(), order.end()));
    }

    void stoppingDoesWhatWasAcceptedAndTakesNoMore()
    {
        StoreFixture fixture;
        Gate gate(*fixture.store);
        int answers = 0;
        for (int i = 0; i < 50; ++i)
            fixture.store->submit(
                kAddGroup, [&](const Result<GroupRow>& answer) { answers += answer ? 1 : 0; }, kHere);
        gate.open();
        fixture.store->stop();
        fixture.store->stop();
        QCOMPARE(answers, 50);
        QCOMPARE(fixture.store->submit(
                     kAddGroup, [](const Result<GroupRow>&) {}, kHere),
                 Submitted::stopped);
        QCOMPARE(fixture.refusal(kAddGroup), std::string("store-stopped"));
        fixture.reopen();
        QCOMPARE(groupCount(*fixture.store), std::size_t(50));
    }

    void answersAndWhatTheyHoldStayOnTheCallersLoop()
    {
        StoreFixture fixture;
        std::mutex mutex;
        std::vector<std::function<void()>> loop;
        const Poster toLoop = [&](std::function<void()> function) {
            const std::scoped_lock lock(mutex);
            loop.push_back(std::move(function));
        };
        auto held = std::make_shared<int>(1);
        std::weak_ptr<int> watch = held;
        bool answered = false;
        fixture.store->submit([held](Tables&) -> Result<int> { return *held; },
                              [&answered, held](const Result<int>&) { answered = true; }, toLoop);
        held.reset();
        fixture.store->stop();
        QVERIFY(!answered);
        QVERIFY(!watch.expired()); // not let go of on the writer thread
        loop.front()();
        loop.clear();
        QVERIFY(answered);
        QVERIFY(watch.expired());
    }

    void manyThreadsMaySubmit()
    {
        StoreFixture fixture;
        std::atomic<int> answers = 0;
        std::vector<std::thread> threads;
        QElapsedTimer timer;
        timer.start();
        for (int i = 0; i < 4; ++i)
            threads.emplace_back([&] {
                for (int n = 0; n < 500; ++n)
                    fixture.store->submit(
                        kAddGroup, [&](const Result<GroupRow>& answer) { answers += answer ? 1 : 0; }, kHere);
            });
        for (auto& thread : threads)
            thread.join();
        fixture.store->stop();
        QCOMPARE(answers.load(), 2000);
        const auto stats = fixture.store->stats();
        qInfo("%llu jobs in %llu commits, %lld ms", static_cast<unsigned long long>(stats.jobs),
              static_cast<unsigned long long>(stats.commits), static_cast<long long>(timer.elapsed()));
    }
};

QTEST_APPLESS_MAIN(TestWriter)
#include "test_writer.moc"
