// kill -9 of the relay and of a desk, again and again, while people write, send pictures, call for help and are seen
// to: whatever was acknowledged is there once, nothing is there twice. The relay ends at exact places by turns (before
// a sync of its file, after it, before and after the answers leave: killed/end_at.cpp) and at any moment; all lines
// come back by themselves and ask again under the same ids; a desk that was killed knows nothing of what it had asked.
// 10 kills; 100 in ten sessions with VOICEHALL_LONG=1. The seed is printed; VOICEHALL_SEED repeats the script (ids and
// the machine's own timing stay as they are).
#include "server/ops/relay.h"
#include "server/store/store.h"
#include "tests/common/live/scripts.h"
#include "tests/server/hall/test_relay.h"
#include "tests/server/photos/picture_files.h"
#include "tests/stage/relay_process.h"
#include "tests/whole/killed/desk_process.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

constexpr int kHomes = 4;

store::Role kept(Role role)
{
    switch (role) {
    case Role::leader:
        return store::Role::leader;
    case Role::moderator:
        return store::Role::helper;
    default:
        return store::Role::participant;
    }
}

class KilledSession
{
public:
    explicit KilledSession(std::uint64_t seed) : m_random(seed), m_relay(m_folder.path(), {"--tls", "off"}) {}

    /// Empty when all is well.
    std::string run(int kills)
    {
        if (const std::string fault = settleIn(); !fault.empty())
            return fault;
        for (int kill = 0; kill < kills; ++kill)
            if (const std::string fault = oneLife(kill); !fault.empty())
                return fault;
        return settle();
    }

    [[nodiscard]] const Ledger& ledger() const { return m_ledger; }
    int unheard = 0; ///< requests that were done when the relay ended, and nobody knew
    int deskKills = 0;

private:
    std::uint32_t upTo(std::uint32_t most) { return std::uniform_int_distribution<std::uint32_t>(0, most)(m_random); }
    [[nodiscard]] QString file() const { return m_folder.filePath(QStringLiteral("voicehall.sqlite")); }

    Seat seat(const std::string& name, Role role)
    {
        Seat seat{0, m_group, wire::makeKeyPair(), role};
        const auto added = m_store->run([&](store::Tables& tables) -> Result<bool> {
            const auto person = tables.people.add(m_group, name, kept(role), m_clock.now());
            store::AgreementRow pictures;
            pictures.person = person.value().id;
            pictures.kind = store::AgreementKind::pictures;
            pictures.value = "yes";
            pictures.at = m_clock.now();
            if (!tables.agreements.add(pictures))
                return false;
            return tables.devices.bind(person.value().id, seat.keys.publicKey, "test", m_clock.now()).has_value();
        });
        if (!added || !*added)
            throw std::runtime_error("nobody could be added");
        return seat;
    }

    std::string settleIn()
    {
        store::StoreOptions options;
        options.file = file().toStdString();
        m_store = std::move(store::Store::open(options).store);
        m_group = m_store
                      ->run([&](store::Tables& tables) -> Result<GroupId> {
                          return tables.groups.add("Tuesday voices", m_clock.now()).id;
                      })
                      .value();
        const Seat ann = seat("Ann", Role::leader);
        const Seat kim = seat("Kim", Role::moderator);
        std::vector<Seat> homes;
        for (int home = 0; home < kHomes; ++home)
            homes.push_back(seat("Home " + std::to_string(home), Role::participant));
        for (const char* quiet : {"Quiet Bo", "Quiet Cy"})
            seat(quiet, Role::participant);
        m_store.reset();
        if (!m_relay.start())
            return "the relay does not start: " + m_relay.said().toStdString();
        m_relay.keepPort();
        openClass(ann);
        const auto sit = [&](Seat seat) {
            seat.port = m_relay.port();
            return seat;
        };
        const auto file = photos::writeJpeg(photos::grainy(260, 200, 7), 85);
        const QByteArray picture(reinterpret_cast<const char*>(file.data()), static_cast<qsizetype>(file.size()));
        if (picture.size() <= static_cast<qsizetype>(wire::kPicturePieceBytes))
            return "a picture is too small to be sent in pieces";
        m_leader = std::make_unique<LeaderActor>(sit(ann), "Ann", m_ledger, m_random());
        for (int home = 0; home < kHomes; ++home)
            m_homes.push_back(std::make_unique<HomeActor>(sit(homes[static_cast<std::size_t>(home)]),
                                                          "home " + std::to_string(home), m_ledger, m_random(),
                                                          picture));
        m_kim = kim;
        m_desk = std::make_unique<DeskProcess>(sit(kim), m_ledger);
        m_desk->start(m_random());
        m_relay.kill();
        return {};
    }

