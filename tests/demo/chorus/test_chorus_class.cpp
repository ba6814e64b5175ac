// Twenty homes, a leader and a real relay in one process, over TLS with a pinned key: a short class from the door to
// the summary.
#include "common/live/share.h"
#include "demo/chorus/choir.h"
#include "server/ops/relay.h"
#include "tests/demo/chorus/short_class.h"

#include <QTemporaryDir>
#include <QtTest>

#include <atomic>
#include <future>
#include <spdlog/spdlog.h>

using namespace vh;
using namespace vh::chorus;

namespace
{

constexpr std::uint32_t kHomes = 20;
#ifdef __SANITIZE_THREAD__
// Twenty voices under ThreadSanitizer are slower than the class, whose clock is the machine's.
constexpr Voices kVoices = Voices::canned;
#else
constexpr Voices kVoices = Voices::whenAlone; // half the work
#endif
constexpr int kSoon = 60'000;
constexpr int kClassOver = 90'000;

/// A seed with which the person whose line drops keeps results, so that the store can tell what came.
std::uint64_t fittingSeed()
{
    for (std::uint64_t seed = 1;; ++seed)
        for (std::uint32_t index = 0; index < kHomes; ++index)
            if (const HomePlan plan = planOf(index, seed);
                plan.character == Character::dropsLine && plan.agreements.resultsKept)
                return seed;
}

} // namespace

class TestChorusClass : public QObject
{
    Q_OBJECT

    /// Runs `ask` on the chorus's loop and waits for what it gives.
    template <class Ask>
    auto onLoop(Ask ask) -> decltype(ask())
    {
        std::promise<decltype(ask())> promise;
        m_thread->loop().post([&] { promise.set_value(ask()); });
        return promise.get_future().get();
    }
    template <class Look>
    bool everyHome(Look look)
    {
        return onLoop([&] {
            bool all = true;
            for (const auto& home : m_choir->homes())
                if (!look(*home)) {
                    qInfo() << "home" << home->plan().index << nameOf(home->plan().character).data();
                    all = false;
                }
            return all;
        });
    }
    std::vector<const Home*> homesOf(Character character)
    {
        return onLoop([&] {
            std::vector<const Home*> found;
            for (const auto& home : m_choir->homes())
                if (home->plan().character == character)
                    found.push_back(home.get());
            return found;
        });
    }
    Totals totals()
    {
        return onLoop([&] { return m_choir->totals(); });
    }
    std::optional<wire::RosterEntry> entryOf(const Home& home)
    {
        const auto found = m_choir->leader()->roster().find(home.seat());
        return found == m_choir->leader()->roster().end() ? std::nullopt : std::optional(found->second);
    }

private slots:
    void initTestCase()
    {
        spdlog::set_level(spdlog::level::warn);
        QVERIFY(m_folder.isValid());
        m_config.data = m_folder.path().toStdString();
        m_config.port = 0;
        m_config.tls = ops::Tls::selfSigned;
        std::string code;
        wire::Token token{};
        {
            auto opening = store::Store::open(ops::storeOptions(m_config, store::StoreOptions::Hold::alone));
            QVERIFY(opening.store != nullptr);
            const auto group = opening.store->run([&](store::Tables& tables) -> Result<store::GroupRow> {
                const Instant now = SystemClock().now();
                store::GroupRow row = tables.groups.add("The test bakers", now);
                token = tables.links.make(row.id, store::Role::leader, {}, now).bytes;
                return row;
            });
            QVERIFY(group.has_value());
            code = group->code;
        }
        m_relay = std::make_unique<ops::Relay>(m_config);
        QVERIFY(m_relay->start().has_value());

        ChoirOptions options;
        options.relay.port = m_relay->port();
        options.relay.tls = net::TlsContext::client(m_relay->pin()).value();
        options.code = code;
        options.homes = kHomes;
        options.seed = fittingSeed();
        options.voices = Voices::whenAlone;     // half the work for slow builds
        options.lateBy = std::chrono::hours(1); // until they are told to come
        m_thread = std::make_unique<net::LoopThread>();
        onLoop([&] {
            m_choir = std::make_unique<Choir>(m_thread->loop(), m_clock, options);
            m_choir->onReady = [this] { m_ready = true; };
            m_choir->addLeader(token, {true, true});
            m_choir->start();
            return true;
        });
    }

    void everybodyIsLetInButTheLateComer()
    {
        QTRY_VERIFY_WITH_TIMEOUT(m_ready, kSoon);
        QVERIFY(
            everyHome([](const Home& home) { return home.isIn() == (home.plan().character != Character::lateComer); }));
    }

