// Acknowledged means on disk. A random workload goes through the real Store onto a LossyDisk; the power is cut at a
// random write or sync; then the file must be sound and hold every acknowledged item exactly once, every other at most
// once, and nothing of anybody whose erasure was acknowledged. 10 cuts; 500 with VOICEHALL_LONG=1. The seed is
// printed; VOICEHALL_SEED repeats its cuts and its work (ids stay random).
#include "tests/server/store/lossy_vfs.h"
#include "tests/server/store/store_fixture.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <latch>
#include <set>

using namespace vh;
using namespace vh::store;

namespace
{

struct Post {
    PersonId author;
    RequestId request;
    std::string text;
    bool acknowledged = false;
};

/// What the clients did and what they were told, over many lives of the relay.
class Clients
{
public:
    Clients(LossyVfs& vfs, std::uint64_t seed) : m_random(seed)
    {
        m_options.file = std::filesystem::path(m_folder.filePath("relay.db").toStdString());
        m_options.vfs = vfs.name();
        m_options.groupLimit = 16;
    }

    Store::Opening open() const { return Store::open(m_options); }

    /// A group and its first people. On a disk that holds.
    void settleIn(Store& store)
    {
        m_group = store.run([](Tables& t) -> Result<GroupRow> { return t.groups.add("Voices", kStart); }).value().id;
        for (int i = 0; i < 4; ++i)
            m_people.push_back(newPerson(store).value().id);
        const PersonId leader = m_people.front();
        m_class = store
                      .run([&](Tables& t) -> Result<ClassRow> {
                          const auto script = t.classes.putPart("script", Bytes(9000, 7), kStart);
                          return t.classes.open(m_group, leader, "Weather", script, kStart);
                      })
                      .value()
                      .id;
    }

    /// Bursts of work until the power is gone.
    void live(Store& store, const LossyDisk& disk)
    {
        resend(store);
        while (disk.hasPower()) {
            // The gate holds the writer until the burst is in the queue, so that groups of every size occur.
            std::latch gate(1);
            store.submit(
                [&gate](Tables&) -> Result<bool> {
                    gate.wait();
                    return true;
                },
                [](const Result<bool>&) {}, kHere);
            for (std::size_t left = 1 + upTo(30); left > 0; --left)
                submitOne(store);
            gate.count_down();
            if (upTo(9) == 0)
                eraseSomebody(store);
            // All that was submitted is answered when this is; without power it says so.
            (void)store.run([](Tables&) -> Result<bool> { return true; });
        }
    }

    /// What is wrong; empty when all is well. The store is open, on a disk with power.
    std::string check(Store& store)
    {
        const auto board = store.run([&](Tables& t) -> Result<std::vector<BoardRow>> {
            return t.board.newestShown(m_group, std::numeric_limits<int>::max());
        });
        const auto places =
            store.run([&](Tables& t) -> Result<std::vector<PlaceRow>> { return t.classes.places(m_class); });
        if (!board || !places)
            return "the tables cannot be read";
        std::map<std::string, int> found;
        for (const BoardRow& item : *board)
            ++found[item.text];
        const std::scoped_lock lock(m_mutex);
        for (const Post& post : m_posts) {
            const int times = found[post.text];
            if (times > 1)
                return "an item is there twice";
            if (post.acknowledged && !m_erased.contains(post.author) && times == 0)
                return "an acknowledged item is gone";
            if (m_erased.contains(post.author) && m_erasureAcknowledged.contains(post.author) && times > 0)
                return "an item of somebody erased is there";
        }
        std::set<std::int64_t> revisions;
        for (const PlaceRow& place : *places)
            revisions.insert(place.revision);
        for (const std::int64_t revision : m_placesAcknowledged)
            if (!revisions.contains(revision))
                return "an acknowledged place is gone";
        return {};
    }

