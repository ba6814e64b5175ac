// One-time links, agreements, and requests that are done once.
#include "tests/server/store/store_fixture.h"

#include <SQLiteCpp/SQLiteCpp.h>

using namespace vh;
using namespace vh::store;

class TestAccess : public QObject
{
    Q_OBJECT

    static auto redeem(const LinkToken& token, std::uint8_t key, Instant when = kStart)
    {
        return [=](Tables& t) { return t.links.redeem(token, "Ruth", someKey(key), "laptop", when); };
    }

private slots:
    void aLinkEnrolsAPersonAndADeviceIntoOneRoleOnce()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto token = f.must([&](Tables& t) { return t.links.make(group, Role::leader, {}, kStart); });
        const auto ruth = f.must([&](Tables& t) { return redeem(token, 1)(t).value(); });
        QCOMPARE(ruth.name, std::string("Ruth"));
        QVERIFY(f.must([&](Tables& t) { return t.people.rolesOf(ruth.id); }) == std::vector{Role::leader});
        QCOMPARE(f.must([](Tables& t) { return t.devices.find(someKey(1))->person; }), ruth.id);
        QCOMPARE(f.refusal(redeem(token, 2)), std::string("link-used"));
        QVERIFY(!f.must([](Tables& t) { return t.devices.find(someKey(2)).has_value(); }));
        QCOMPARE(f.must([&](Tables& t) { return t.people.ofGroup(group); }).size(), std::size_t(1));
    }

    void theDeviceThatCameByALinkMayAskAgainUntilItIsRevoked()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto token = f.must([&](Tables& t) { return t.links.make(group, Role::helper, {}, kStart); });
        const auto ruth = f.must([&](Tables& t) { return redeem(token, 1)(t).value(); });
        const auto again = f.must([&](Tables& t) { return redeem(token, 1, kStart + 8 * kDay)(t).value(); });
        QCOMPARE(again.id, ruth.id);
        QCOMPARE(f.must([&](Tables& t) { return t.people.ofGroup(group); }).size(), std::size_t(1));
        QCOMPARE(f.refusal(redeem(token, 2)), std::string("link-used"));
        f.must([&](Tables& t) { return t.devices.revoke(someKey(1), kStart).has_value(); });
        QCOMPARE(f.refusal(redeem(token, 1)), std::string("link-used"));
    }

    void aLinkIsGoodForSevenDays()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto make = [&](Tables& t) { return t.links.make(group, Role::helper, {}, kStart); };
        const auto late = f.must(make);
        const auto justInTime = f.must(make);
        QCOMPARE(f.refusal(redeem(late, 1, kStart + 7 * kDay)), std::string("link-expired"));
        QCOMPARE(f.refusal(redeem(justInTime, 1, kStart + 7 * kDay - Millis{1})), std::string());
        QCOMPARE(f.refusal(redeem(randomBits128(), 2)), std::string("link-unknown"));
    }

    void aLinkThatCouldNotBeRedeemedIsStillGood()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto ada = f.person(group).id;
        f.must([&](Tables& t) { return t.devices.bind(ada, someKey(1), "laptop", kStart).has_value(); });
        const auto token = f.must([&](Tables& t) { return t.links.make(group, Role::helper, ada, kStart); });
        QCOMPARE(f.refusal(redeem(token, 1)), std::string("key-in-use"));
        QCOMPARE(f.must([&](Tables& t) { return t.people.ofGroup(group); }).size(), std::size_t(1));
        QCOMPARE(f.refusal(redeem(token, 2)), std::string());
    }

    void aLinkForSomebodyAddsToThatPerson()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto ada = f.person(group).id;
        const auto make = [&](Tables& t) { return t.links.make(group, Role::standIn, {}, kStart, ada); };
        const auto token = f.must(make);
        QCOMPARE(f.must([&](Tables& t) { return redeem(token, 1)(t).value().id; }), ada);
        QVERIFY(f.must([&](Tables& t) { return t.people.rolesOf(ada); }) ==
                (std::vector{Role::participant, Role::standIn}));
        const auto second = f.must(make);
        f.must([&](Tables& t) { return t.people.remove(ada, kStart).has_value(); });
        QCOMPARE(f.refusal(redeem(second, 2)), std::string("person-unknown"));
    }

    void theTokenItselfIsNotInTheFile()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto token = f.must([&](Tables& t) { return t.links.make(group, Role::leader, {}, kStart); });
        f.store.reset();
        QFile file(QString::fromStdString(f.options.file.string()));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray content = file.readAll();
        const Hash hash = sha256(token.bytes);
        const auto has = [&](const auto& bytes) {
            return content.contains(QByteArray(reinterpret_cast<const char*>(bytes.data()), qsizetype(bytes.size())));
        };
        QVERIFY(has(hash));
        QVERIFY(!has(token.bytes));
    }

    void theMostPrivateAnswerHoldsUntilAnother()
    {
        StoreFixture f;
        const auto ada = f.person(f.group().id).id;
        const auto value = [&](AgreementKind kind) {
            return f.must([&](Tables& t) { return t.agreements.valueOf(ada, kind); });
        };
        QCOMPARE(value(AgreementKind::levelVisible), std::string("nobody"));
        QCOMPARE(value(AgreementKind::addressed), std::string("not"));
        for (const auto kind : {AgreementKind::resultsKept, AgreementKind::otherLeaders, AgreementKind::attendanceNamed,
                                AgreementKind::practiceToLeader, AgreementKind::nameSeen, AgreementKind::pictures,
                                AgreementKind::mayRing})
            QCOMPARE(value(kind), std::string("no"));
        const auto say = [&](AgreementKind kind, const char* answer, int version) {
            return [=](Tables& t) {
                return t.agreements.add({ada, kind, answer, version, someKey(1), kStart + Millis{version}});
            };
        };
        QCOMPARE(f.refusal(say(AgreementKind::levelVisible, "leader", 1)), std::string());
        QCOMPARE(f.refusal(say(AgreementKind::levelVisible, "nobody", 2)), std::string());
        QCOMPARE(f.refusal(say(AgreementKind::resultsKept, "yes", 3)), std::string());
        QCOMPARE(f.refusal(say(AgreementKind::resultsKept, "perhaps", 4)), std::string("value-unknown"));
        QCOMPARE(value(AgreementKind::levelVisible), std::string("nobody"));
        const auto current = f.must([&](Tables& t) { return t.agreements.current(ada); });
        QCOMPARE(current.size(), std::size_t(2));
        QCOMPARE(current[0].wordingVersion, 2);
        QVERIFY(current[0].device == someKey(1));
        QCOMPARE(f.must([&](Tables& t) { return t.agreements.history(ada); }).size(), std::size_t(3));
    }

    void agreementsAreNeverChangedAndGoOnlyWithTheirPerson()
    {
        StoreFixture f;
        const auto ada = f.person(f.group().id).id;
        f.must([&](Tables& t) {
            return t.agreements.add({ada, AgreementKind::mayRing, "yes", 1, std::nullopt, kStart}).has_value();
        });
        SQLite::Database raw(f.options.file.string(), SQLite::OPEN_READWRITE, 1000);
        raw.exec("PRAGMA foreign_keys = ON");
        QVERIFY_EXCEPTION_THROWN(raw.exec("UPDATE agreements SET value = 'no'"), SQLite::Exception);
        QVERIFY_EXCEPTION_THROWN(raw.exec("DELETE FROM agreements"), SQLite::Exception);
        QCOMPARE(raw.execAndGet("SELECT value FROM agreements").getString(), std::string("yes"));
        f.must([&](Tables& t) { return t.people.erase(ada).has_value(); });
        QCOMPARE(raw.execAndGet("SELECT count(*) FROM agreements").getInt(), 0);
    }

    void theSameRequestIsDoneOnceAndAnsweredAlike()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto ada = f.person(group).id;
        const auto eve = f.person(group, "Eve").id;
        const auto request = RequestId::random();
        int done = 0;
        const auto ask = [&](PersonId who, std::string_view payload) {
            return f.store->run([&, who, payload](Tables& t) -> Result<OnceAnswer> {
                return t.once(who, request, sha256(payload), kStart,
                              [&]() -> Result<std::string> { return "answer " + std::to_string(++done); });
            });
        };
        const auto first = ask(ada, "hello");
        QVERIFY(first && !first->again);
        const auto again = ask(ada, "hello");
        QVERIFY(again && again->again);
        QCOMPARE(again->answer, std::string("answer 1"));
        QCOMPARE(ask(ada, "goodbye").error().code, std::string("conflict"));
        QCOMPARE(ask(eve, "hello")->answer, std::string("answer 2")); // ids belong to their person
        QCOMPARE(done, 2);
        f.reopen();
        QCOMPARE(ask(ada, "hello")->answer, std::string("answer 1"));
    }

    void aRequestThatFailedMayBeAskedAgain()
    {
        StoreFixture f;
        const auto ada = f.person(f.group().id).id;
        const auto request = RequestId::random();
        bool ready = false;
        const auto ask = [&](Tables& t) -> Result<OnceAnswer> {
            return t.once(ada, request, sha256("x"), kStart, [&]() -> Result<std::string> {
                if (!ready)
                    return fail("not-yet", "Not yet.");
                return "done";
            });
        };
        QCOMPARE(f.refusal(ask), std::string("not-yet"));
        ready = true;
        QCOMPARE(f.refusal(ask), std::string());
    }

    // FIPS 180-4's examples (NIST CSRC, "SHA256.pdf"): "abc".
    void hashesAreSha256()
    {
        const Hash hash = sha256("abc");
        QCOMPARE(QByteArray(reinterpret_cast<const char*>(hash.data()), 32).toHex(),
                 QByteArray("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"));
    }
};

QTEST_APPLESS_MAIN(TestAccess)
#include "test_access.moc"