    void theLeaderLeadsAClassToItsEnd()
    {
        QVERIFY(onLoop([&] { return m_choir->leader()->lead(vh::testing::shortClass()); }));
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] {
                                     const auto& place = m_choir->leader()->place();
                                     return place && place->phase == Phase::running;
                                 }),
                                 kSoon);
        onLoop([&] {
            m_choir->letLateComersCome();
            return true;
        });
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return m_choir->leader()->summary().has_value(); }), kClassOver);
        QVERIFY(onLoop([&] { return m_choir->everybodyIn(); }));
        QVERIFY(everyHome([](const Home& home) { return home.hasScript(); }));
        QTRY_VERIFY_WITH_TIMEOUT(
            everyHome([](const Home& home) { return home.place() && home.place()->phase == Phase::ended; }), kSoon);
    }

    void theLeaderSeesEverybodyAsMeant()
    {
        QTRY_COMPARE_WITH_TIMEOUT(totals().resultsAcknowledged, totals().resultsMade, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(everyHome([&](const Home& home) {
                                     const auto entry = entryOf(home);
                                     if (home.plan().character == Character::gainRiding)
                                         return entry && entry->standing != Standing::notYet;
                                     // The last voiced section of this class is the one that one of them is silent in.
                                     const Standing meant =
                                         meantStanding(home.plan().character).value_or(Standing::noVoice);
                                     return entry && entry->standing == meant;
                                 }),
                                 kSoon);
        QVERIFY(everyHome([&](const Home& home) {
            const auto entry = entryOf(home);
            const Character who = home.plan().character;
            // Who was not heard in the last turn has no level to show.
            const bool level = who != Character::keepsPrivate && who != Character::resting &&
                               who != Character::silentInOneSection &&
                               (who != Character::noisyRoom || kVoices == Voices::canned);
            return entry && entry->hasLevel == level &&
                   (entry->blank == Blank::roomTooNoisy) == (home.plan().character == Character::noisyRoom);
        }));
    }

    void homeAndHallAgree()
    {
        QVERIFY(everyHome([&](const Home& home) {
            const bool shown =
                home.plan().character != Character::keepsPrivate && home.plan().character != Character::resting;
            return !shown || entryOf(home)->standing == home.judged().standing;
        }));
        const auto told = onLoop([&] {
            std::uint32_t sum = 0;
            // The leader's summary counts those whose level she may see.
            for (const auto& home : m_choir->homes())
                if (readingsGoUp(home->plan().agreements))
                    sum += home->turnsToldJudged();
            return sum;
        });
        QCOMPARE(onLoop([&] { return m_choir->leader()->summary()->judgedTurns; }), told);
        QVERIFY(told > 4 * (kHomes - 4));
        QCOMPARE(onLoop([&] { return m_choir->leader()->summary()->came; }), kHomes);
    }

    void theHomesKnowTheRelaysClock()
    {
        // Both live by the clock of this machine, read in whole milliseconds.
        QVERIFY(everyHome([](const Home& home) {
            const auto best = home.clockOffset().best();
            return best && std::chrono::abs(best->offset()) <= best->delay() / 2 + std::chrono::milliseconds(1);
        }));
    }

    void writingAndCallingForHelpArrive()
    {
        QVERIFY(totals().linesWritten >= 1);
        QCOMPARE(totals().helpCalls, std::uint64_t{homesOf(Character::callsForHelp).size()});
        QCOMPARE(onLoop([&] { return m_choir->leader()->summary()->calls; }),
                 static_cast<std::uint32_t>(totals().helpCalls));
    }

    void theLostLineCameBack()
    {
        const auto dropped = homesOf(Character::dropsLine);
        QCOMPARE(dropped.size(), std::size_t{1});
        QCOMPARE(onLoop([&] { return dropped.front()->timesBack(); }), std::uint32_t{1});
        QCOMPARE(totals().linesLost, std::uint64_t{1});
        QCOMPARE(totals().linesBack, std::uint64_t{1});
        QVERIFY(totals().sentAgain >= 1);
    }

    void nothingWasUnreadableOrRefused()
    {
        const Totals all = totals();
        QCOMPARE(all.unreadable, std::uint64_t{0});
        QCOMPARE(all.givenUp, std::uint64_t{0});
        // "busy" is no answer but a request for patience: what was asked is asked again.
        for (const auto& each : all.refusals)
            QCOMPARE(each.first, std::string("busy"));
        QVERIFY(all.closings.empty());
        QVERIFY(all.readingsSent > 0);
    }

    void everyResultThatIsKeptIsThereOnce()
    {
        struct Expected {
            PersonId person;
            std::size_t rows;
        };
        const auto expected = onLoop([&] {
            std::vector<Expected> people;
            for (const auto& home : m_choir->homes())
                people.push_back({home->person(), home->plan().agreements.resultsKept ? home->resultsMade() : 0U});
            return people;
        });
        onLoop([&] {
            m_choir.reset();
            return true;
        });
        m_relay->stop();
        auto opening = store::Store::open(ops::storeOptions(m_config, store::StoreOptions::Hold::alone));
        QVERIFY(opening.store != nullptr);
        std::size_t all = 0;
        for (const Expected& each : expected) {
            const auto rows = opening.store->run([&](store::Tables& tables) -> Result<std::size_t> {
                return tables.results.ofPerson(each.person).size();
            });
            QCOMPARE(rows.value(), each.rows);
            all += *rows;
        }
        QVERIFY(all > 0);
    }

    void cleanupTestCase()
    {
        if (m_thread && m_choir)
            onLoop([&] {
                m_choir.reset();
                return true;
            });
        m_thread.reset();
        m_relay.reset();
    }

private:
    QTemporaryDir m_folder;
    ops::Config m_config;
    SystemClock m_clock;
    std::unique_ptr<ops::Relay> m_relay;
    std::unique_ptr<net::LoopThread> m_thread;
    std::unique_ptr<Choir> m_choir;
    std::atomic<bool> m_ready = false;
};

QTEST_GUILESS_MAIN(TestChorusClass)
#include "test_chorus_class.moc"