    /// SQLite's own full check, on a connection of its own.
    std::string integrity() const
    {
        try {
            SQLite::Database raw(m_options.file.string(), SQLite::OPEN_READWRITE, 0, m_options.vfs);
            const std::string result = raw.execAndGet("PRAGMA integrity_check").getString();
            SQLite::Statement orphans(raw, "PRAGMA foreign_key_check");
            return result != "ok" ? result : orphans.executeStep() ? "a row without its parent" : std::string();
        } catch (const SQLite::Exception& error) {
            return error.what();
        }
    }

    std::size_t acknowledged() const
    {
        const std::scoped_lock lock(m_mutex);
        return static_cast<std::size_t>(
                   std::count_if(m_posts.begin(), m_posts.end(), [](const Post& post) { return post.acknowledged; })) +
               m_placesAcknowledged.size();
    }
    std::size_t upTo(std::size_t most) { return std::uniform_int_distribution<std::size_t>(0, most)(m_random); }

private:
    Result<PersonRow> newPerson(Store& store) const
    {
        return store.run(
            [&](Tables& t) -> Result<PersonRow> { return t.people.add(m_group, "Ada", Role::participant, kStart); });
    }

    void submitOne(Store& store)
    {
        if (upTo(3) == 0)
            submitPlace(store);
        else if (upTo(9) == 0) // one that fails, so that savepoints roll back among the others
            store.submit([](Tables&) -> Result<bool> { return fail("no", "No."); }, [](const Result<bool>&) {}, kHere);
        else
            submitPost(store);
    }

    void submitPost(Store& store)
    {
        std::size_t index = 0;
        {
            const std::scoped_lock lock(m_mutex);
            index = m_posts.size();
            m_posts.push_back({m_people[upTo(m_people.size() - 1)], RequestId::random(),
                               "item " + std::to_string(index) + std::string(upTo(400), '.'), false});
        }
        send(store, index);
    }

    void send(Store& store, std::size_t index)
    {
        Post post;
        {
            const std::scoped_lock lock(m_mutex);
            post = m_posts[index];
        }
        store.submit(
            [post, group = m_group](Tables& t) -> Result<OnceAnswer> {
                return t.once(post.author, post.request, sha256(post.text), kStart, [&]() -> Result<std::string> {
                    BoardRow item;
                    item.group = group;
                    item.author = post.author;
                    item.state = BoardState::shown;
                    item.text = post.text;
                    return std::to_string(t.board.add(item).id);
                });
            },
            [this, index](const Result<OnceAnswer>& answer) {
                const std::scoped_lock lock(m_mutex);
                if (answer)
                    m_posts[index].acknowledged = true;
            },
            kHere);
    }

    /// Clients ask again for whatever was not acknowledged before the cut.
    void resend(Store& store)
    {
        std::vector<std::size_t> open;
        {
            const std::scoped_lock lock(m_mutex);
            for (std::size_t i = 0; i < m_posts.size(); ++i)
                if (!m_posts[i].acknowledged && !m_erased.contains(m_posts[i].author))
                    open.push_back(i);
        }
        for (const std::size_t index : open)
            send(store, index);
    }

    void submitPlace(Store& store)
    {
        const PlaceRow place{m_class, ++m_revision, 1, Bytes(40, 1), kStart};
        store.submit([place](Tables& t) -> Result<void> { return t.classes.putPlace(place); },
                     [this, place](const Result<void>& answer) {
                         const std::scoped_lock lock(m_mutex);
                         if (answer)
                             m_placesAcknowledged.insert(place.revision);
                     },
                     kHere);
    }

    /// Erasing truncates the log: checkpoints and truncations get their share of cuts.
    void eraseSomebody(Store& store)
    {
        const std::size_t who = 1 + upTo(m_people.size() - 2);
        const PersonId person = m_people[who];
        if (const auto other = newPerson(store); other)
            m_people[who] = other->id;
        else
            return;
        {
            const std::scoped_lock lock(m_mutex);
            m_erased.insert(person);
        }
        store.submit([person](Tables& t) -> Result<void> { return t.people.erase(person); },
                     [this, person](const Result<void>& answer) {
                         const std::scoped_lock lock(m_mutex);
                         if (answer)
                             m_erasureAcknowledged.insert(person);
                     },
                     kHere);
    }

