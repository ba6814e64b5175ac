#include "tests/server/store/store_fixture.h"

using namespace vh;
using namespace vh::store;

class TestClasses : public QObject
{
    Q_OBJECT

    std::unique_ptr<StoreFixture> m_f;
    GroupId m_group;
    PersonId m_leader;
    PersonId m_ada;

private slots:
    void init()
    {
        m_f = std::make_unique<StoreFixture>();
        m_group = m_f->group().id;
        m_leader = m_f->person(m_group, "Lea", Role::leader).id;
        m_ada = m_f->person(m_group).id;
    }

    void aGroupHasOneOpenClassAtATime()
    {
        const auto open = [&](Tables& t) {
            return t.classes.open(m_group, m_leader, "Again", sha256(Bytes{'s'}), kStart);
        };
        QCOMPARE(m_f->refusal(open), std::string("part-unknown"));
        const auto first = m_f->openClass(m_group, m_leader);
        QCOMPARE(m_f->refusal(open), std::string("class-open"));
        m_f->must([&](Tables& t) { return t.classes.end(first.id, kStart + kDay).has_value(); });
        m_f->must([&](Tables& t) { return t.classes.end(first.id, kStart + 2 * kDay).has_value(); });
        QVERIFY(m_f->must([&](Tables& t) { return t.classes.byId(first.id)->endedAt; }) == kStart + kDay);
        QVERIFY(!m_f->must([&](Tables& t) { return t.classes.openOf(m_group).has_value(); }));
        QCOMPARE(m_f->refusal(open), std::string());
        QCOMPARE(m_f->must([&](Tables& t) { return t.classes.ofGroup(m_group); }).size(), std::size_t(2));
        QCOMPARE(m_f->refusal([](Tables& t) { return t.classes.end(ClassId::random(), kStart); }),
                 std::string("class-unknown"));
    }

    void partsAreStoredOnceUnderWhatTheyContain()
    {
        const Bytes picture{1, 2, 3};
        const auto put = [&](Tables& t) { return t.classes.putPart("picture", picture, kStart); };
        const Hash hash = m_f->must(put);
        QVERIFY(m_f->must(put) == hash);
        QVERIFY(hash == sha256(picture));
        const auto part = m_f->must([&](Tables& t) { return *t.classes.part(hash); });
        QVERIFY(part.bytes == picture && part.kind == "picture" && part.hash == hash);
        QVERIFY(!m_f->must([](Tables& t) { return t.classes.part(Hash{}).has_value(); }));
        QVERIFY(m_f->must([](Tables& t) { return t.classes.part(t.classes.putPart("script", {}, kStart)); })
                    ->bytes.empty());
    }

    void thePartsOfACorrectionTakeThePlaceOfTheOldOnes()
    {
        const auto row = m_f->openClass(m_group, m_leader);
        const auto put = [&](std::uint8_t what) {
            return m_f->must([&](Tables& t) { return t.classes.putPart("script", Bytes{what}, kStart); });
        };
        const std::vector<Hash> parts{put('t'), put('u')};
        m_f->must([&](Tables& t) { return t.classes.setParts(row.id, parts).has_value(); });
        QVERIFY(m_f->must([&](Tables& t) { return t.classes.byId(row.id)->script; }) == parts.front());
        const auto kept = m_f->must([&](Tables& t) { return t.classes.partsOf(row.id); });
        QVERIFY(std::ranges::is_permutation(kept, parts));
        QCOMPARE(m_f->refusal([&](Tables& t) {
            return t.classes.setParts(row.id, {parts.front(), Hash{}});
        }),
                 std::string("part-unknown"));
        QVERIFY(m_f->must([&](Tables& t) { return t.classes.partsOf(row.id); }) == kept);
        QCOMPARE(m_f->refusal([&](Tables& t) { return t.classes.setParts(ClassId::random(), parts); }),
                 std::string("class-unknown"));
    }

