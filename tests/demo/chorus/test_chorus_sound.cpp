// A chorus whose leader speaks: the homes hear her, one who is asked says a few sentences to all, one would rather not.
#include "common/sound/opus_codec.h"
#include "demo/chorus/choir.h"
#include "server/ops/relay.h"

#include <QTemporaryDir>
#include <QtTest>

#include <atomic>
#include <future>
#include <spdlog/spdlog.h>

using namespace vh;
using namespace vh::chorus;

namespace
{

constexpr int kSoon = 60'000;
constexpr std::uint32_t kSteadyHome = 0;
constexpr std::uint32_t kQuietHome = 1;

/// Decodes all that it hears.
class Listener final : public Line
{
public:
    Listener(std::shared_ptr<Setting> setting, wire::Token token)
        : Line(std::move(setting), {"Listener", {}, token, Role::participant}, 99)
    {
    }
    std::map<std::uint32_t, double> energy; ///< of each stream
    bool notOpus = false;

private:
    void heardBinary(std::span<const std::uint8_t> bytes) override
    {
        const auto sound = wire::decodeSound(bytes);
        if (!sound)
            return;
        std::array<float, kSoundFrame> frame{};
        notOpus = notOpus || !m_decoders[sound->head.stream].decode(sound->payload, frame);
        for (const float sample : frame)
            energy[sound->head.stream] += sample * sample;
    }
    std::map<std::uint32_t, VoiceDecoder> m_decoders;
};

ClassScript longTurns()
{
    ClassScript script;
    script.title = "Long turns";
    script.theme = "tests";
    script.language = "en";
    script.plannedMinutes = 2;
    Step step;
    step.text = "The bread is still warm this morning, and the butter is soft";
    step.rounds = {Round{false, {Turn{TurnKind::listen, Millis{4'000}}, Turn{TurnKind::ready, Millis{100'000}}}}};
    script.sections = {Section{SectionKind::phrases, "Phrases", {step}}};
    return script;
}

} // namespace

class TestChorusSound : public QObject
{
    Q_OBJECT

    template <class Ask>
    auto onLoop(Ask ask) -> decltype(ask())
    {
        std::promise<decltype(ask())> promise;
        m_thread->loop().post([&] { promise.set_value(ask()); });
        return promise.get_future().get();
    }
    PersonId personAt(std::uint32_t index)
    {
        return onLoop([&] { return m_choir->homes()[index]->person(); });
    }
    wire::Token link(store::Store& store, GroupId group, store::Role role)
    {
        return store
            .run([&](store::Tables& tables) -> Result<wire::Token> {
                return tables.links.make(group, role, {}, SystemClock().now()).bytes;
            })
            .value();
    }

private slots:
    void initTestCase()
    {
        spdlog::set_level(spdlog::level::warn);
        m_config.data = m_folder.path().toStdString();
        m_config.port = 0;
        m_config.ops = false;
        m_config.tls = ops::Tls::off;
        wire::Token leader{};
        wire::Token listener{};
        ChoirOptions options;
        {
            auto opening = store::Store::open(ops::storeOptions(m_config, store::StoreOptions::Hold::alone));
            QVERIFY(opening.store != nullptr);
            const auto group = opening.store->run([&](store::Tables& tables) -> Result<store::GroupRow> {
                return tables.groups.add("The test bakers", SystemClock().now());
            });
            leader = link(*opening.store, group->id, store::Role::leader);
            listener = link(*opening.store, group->id, store::Role::participant);
            options.code = group->code;
        }
        m_relay = std::make_unique<ops::Relay>(m_config);
        QVERIFY(m_relay->start().has_value());
        options.relay.port = m_relay->port();
        options.homes = 2;
        options.voices = Voices::whenAlone;
        m_thread = std::make_unique<net::LoopThread>();
        onLoop([&] {
            m_choir = std::make_unique<Choir>(m_thread->loop(), m_clock, options);
            m_choir->onReady = [this] { m_ready = true; };
            m_choir->addLeader(leader, {true, false});
            m_choir->start();
            m_listener = std::make_shared<Listener>(m_choir->setting(), listener);
            m_listener->start();
            m_listening =
                m_thread->loop().every(std::chrono::milliseconds(20), [this] { m_listener->beat(m_clock.now()); });
            return true;
        });
        QTRY_VERIFY_WITH_TIMEOUT(m_ready, kSoon);
    }

    void theLeaderIsHeardInEveryHome()
    {
        QVERIFY(onLoop([&] { return m_choir->leader()->lead(longTurns()); }));
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return m_listener->energy.size() == 1; }), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return m_listener->energy.begin()->second > 1; }), kSoon);
        const auto totals = onLoop([&] { return m_choir->totals(); });
        QVERIFY(totals.soundSent > 10);
        QVERIFY(totals.sound.frames > 10);
        QCOMPARE(totals.unreadable, std::uint64_t{0});
    }

    void whoWouldRatherNotIsNotHeard()
    {
        QVERIFY(!likesToBeHeard(onLoop([&] { return m_choir->homes()[kQuietHome]->plan().character; })));
        const PersonId quiet = personAt(kQuietHome);
        onLoop([&] { return m_choir->leader()->inviteToSpeak(quiet); });
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return m_choir->leader()->lastInviteOver().has_value(); }), kSoon);
        QCOMPARE(onLoop([&] { return m_choir->leader()->lastInviteOver()->why; }), wire::InviteEnd::notNow);
        QCOMPARE(onLoop([&] { return m_choir->totals().timesHeardByAll; }), std::uint64_t{0});
    }

    void whoLikesToBeHeardSpeaksToAllAndEndsIt()
    {
        const PersonId steady = personAt(kSteadyHome);
        onLoop([&] { return m_choir->leader()->inviteToSpeak(steady); });
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return m_choir->homes()[kSteadyHome]->isHeardByAll(); }), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return m_listener->energy.size() == 2; }), kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(onLoop([&] { return !m_choir->homes()[kSteadyHome]->isHeardByAll(); }), kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(onLoop([&] { return m_choir->leader()->lastInviteOver()->why; }),
                                  wire::InviteEnd::ended, kSoon);
        QCOMPARE(onLoop([&] { return m_choir->totals().timesHeardByAll; }), std::uint64_t{1});
        for (const auto& [stream, energy] : onLoop([&] { return m_listener->energy; }))
            QVERIFY2(energy > 0.01, qPrintable(QString::number(energy)));
        QVERIFY(!onLoop([&] { return m_listener->notOpus; }));
    }

    void cleanupTestCase()
    {
        onLoop([&] {
            m_listening.cancel();
            if (m_listener)
                m_listener->leave();
            m_listener.reset();
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
    std::shared_ptr<Listener> m_listener;
    net::Loop::Timer m_listening;
    std::atomic<bool> m_ready = false;
};

QTEST_GUILESS_MAIN(TestChorusSound)
#include "test_chorus_sound.moc"