    std::mt19937_64 m_random;
    QTemporaryDir m_folder; // for the lock file only
    StoreOptions m_options;
    GroupId m_group;
    ClassId m_class;
    std::vector<PersonId> m_people;
    std::int64_t m_revision = 0;

    mutable std::mutex m_mutex; // answers come on the writer thread
    std::vector<Post> m_posts;
    std::set<std::int64_t> m_placesAcknowledged;
    std::set<PersonId> m_erased;
    std::set<PersonId> m_erasureAcknowledged;
};

struct Run {
    std::string fault; ///< the first one, or empty
    int cuts = 0;
    std::size_t acknowledged = 0;
};

enum class Syncs : std::uint8_t { kept, ignored };

Run cutAgainAndAgain(LossyDisk& disk, int cuts, std::uint64_t seed, Syncs syncs)
{
    LossyVfs vfs("lossy", disk);
    Clients clients(vfs, seed);
    {
        const auto opening = clients.open();
        clients.settleIn(*opening.store);
    }
    if (syncs == Syncs::ignored)
        disk.ignoreSyncs();
    Run run;
    while (run.cuts < cuts && run.fault.empty()) {
        ++run.cuts;
        // By turns in mid-work and early: while opening, or in the first commits.
        disk.cutPowerAt(1 + clients.upTo(run.cuts % 2 == 1 ? 2000 : 60));
        if (const auto opening = clients.open(); opening.store) // the cut may come while opening
            clients.live(*opening.store, disk);
        disk.restart();
        {
            const auto opening = clients.open();
            run.fault =
                opening.store ? clients.check(*opening.store) : "the store cannot be opened: " + opening.message;
        }
        if (run.fault.empty())
            run.fault = clients.integrity();
    }
    run.acknowledged = clients.acknowledged();
    return run;
}

std::uint64_t chosenSeed()
{
    bool given = false;
    const std::uint64_t seed = qEnvironmentVariable("VOICEHALL_SEED").toULongLong(&given);
    return given ? seed : std::random_device{}();
}

} // namespace

class TestDurability : public QObject
{
    Q_OBJECT
private slots:
    void whatIsAcknowledgedIsThereOnceAfterAnyPowerCut()
    {
        const int cuts = qEnvironmentVariableIntValue("VOICEHALL_LONG") == 1 ? 500 : 10;
        const std::uint64_t seed = chosenSeed();
        LossyDisk disk(seed);
        const Run run = cutAgainAndAgain(disk, cuts, seed, Syncs::kept);
        if (!run.fault.empty())
            qWarning("cut %d: %s", run.cuts, run.fault.c_str());
        qInfo("%d cuts, %zu items acknowledged, %llu sectors lost, %llu torn, seed %llu", run.cuts, run.acknowledged,
              static_cast<unsigned long long>(disk.sectorsLost()), static_cast<unsigned long long>(disk.sectorsTorn()),
              static_cast<unsigned long long>(seed));
        QCOMPARE(run.fault, std::string());
        QCOMPARE(run.cuts, cuts);
        QVERIFY(run.acknowledged > 0);
        QVERIFY(disk.sectorsLost() > 0);
    }

    // The test of the test: on a drive that only says it has synced, the loss must be seen.
    void aDriveThatLiesAboutSyncIsFoundOut()
    {
        const std::uint64_t seed = chosenSeed();
        LossyDisk disk(seed);
        const Run run = cutAgainAndAgain(disk, 50, seed, Syncs::ignored);
        qInfo("cut %d: %s", run.cuts, run.fault.c_str());
        QVERIFY(!run.fault.empty());
    }
};

QTEST_APPLESS_MAIN(TestDurability)
#include "test_durability.moc"