    void aHandoutIsKeptUntilTheNextOneAndItsPartsGoWithIt()
    {
        const auto row = m_f->openClass(m_group, m_leader);
        const Bytes first{'p', '1'};
        const Bytes second{'p'};
        const auto put = [&](const Bytes& bytes) {
            return m_f->must([&](Tables& t) { return t.classes.putPart("picture", bytes, kStart); });
        };
        const std::vector<Hash> parts{put(first), put(second)};
        const auto offer = [&](HandoutRow handout) {
            return m_f->refusal([&](Tables& t) { return t.handouts.offer(handout); });
        };
        const HandoutRow good{m_group, row.id, {}, sha256(Bytes{'x'}), 3, parts};
        HandoutRow other = good;
        other.bytes = 4;
        QCOMPARE(offer(other), std::string("handout-unfit"));
        other = good;
        other.group = m_f->group("Another group").id;
        QCOMPARE(offer(other), std::string("class-unknown"));
        other = good;
        other.parts.push_back(Hash{});
        QCOMPARE(offer(other), std::string("part-unknown"));
        QVERIFY(!m_f->must([&](Tables& t) { return t.handouts.ofGroup(m_group).has_value(); }));
        QCOMPARE(offer(good), std::string());
        m_f->reopen();
        const auto stored = m_f->must([&](Tables& t) { return *t.handouts.ofGroup(m_group); });
        QVERIFY(stored.parts == parts && stored.hash == good.hash && stored.classId == row.id && stored.bytes == 3);
        QCOMPARE(stored.title, std::string("Weather"));
        m_f->must([](Tables& t) { return t.sweep(kStart + 3 * kDay); });
        QVERIFY(m_f->must([&](Tables& t) { return t.classes.part(parts[1]).has_value(); }));
        m_f->must([&](Tables& t) { return t.handouts.drop(m_group), true; });
        m_f->must([](Tables& t) { return t.sweep(kStart + 3 * kDay); });
        QVERIFY(!m_f->must([&](Tables& t) { return t.classes.part(parts[1]).has_value(); }));
    }

    void placesOnlyGoForward()
    {
        const auto row = m_f->openClass(m_group, m_leader);
        const auto put = [&](std::int64_t revision) {
            return m_f->refusal([&](Tables& t) {
                return t.classes.putPlace({row.id, revision, 3, Bytes{std::uint8_t(revision)}, kStart});
            });
        };
        QVERIFY(!m_f->must([&](Tables& t) { return t.classes.latestPlace(row.id).has_value(); }));
        QCOMPARE(put(1), std::string());
        QCOMPARE(put(5), std::string());
        QCOMPARE(put(5), std::string("stale-revision"));
        QCOMPARE(put(4), std::string("stale-revision"));
        m_f->reopen();
        const auto latest = m_f->must([&](Tables& t) { return *t.classes.latestPlace(row.id); });
        QCOMPARE(latest.revision, std::int64_t(5));
        QCOMPARE(latest.leaseEpoch, std::int64_t(3));
        QVERIFY(latest.state == Bytes{5});
        QCOMPARE(m_f->must([&](Tables& t) { return t.classes.places(row.id); }).size(), std::size_t(2));
        QCOMPARE(m_f->refusal([](Tables& t) {
            return t.classes.putPlace({ClassId::random(), 1, 1, {}, kStart});
        }),
                 std::string("class-unknown"));
    }

    void attendanceKeepsTheFirstArrivalAndTheLastLeaving()
    {
        const auto row = m_f->openClass(m_group, m_leader);
        m_f->must([&](Tables& t) {
            t.classes.arrived({row.id, m_ada, "Ada", kStart, std::nullopt, false});
            t.classes.left(row.id, m_ada, kStart + Millis{1000});
            t.classes.arrived({row.id, m_ada, "Ada", kStart + Millis{2000}, std::nullopt, false});
            t.classes.arrived({row.id, std::nullopt, "Otto, by telephone", kStart + Millis{1}, std::nullopt, true});
            t.classes.arrived({row.id, std::nullopt, "", kStart + Millis{2}, std::nullopt, false});
            t.classes.arrived({row.id, std::nullopt, "", kStart + Millis{3}, std::nullopt, false});
            return true;
        });
        auto list = m_f->must([&](Tables& t) { return t.classes.attendance(row.id); });
        QCOMPARE(list.size(), std::size_t(4));
        QVERIFY(list[0].person == m_ada && list[0].arrivedAt == kStart && !list[0].leftAt);
        QVERIFY(list[1].byHand && list[1].name == "Otto, by telephone" && !list[1].person);
        m_f->must([&](Tables& t) {
            t.classes.left(row.id, m_ada, kStart + Millis{9000});
            return true;
        });
        list = m_f->must([&](Tables& t) { return t.classes.attendance(row.id); });
        QVERIFY(list[0].leftAt == kStart + Millis{9000});
    }

