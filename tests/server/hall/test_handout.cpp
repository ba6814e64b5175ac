// The day's handout: offered for the open class, there for everybody who is in, until the next class opens.
#include "common/base/base64.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

std::string fileOf(std::size_t bytes)
{
    std::string file = "%PDF-1.4\n";
    while (file.size() < bytes)
        file += static_cast<char>('a' + file.size() % 23);
    return file;
}

void put(TestLine& leader, const std::string& bytes)
{
    leader.acked(wire::PartPut{RequestId::random(), wire::sha256(bytes),
                               base64Of({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()})});
}

/// Its parts put, and what to say to offer it.
wire::OfferHandout published(TestLine& leader, ClassId id, const std::string& file)
{
    wire::OfferHandout offer{RequestId::random(), id, static_cast<std::uint32_t>(file.size()), wire::sha256(file), {}};
    for (std::size_t at = 0; at < file.size(); at += wire::kPartPutBytes) {
        put(leader, file.substr(at, wire::kPartPutBytes));
        offer.parts.push_back(wire::sha256(file.substr(at, wire::kPartPutBytes)));
    }
    return offer;
}

std::string fetched(TestLine& line, const wire::HandoutNow& handout)
{
    std::string file;
    for (const wire::Hash& part : handout.parts) {
        line.say(wire::PartAsk{part});
        const std::string frame = line.waitBinary([&](auto bytes) {
            const auto came = wire::decodePart(bytes);
            return came && came->hash == part;
        });
        file += frame.substr(35);
    }
    return file;
}

} // namespace

