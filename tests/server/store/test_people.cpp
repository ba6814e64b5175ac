#include "tests/server/store/store_fixture.h"

#include <SQLiteCpp/SQLiteCpp.h>

using namespace vh;
using namespace vh::store;

class TestPeople : public QObject
{
    Q_OBJECT
private slots:
    void groupsAreFoundByTheirCodeAndTheOldCodeIsDead()
    {
        StoreFixture f;
        const auto group = f.group();
        QCOMPARE(f.must([&](Tables& t) { return t.groups.byCode(group.code)->id; }), group.id);
        const auto code = f.must([&](Tables& t) { return t.groups.renewCode(group.id).value(); });
        QVERIFY(code != group.code);
        QVERIFY(!f.must([&](Tables& t) { return t.groups.byCode(group.code).has_value(); }));
        QCOMPARE(f.refusal([](Tables& t) { return t.groups.renewCode(GroupId::random()); }),
                 std::string("group-unknown"));
        const Retention keep{7, 8, 9, 10};
        f.must([&](Tables& t) { return t.groups.setRetention(group.id, keep).has_value(); });
        QVERIFY(f.must([&](Tables& t) { return t.groups.byId(group.id)->retention; }) == keep);
        QCOMPARE(f.must([](Tables& t) { return t.groups.all(); }).size(), std::size_t(1));
    }

    void newPeopleTakeTheLowestFreeSeat()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto other = f.group("Monday").id;
        std::vector<PersonRow> people;
        for (int i = 0; i < 4; ++i) {
            people.push_back(f.person(group));
            QCOMPARE(people.back().seat, std::optional<int>(i));
        }
        QCOMPARE(f.person(other).seat, std::optional<int>(0));
        for (const int leaving : {2, 0})
            f.must([&](Tables& t) { return t.people.remove(people[size_t(leaving)].id, kStart).has_value(); });
        QCOMPARE(f.person(group).seat, std::optional<int>(0));
        QCOMPARE(f.person(group).seat, std::optional<int>(2));
        QCOMPARE(f.person(group).seat, std::optional<int>(4));
        QCOMPARE(f.must([&](Tables& t) { return t.people.byId(people[3].id)->seat; }), std::optional<int>(3));
        QCOMPARE(f.refusal([](Tables& t) { return t.people.add(GroupId::random(), "Ada", Role::participant, kStart); }),
                 std::string("group-unknown"));
    }

    void somebodyRemovedHasNoSeatAndNoWorkingDevice()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto ada = f.person(group).id;
        f.must([&](Tables& t) { return t.devices.bind(ada, someKey(1), "laptop", kStart).has_value(); });
        f.must([&](Tables& t) { return t.people.remove(ada, kStart + kDay).has_value(); });
        const auto row = f.must([&](Tables& t) { return *t.people.byId(ada); });
        QVERIFY(!row.seat);
        QVERIFY(row.removedAt == kStart + kDay);
        QVERIFY(f.must([](Tables& t) { return t.devices.find(someKey(1))->revokedAt.has_value(); }));
        QVERIFY(f.must([&](Tables& t) { return t.people.ofGroup(group); }).empty());
        QCOMPARE(f.refusal([&](Tables& t) { return t.people.remove(ada, kStart); }), std::string("person-unknown"));
        QCOMPARE(f.refusal([](Tables& t) { return t.people.rename(PersonId::random(), "Eve"); }),
                 std::string("person-unknown"));
    }

    void rolesAreGrantedOnceAndWithdrawn()
    {
        StoreFixture f;
        const auto ada = f.person(f.group().id, "Ada", Role::leader).id;
        const auto roles = [&](Tables& t) { return t.people.rolesOf(ada); };
        f.must([&](Tables& t) {
            t.people.grant(ada, Role::standIn);
            t.people.grant(ada, Role::standIn);
            return true;
        });
        QVERIFY(f.must(roles) == (std::vector{Role::leader, Role::standIn}));
        f.must([&](Tables& t) {
            t.people.withdraw(ada, Role::leader);
            return true;
        });
        QVERIFY(f.must(roles) == std::vector{Role::standIn});
    }

    void bandsAndContactsAreReplaced()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto ada = f.person(group).id;
        const auto leader = f.person(group, "Lea", Role::leader).id;
        QVERIFY(!f.must([&](Tables& t) { return t.people.bandOf(ada).has_value(); }));
        f.must([&](Tables& t) {
            for (const int offset : {-20, 15})
                t.people.setBand({ada, offset, leader, kStart});
            for (const char* where : {"at home", "at her sister's"})
                t.people.setContact({ada, where, "Ruth, 555 0101", kStart});
            return true;
        });
        QCOMPARE(f.must([&](Tables& t) { return t.people.bandOf(ada)->offsetTenthsDb; }), 15);
        QCOMPARE(f.must([&](Tables& t) { return t.people.contactOf(ada)->whereabouts; }),
                 std::string("at her sister's"));
        f.must([&](Tables& t) { return t.people.erase(leader).has_value(); });
        QVERIFY(f.must([&](Tables& t) { return t.people.bandOf(ada)->setBy.isNull(); }));
    }

    void aKeyBelongsToOnePersonAndIsRevokedAndRestored()
    {
        StoreFixture f;
        const auto group = f.group().id;
        const auto ada = f.person(group).id;
        const auto eve = f.person(group, "Eve").id;
        const auto bind = [](PersonId who) {
            return [who](Tables& t) { return t.devices.bind(who, someKey(1), "laptop", kStart); };
        };
        QCOMPARE(f.refusal(bind(ada)), std::string());
        QCOMPARE(f.refusal(bind(eve)), std::string("key-in-use"));
        f.must([](Tables& t) {
            t.devices.seen(someKey(1), kStart + kDay);
            return t.devices.revoke(someKey(1), kStart + kDay).has_value();
        });
        auto device = f.must([](Tables& t) { return *t.devices.find(someKey(1)); });
        QCOMPARE(device.person, ada);
        QVERIFY(device.lastSeen == kStart + kDay && device.revokedAt == kStart + kDay);
        f.must([](Tables& t) { return t.devices.restore(someKey(1)).has_value(); });
        QVERIFY(!f.must([&](Tables& t) { return t.devices.ofPerson(ada); }).front().revokedAt);
        QCOMPARE(f.refusal([](Tables& t) { return t.devices.revoke(someKey(9), kStart); }),
                 std::string("device-unknown"));
        QCOMPARE(f.refusal([](Tables& t) { return t.devices.restore(someKey(9)); }), std::string("device-unknown"));
    }
};

QTEST_APPLESS_MAIN(TestPeople)
#include "test_people.moc"