    void openClass(const Seat& ann)
    {
        net::LoopThread loop;
        TestLine line(loop.loop(), m_relay.lineOptions());
        line.hello();
        line.login(m_group, ann.keys, Role::leader);
        line.wait<wire::Welcome>();
        openSmallClass(line);
    }

    /// The relay from its start to its end, and the desk's end within it, sometimes.
    std::string oneLife(int kill)
    {
        // Of its first syncs, a few are its own start.
        const auto syncs = QString::number(1 + upTo(kill % 4 == 3 ? 6 : 60));
        const auto sends = QString::number(kill % 5 < 2 ? 0 : 1 + upTo(12));
        const bool anyMoment = kill % 5 == 4;
        const QString when = kill % 2 == 0 ? "after" : "before";
        m_relay.setVariable("VH_END_AT", anyMoment ? QString() : syncs + " " + sends + " " + when);
        m_relay.setVariable("LD_PRELOAD", VH_END_AT_LIBRARY);
        bool deskLives = kill % 3 > 0;
        const int deskEnds = static_cast<int>(20 + upTo(100));
        const int relayEnds = anyMoment ? static_cast<int>(100 + upTo(400)) : kPatienceMs;
        if (m_relay.start() || m_relay.isUp()) {
            QElapsedTimer life;
            life.start();
            while (m_relay.isUp() && life.elapsed() < relayEnds) {
                actAll();
                QTest::qWait(1);
                if (deskLives || life.elapsed() < deskEnds)
                    continue;
                deskLives = true;
                ++deskKills;
                m_desk->kill();
                m_desk->start(m_random());
            }
            if (m_relay.isUp() && !anyMoment)
                return "it did not end by itself";
            m_relay.kill();
        }
        unheard += m_ledger.doneUnheard(file());
        return {};
    }

    void actAll()
    {
        m_leader->act();
        for (const auto& home : m_homes)
            if (upTo(2) == 0)
                home->act();
    }

    /// A relay that is left alone, until everybody has an answer and everything that goes up is there.
    std::string settle()
    {
        m_relay.setVariable("LD_PRELOAD", {});
        if (!m_relay.start())
            return "the relay does not start again: " + m_relay.said().toStdString();
        m_desk->enough();
        const auto quiet = [&] {
            return m_desk->isSettled() && m_leader->isSettled() &&
                   std::all_of(m_homes.begin(), m_homes.end(), [](const auto& home) { return home->isSettled(); }) &&
                   std::none_of(m_leader->items().begin(), m_leader->items().end(),
                                [](const auto& each) { return each.second.state == wire::DeskState::goingUp; });
        };
        if (!QTest::qWaitFor(quiet, kPatienceMs))
            return "somebody has no answer";
        m_desk->kill();
        const std::string fresh = whatIsToldNow();
        if (m_relay.stop() != std::optional(0))
            return "the relay does not end in order";
        const auto gone = [&] { // all that was sent has been read
            return m_leader->isAway() &&
                   std::all_of(m_homes.begin(), m_homes.end(), [](const auto& home) { return home->isAway(); });
        };
        if (!QTest::qWaitFor(gone, kPatienceMs))
            return "somebody's line does not end";
        std::string fault = m_ledger.check(file());
        for (const auto& home : m_homes)
            if (fault.empty())
                fault = checkBoard(file(), home->board());
        if (fault.empty())
            fault = checkDesk(file(), m_leader->items());
        return fault.empty() ? fresh : fault;
    }