class TestHandout : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_opened = openSmallClass(*m_ann.line);
    }
    void cleanup()
    {
        m_ann = {};
        m_bo = {};
        m_relay.reset();
    }

    void anOfferedHandoutReachesEverybodyWhoIsIn()
    {
        QVERIFY(!m_bo.welcome.handout);
        const std::string file = fileOf(2 * wire::kPartPutBytes + 1000);
        m_ann->acked(published(*m_ann.line, m_opened.id, file));
        const auto handout = m_bo->wait<wire::HandoutNow>();
        QVERIFY(handout.classId == m_opened.id);
        QCOMPARE(handout.bytes, static_cast<std::uint32_t>(file.size()));
        QCOMPARE(handout.parts.size(), std::size_t(3));
        QVERIFY(handout.seq > 0);
        QCOMPARE(fetched(*m_bo.line, handout), file);
        QVERIFY(wire::sha256(file) == handout.hash);
        const Visitor late = m_relay->enrol(m_group, Role::participant, "Cy");
        QVERIFY(late.welcome.handout && late.welcome.handout->hash == handout.hash);
        QCOMPARE(late.welcome.handout->title, late.welcome.open->title);
    }

    void itStaysAfterTheClassAndAfterARestartUntilTheNextClassOpens()
    {
        const std::string file = fileOf(5000);
        m_ann->acked(published(*m_ann.line, m_opened.id, file));
        const auto end = [this](std::uint32_t lease) { press(*m_ann.line, CommandKind::end, lease, 0); };
        end(m_opened.lease);
        m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::ended; });
        m_relay->settle();
        QCOMPARE(fetched(*m_bo.line, m_bo->wait<wire::HandoutNow>()), file);
        m_relay->restart();
        m_bo = m_relay->again(m_bo);
        m_ann = m_relay->again(m_ann);
        QVERIFY(!m_bo.welcome.open);
        QVERIFY(m_bo.welcome.handout);
        QCOMPARE(fetched(*m_bo.line, *m_bo.welcome.handout), file);
        const wire::Hash part = m_bo.welcome.handout->parts.front();
        openSmallClass(*m_ann.line);
        m_bo->wait<wire::ClassOpen>();
        m_bo->say(wire::PartAsk{part});
        QCOMPARE(m_bo->wait<wire::Refused>().code, std::string("part-unknown"));
        QVERIFY(!m_relay->again(m_bo).welcome.handout);
    }

    void aSecondOneTakesThePlaceOfTheFirst()
    {
        m_ann->acked(published(*m_ann.line, m_opened.id, fileOf(5000)));
        const auto first = m_bo->wait<wire::HandoutNow>();
        m_ann->acked(published(*m_ann.line, m_opened.id, fileOf(6000)));
        const auto second = m_bo->wait<wire::HandoutNow>();
        QVERIFY(second.hash != first.hash && second.seq > first.seq);
        QCOMPARE(fetched(*m_bo.line, second), fileOf(6000));
        m_bo->say(wire::PartAsk{first.parts.front()});
        QCOMPARE(m_bo->wait<wire::Refused>().code, std::string("part-unknown"));
    }

    void whatDoesNotMakeAHandoutIsRefused()
    {
        wire::OfferHandout offer = published(*m_ann.line, m_opened.id, fileOf(5000));
        const auto refusal = [&](auto change) {
            wire::OfferHandout changed = offer;
            changed.id = RequestId::random();
            change(changed);
            return m_ann->refused(changed).code;
        };
        QCOMPARE(refusal([](auto& o) { o.parts.clear(); }), std::string("handout-unfit"));
        QCOMPARE(refusal([](auto& o) { o.bytes = 4999; }), std::string("handout-unfit"));
        QCOMPARE(refusal([](auto& o) { o.bytes = 0; }), std::string("handout-unfit"));
        QCOMPARE(refusal([](auto& o) { o.bytes = wire::kHandoutBytes + 1; }), std::string("handout-unfit"));
        QCOMPARE(refusal([](auto& o) { o.parts.push_back(wire::Hash{}); }), std::string("part-unknown"));
        QCOMPARE(refusal([](auto& o) { o.classId = ClassId::random(); }), std::string("no-class"));
        m_ann->acked(offer);
        press(*m_ann.line, CommandKind::end, m_opened.lease, 0);
        m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.phase == Phase::ended; });
        m_relay->settle();
        QCOMPARE(refusal([](auto&) {}), std::string("no-class"));
    }

    void aHandoutOfTheGreatestSizeComesWhole()
    {
        const std::string file = fileOf(wire::kHandoutBytes);
        m_ann->acked(published(*m_ann.line, m_opened.id, file));
        const auto handout = m_bo->wait<wire::HandoutNow>();
        QCOMPARE(handout.parts.size(), wire::kHandoutParts);
        QVERIFY(fetched(*m_bo.line, handout) == file);
    }

    void onlyALeaderOffersAndOnlyWhoIsInFetches()
    {
        const wire::OfferHandout offer = published(*m_ann.line, m_opened.id, fileOf(5000));
        m_bo->say(offer);
        QVERIFY(m_bo->wasNotAllowed());
        m_ann->acked(offer);
        const Visitor other = m_relay->enrol(m_relay->addGroup("Another group"), Role::participant, "Di");
        QVERIFY(!other.welcome.handout);
        other->say(wire::PartAsk{offer.parts.front()});
        QCOMPARE(other->wait<wire::Refused>().code, std::string("no-class"));
        const auto stranger = m_relay->connect(); // no key, no agreement: not in
        stranger->hello();
        stranger->say(wire::PartAsk{offer.parts.front()});
        QVERIFY(stranger->wasNotAllowed());
        const auto atDoor = m_relay->connect();
        atDoor->hello();
        atDoor->knock(m_relay->codeOf(m_group), wire::makeKeyPair(), "Eli");
        atDoor->wait<wire::AtDoor>();
        atDoor->say(wire::PartAsk{offer.parts.front()});
        QVERIFY(atDoor->wasNotAllowed());
    }

private:
    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_bo;
    OpenedClass m_opened;
};

QTEST_GUILESS_MAIN(TestHandout)
#include "test_handout.moc"