    void turnResultsKeepABlankAsABlank()
    {
        const auto row = m_f->openClass(m_group, m_leader);
        TurnResultRow result{m_ada, row.id, 1, "phrases", Millis{4200}, 43, "inBand", "", 1, kStart};
        m_f->must([&](Tables& t) {
            t.results.put(result);
            result.leqOverUsualTenthsDb = 51;
            t.results.put(result); // the same turn, sent again by a newer judge
            t.results.put({m_ada, row.id, 2, "phrases", Millis{0}, std::nullopt, "cantTell", "noise", 1, kStart});
            return true;
        });
        const auto results = m_f->must([&](Tables& t) { return t.results.ofPerson(m_ada); });
        QCOMPARE(results.size(), std::size_t(2));
        QVERIFY(results[0].leqOverUsualTenthsDb == 51 && results[0].voiced == Millis{4200});
        QVERIFY(!results[1].leqOverUsualTenthsDb && results[1].blank == "noise" && results[1].standing == "cantTell");
        QCOMPARE(m_f->must([&](Tables& t) { return t.results.ofClass(row.id); }).size(), std::size_t(2));
        m_f->must([&](Tables& t) {
            t.results.eraseOf(m_ada);
            return true;
        });
        QVERIFY(m_f->must([&](Tables& t) { return t.results.ofPerson(m_ada); }).empty());
    }

    void aHallFindsEverythingAfterARestart()
    {
        const auto row = m_f->openClass(m_group, m_leader);
        m_f->must([&](Tables& t) {
            (void)t.devices.bind(m_ada, someKey(1), "laptop", kStart);
            (void)t.agreements.add({m_ada, AgreementKind::nameSeen, "yes", 1, std::nullopt, kStart});
            t.people.setBand({m_ada, -10, m_leader, kStart});
            (void)t.classes.putPlace({row.id, 7, 2, Bytes{9}, kStart});
            for (const auto state : {BoardState::shown, BoardState::held, BoardState::shown, BoardState::shown}) {
                BoardRow item;
                item.group = m_group;
                item.author = m_ada;
                item.state = state;
                item.text = "hello";
                t.board.add(item);
            }
            CallRow call;
            call.group = m_group;
            call.person = m_ada;
            t.calls.add(call);
            return true;
        });
        m_f->reopen();
        const auto hall = m_f->must([&](Tables& t) { return t.loadHall(m_group, 2, Instant{}).value(); });
        QCOMPARE(hall.group.id, m_group);
        QCOMPARE(hall.people.size(), std::size_t(2));
        const PersonState& ada = hall.people[1];
        QVERIFY(ada.person.id == m_ada && ada.devices.size() == 1 && ada.agreements.size() == 1);
        QVERIFY(ada.band && ada.band->offsetTenthsDb == -10);
        QVERIFY(ada.roles == std::vector{Role::participant});
        QVERIFY(hall.openClass && hall.openClass->id == row.id);
        QVERIFY(hall.place && hall.place->revision == 7);
        QCOMPARE(hall.board.size(), std::size_t(2));
        QCOMPARE(hall.desk.size(), std::size_t(1));
        QCOMPARE(hall.calls.size(), std::size_t(1));
        QCOMPARE(hall.boardChange, hall.board.back().change);
        QCOMPARE(m_f->refusal([](Tables& t) { return t.loadHall(GroupId::random(), 1, Instant{}); }),
                 std::string("group-unknown"));
    }
};

QTEST_APPLESS_MAIN(TestClasses)
#include "test_classes.moc"