    /// Whoever comes in now finds each item once.
    std::string whatIsToldNow()
    {
        net::LoopThread loop;
        TestLine kim(loop.loop(), m_relay.lineOptions());
        kim.hello();
        kim.login(m_group, m_kim.keys, Role::moderator);
        const auto welcome = kim.wait<wire::Welcome>();
        kim.sync();
        std::set<std::uint64_t> desk;
        while (kim.has<wire::OnDesk>())
            for (const wire::DeskItem& item : kim.wait<wire::OnDesk>().items)
                if (!desk.insert(item.item).second)
                    return "an item is on the desk twice";
                else if (item.picture && !isThere(kim, *item.picture))
                    return "a picture at the desk has other bytes: " + item.text;
        std::set<std::uint64_t> board;
        for (const wire::BoardItem& item : welcome.board)
            if (!board.insert(item.item).second)
                return "an item is on the board twice";
            else if (item.picture && !isThere(kim, *item.picture))
                return "a picture on the board has other bytes: " + item.text;
        if ((welcome.inWindow ? welcome.inWindow->item : 0) != m_leader->inWindow())
            return "another picture is in the window than was told";
        return board.empty() ? "nothing is on the board" : std::string();
    }

    static bool isThere(TestLine& line, const wire::PictureAbout& picture)
    {
        line.say(wire::PictureAsk{picture.hash});
        const std::string frame = line.waitBinary([&](std::span<const std::uint8_t> bytes) {
            const auto part = wire::decodePart(bytes);
            return part && part->hash == picture.hash;
        });
        return wire::sha256(frame.substr(3 + picture.hash.size())) == picture.hash;
    }

    static constexpr int kPatienceMs = 30'000;
    std::mt19937_64 m_random;
    SystemClock m_clock;
    QTemporaryDir m_folder;
    GroupId m_group;
    std::unique_ptr<store::Store> m_store;
    RelayProcess m_relay;
    Ledger m_ledger;
    std::unique_ptr<LeaderActor> m_leader;
    std::vector<std::unique_ptr<HomeActor>> m_homes;
    std::unique_ptr<DeskProcess> m_desk;
    Seat m_kim;
};

std::uint64_t chosenSeed()
{
    bool given = false;
    const std::uint64_t seed = qEnvironmentVariable("VOICEHALL_SEED").toULongLong(&given);
    return given ? seed : std::random_device{}();
}

} // namespace

class TestKilledDesk : public QObject
{
    Q_OBJECT
private slots:
    void whatWasAcknowledgedIsThereOnceAndNothingTwice()
    {
        constexpr int kKills = 10;
        const int sessions = qEnvironmentVariableIntValue("VOICEHALL_LONG") == 1 ? 10 : 1;
        std::uint64_t seed = chosenSeed();
        for (int session = 0; session < sessions; ++session, ++seed) {
            KilledSession people(seed);
            std::string fault;
            try {
                fault = people.run(kKills);
            } catch (const std::exception& error) {
                fault = error.what();
            }
            qInfo("seed %llu: %d kills of the relay, %d of the desk; %d requests done that nobody had heard of; "
                  "acknowledged: %s",
                  static_cast<unsigned long long>(seed), kKills, people.deskKills, people.unheard,
                  people.ledger().summary().c_str());
            QVERIFY2(fault.empty(), fault.c_str());
            QVERIFY(people.ledger().acknowledgedCount() > 50);
            QVERIFY2(people.unheard > 0, "no kill came between the file and the answer");
        }
    }
};

int main(int argc, char** argv)
{
    if (argc > 1 && std::strcmp(argv[1], kDeskArgument) == 0)
        return runDesk(argc, argv);
    QCoreApplication app(argc, argv);
    TestKilledDesk test;
    return QTest::qExec(&test, argc, argv);
}
#include "test_killed_desk.moc"
