// Who sees how somebody stands, and what is kept of it.
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

Reading readingOf(std::uint32_t turn, float overUsualDb)
{
    Reading reading;
    reading.turnSerial = turn;
    reading.elapsedMs = 5'000;
    reading.heardMs = 3'000;
    reading.voicedMs = 3'000;
    reading.leqOverUsualDb = overUsualDb;
    reading.nowOverUsualDb = overUsualDb;
    return reading;
}

wire::TurnDone doneOf(ClassId id, std::uint32_t turn, float overUsualDb)
{
    wire::TurnDone done;
    done.id = RequestId::random();
    done.classId = id;
    done.result.reading = readingOf(turn, overUsualDb);
    done.result.around = {-60, true, false, true, Ceiling::clear};
    return done;
}

} // namespace

class TestSharing : public QObject
{
    Q_OBJECT
private slots:
    void init()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        const OpenedClass opened = openSmallClass(*m_ann.line);
        m_class = opened.id;
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const wire::Ack onWords = press(*m_ann.line, CommandKind::goOn, opened.lease, *started.serial);
        m_lease = opened.lease;
        m_serial = *onWords.serial;
        // From the listen turn by the clock to the turn that is theirs: listen 4, ready 2, with me 4.
        m_relay->clock.advance(Millis{10'000});
        m_ann->say(wire::Leading{m_lease});
        const auto yours = m_bo->wait<wire::PlaceNow>([](const auto& now) { return now.place.turn == 3; });
        m_turn = yours.turnSerial;
        letDeskSee(true);
    }
    void cleanup()
    {
        m_ann = {};
        m_kim = {};
        m_bo = {};
        m_relay.reset();
    }

    void aReadingIsDroppedUntilTheAgreementIsOnDisk()
    {
        m_bo->sayBinary(wire::encodeReading(readingOf(m_turn, 9)));
        m_bo->sync();
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_bo->sayBinary(wire::encodeReading(readingOf(m_turn, 4.5F)));
        const auto seen = m_ann->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; });
        QCOMPARE(seen.overUsualDb, 4.5F); // the first that ever came was the one after the agreement
        QVERIFY(seen.voicedNow);
    }

    void theLeaderSeesPrivateWhereNothingWasAgreed()
    {
        m_bo->acked(doneOf(m_class, m_turn, 6));
        const auto seen = m_ann->waitStanding(seat(), [](const auto&) { return true; });
        QCOMPARE(seen.standing, Standing::private_);
        QVERIFY(!seen.hasLevel);
    }

    void aHelperNeverSeesALevelThatIsForTheLeaderOnly()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::inBand; });
        // Somebody else's change, which the helper does see, comes in a later frame.
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        agree(*cy.line, AgreementKind::levelVisible, "leader-and-helpers");
        cy->acked(doneOf(m_class, m_turn, 6));
        m_kim->waitStanding(cy.welcome.seat, [](const auto& entry) { return entry.standing == Standing::inBand; });
        for (const auto& entry : m_kim->standingsSeen(seat())) {
            QCOMPARE(entry.standing, Standing::private_);
            QVERIFY(!entry.hasLevel && !entry.voicedNow);
        }
        QVERIFY(cy->standingsSeen(seat()).empty()); // and a participant sees nobody's
    }

    void aHelperDoesNotLearnWhenSomebodySharesWithTheLeader()
    {
        m_kim->waitStanding(seat(), [](const auto&) { return true; });
        const std::size_t before = m_kim->standingsSeen(seat()).size();
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; });
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        m_kim->waitStanding(cy.welcome.seat, [](const auto&) { return true; }); // a later frame has come
        QCOMPARE(m_kim->standingsSeen(seat()).size(), before);
    }

    void withoutTheLeadersLeaveTheDeskSeesNobodysLevel()
    {
        letDeskSee(false);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader-and-helpers");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::inBand; });
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        m_kim->waitStanding(cy.welcome.seat, [](const auto&) { return true; }); // a later frame has come
        for (const auto& entry : m_kim->standingsSeen(seat())) {
            QCOMPARE(entry.standing, Standing::private_);
            QVERIFY(!entry.hasLevel && !entry.voicedNow);
        }
        letDeskSee(true);
        m_kim->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; });
        letDeskSee(false);
        m_kim->waitStanding(seat(), [](const auto& entry) { return !entry.hasLevel; });
    }

    void theLeaveIsOfThisClassAndLogged()
    {
        QCOMPARE(m_kim->refused(wire::LevelsToDesk{RequestId::random(), true}).code, std::string("not-allowed"));
        QVERIFY(m_kim->wait<wire::DeskNow>([](const auto& each) { return each.levels; }).levels);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader-and-helpers");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_kim->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; });
        press(*m_ann.line, CommandKind::end, m_lease, m_serial);
        QVERIFY(!m_kim->wait<wire::DeskNow>([](const auto& each) { return !each.levels; }).levels);
        m_kim->waitStanding(seat(), [](const auto& entry) { return !entry.hasLevel; });
        QCOMPARE(m_ann->refused(wire::LevelsToDesk{RequestId::random(), true}).code, std::string("no-class"));
        m_relay->settle(); // the end is on disk
        openSmallClass(*m_ann.line);
        const Visitor lu = m_relay->enrol(m_group, Role::moderator, "Lu");
        QVERIFY(!lu->wait<wire::DeskNow>().levels);
        m_kim->say(wire::ActsAsk{});
        const auto acts = m_kim->wait<wire::Acts>().acts;
        QCOMPARE(acts.size(), std::size_t{1});
        QCOMPARE(acts.front().what, std::string("levels-shown"));
        QCOMPARE(acts.front().who, std::string("Ann"));
    }

    void theLogBelongsToItsClass()
    {
        const auto actsOf = [this](std::optional<ClassId> id) {
            m_ann->say(wire::ActsAsk{id});
            return m_ann->wait<wire::Acts>().acts.size();
        };
        press(*m_ann.line, CommandKind::end, m_lease, m_serial);
        m_relay->settle();
        m_relay->clock.advance(std::chrono::hours{2});
        m_ann->acked(wire::OpenBoard{RequestId::random(), true});
        QCOMPARE(actsOf(m_class), std::size_t{1}); // the leave for levels
        QCOMPARE(actsOf({}), std::size_t{2});
        m_relay->clock.advance(std::chrono::hours{48});
        QCOMPARE(actsOf(m_class), std::size_t{1});
        QCOMPARE(actsOf({}), std::size_t{0});
        m_ann->say(wire::ActsAsk{ClassId::random()});
        QCOMPARE(m_ann->wait<wire::Refused>().code, std::string("class-unknown"));
    }

    void theLeaveIsThereAfterARestart()
    {
        m_relay->restart();
        m_kim = m_relay->again(m_kim);
        QVERIFY(m_kim->wait<wire::DeskNow>().levels);
        m_bo = m_relay->again(m_bo);
        agree(*m_bo.line, AgreementKind::levelVisible, "leader-and-helpers");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_kim->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; });
    }

    void participantsWhoAgreeSeeEachOthersNames()
    {
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        const Visitor di = m_relay->enrol(m_group, Role::participant, "Di");
        const auto seenBy = [](TestLine& line) {
            line.say(wire::PeopleAsk{});
            return line.wait<wire::People>().names;
        };
        agree(*m_bo.line, AgreementKind::nameSeen, "yes");
        agree(*cy.line, AgreementKind::nameSeen, "yes");
        QCOMPARE(seenBy(*m_bo.line), std::vector<std::string>{"Cy"}); // neither oneself nor who did not agree
        QVERIFY(seenBy(*di.line).empty());
        agree(*di.line, AgreementKind::nameSeen, "yes");
        QCOMPARE(seenBy(*m_bo.line), (std::vector<std::string>{"Cy", "Di"}));
        agree(*cy.line, AgreementKind::nameSeen, "no"); // holds at once
        QCOMPARE(seenBy(*m_bo.line), std::vector<std::string>{"Di"});
        di->drop();
        while (!seenBy(*m_bo.line).empty()) // the relay notices
            continue;
    }

    void howABandWasMovedIsForLeadersOnly()
    {
        m_ann->acked(wire::SetBand{RequestId::random(), m_bo.welcome.person, -2});
        const auto offset = [this](TestLine& desk) {
            const auto ofBo = [this](const auto& each) { return each.seat == seat(); };
            const auto seats = desk.wait<wire::Seats>([&](const auto& each) {
                return !each.whole && std::any_of(each.seats.begin(), each.seats.end(), ofBo);
            });
            return std::find_if(seats.seats.begin(), seats.seats.end(), ofBo)->bandOffsetDb;
        };
        while (offset(*m_ann.line) != -2.0F) // the one of coming in may be before it
            continue;
        const Visitor lu = m_relay->enrol(m_group, Role::moderator, "Lu");
        const auto whole = lu->wait<wire::Seats>([](const auto& each) { return each.whole; });
        for (const auto& each : whole.seats)
            QCOMPARE(each.bandOffsetDb, 0.0F);
        QCOMPARE(offset(*m_kim.line), 0.0F);
    }

    void aStandInSeesNoStandingsEvenWhenLeading()
    {
        const Visitor stan = m_relay->enrol(m_group, Role::standIn, "Stan");
        agree(*m_bo.line, AgreementKind::levelVisible, "leader-and-helpers");
        m_relay->clock.advance(Millis{3'000});
        stan->acked(wire::TakePlace{RequestId::random()});
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::inBand; });
        m_kim->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::inBand; });
        stan->sync();
        QVERIFY(stan->standingsSeen(seat()).empty());
    }

    void aResultIsJudgedAsTheHomeJudgesIt()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        JudgeState home;
        const wire::TurnDone done = doneOf(m_class, m_turn, 1.5F);
        home = judge(home, {done.result, TurnKind::yours, SectionKind::phrases, Millis{5'000}, 0});
        QCOMPARE(home.standing, Standing::below);
        m_bo->acked(done);
        m_ann->waitStanding(seat(), [&](const auto& entry) { return entry.standing == home.standing; });
    }

    void theBandThatTheLeaderMovedCounts()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_ann->acked(wire::SetBand{RequestId::random(), m_bo.welcome.person, -2});
        QCOMPARE(m_bo->wait<wire::Band>().offsetDb, -2.0F);
        m_bo->acked(doneOf(m_class, m_turn, 1.5F));
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::inBand; });
        QCOMPARE(m_relay->again(m_bo).welcome.bandOffsetDb, -2.0F);
    }

    void aResultIsKeptOnlyIfThatWasAgreedAndOnlyOnce()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        QCOMPARE(kept().size(), std::size_t{0});
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        const wire::TurnDone done = doneOf(m_class, m_turn, 6);
        m_bo->acked(done);
        m_bo->acked(done); // the answer was lost
        const auto rows = kept();
        QCOMPARE(rows.size(), std::size_t{1});
        QCOMPARE(rows.front().leqOverUsualTenthsDb.value(), 60);
        QCOMPARE(rows.front().standing, std::string("inBand"));
        QCOMPARE(rows.front().sectionKind, std::string("phrases"));
        QVERIFY(rows.front().classId == m_class);
    }

    void resultsAreErasedWhenTheAgreementIsTakenBack()
    {
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        QCOMPARE(kept().size(), std::size_t{1});
        agree(*m_bo.line, AgreementKind::resultsKept, "no");
        QCOMPARE(kept().size(), std::size_t{0});
        m_bo->acked(doneOf(m_class, m_turn, 6));
        QCOMPARE(kept().size(), std::size_t{0});
    }

    void takingBackClearsTheScreenOfTheLeader()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; });
        const std::size_t before = m_ann->standingsSeen(seat()).size();
        agree(*m_bo.line, AgreementKind::levelVisible, "nobody");
        m_bo->acked(doneOf(m_class, m_turn, 6));
        agree(*m_bo.line, AgreementKind::levelVisible, "leader"); // so that the next frame shows something again
        m_ann->waitStanding(seat(), [&, count = std::size_t{0}](const auto& entry) mutable {
            return ++count > before && (entry.standing == Standing::private_ || entry.hasLevel);
        });
    }

    void aReadingOfAnotherTurnOrOfOtherRulesIsDropped()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        m_bo->sayBinary(wire::encodeReading(readingOf(m_turn - 1, 9)));
        Reading other = readingOf(m_turn, 9);
        other.judgeVersion = kJudgeVersion + 1;
        m_bo->sayBinary(wire::encodeReading(other));
        m_bo->sayBinary(wire::encodeReading(readingOf(m_turn, 2)));
        QCOMPARE(m_ann->waitStanding(seat(), [](const auto& entry) { return entry.hasLevel; }).overUsualDb, 2.0F);
    }

    void aReadingThatCannotBeEndsTheLine()
    {
        agree(*m_bo.line, AgreementKind::levelVisible, "leader");
        Reading longer = readingOf(m_turn, 9);
        longer.heardMs = longer.elapsedMs + 1;
        m_bo->sayBinary(wire::encodeReading(longer));
        QCOMPARE(m_bo->waitClosed().code, wire::CloseCode::policy);
        m_ann->sync(); // and no other
        for (const auto& entry : m_ann->standingsSeen(seat()))
            QVERIFY(!entry.hasLevel);
    }

    void theSummaryCountsOnlyThoseWhoShare()
    {
        agree(*m_bo.line, AgreementKind::resultsKept, "yes"); // for Bo alone
        m_bo->acked(doneOf(m_class, m_turn, 6));
        const Visitor cy = m_relay->enrol(m_group, Role::participant, "Cy");
        agree(*cy.line, AgreementKind::levelVisible, "leader");
        cy->acked(doneOf(m_class, m_turn, 6));
        press(*m_ann.line, CommandKind::end, m_lease, m_serial);
        const auto summary = m_ann->wait<wire::Summary>();
        QCOMPARE(summary.judgedTurns, 1U);
        QCOMPARE(summary.easyTurns, 1U);
    }

    void aResultLongerThanItsTurnIsNotUsed()
    {
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        wire::TurnDone done = doneOf(m_class, m_turn, 6);
        done.result.reading.elapsedMs = 7'001; // the turn has 5 s
        m_bo->acked(done);
        QCOMPARE(kept().size(), std::size_t{0});
        done = doneOf(m_class, m_turn, 6);
        done.result.reading.elapsedMs = 7'000;
        m_bo->acked(done);
        QCOMPARE(kept().size(), std::size_t{1});
    }

    void numbersThatCannotBeAreRefused()
    {
        agree(*m_bo.line, AgreementKind::resultsKept, "yes");
        wire::TurnDone loud = doneOf(m_class, m_turn, 1e30F);
        QCOMPARE(m_bo->refused(loud).code, std::string("result-impossible"));
        wire::TurnDone longer = doneOf(m_class, m_turn, 3);
        longer.result.reading.voicedMs = longer.result.reading.heardMs + 1;
        QCOMPARE(m_bo->refused(longer).code, std::string("result-impossible"));
        QCOMPARE(kept().size(), std::size_t{0});
    }

    void everyAgreementIsKeptUnderItsOwnName()
    {
        for (const AgreementKind kind : kAgreementKinds) {
            const std::string most = kind == AgreementKind::levelVisible ? "leader-and-helpers"
                                     : kind == AgreementKind::addressed  ? "prompts"
                                                                         : "yes";
            agree(*m_bo.line, kind, most);
            const auto stored = m_relay->store().run([&](store::Tables& tables) -> Result<std::string> {
                return tables.agreements.valueOf(m_bo.welcome.person, hall::toStore(kind));
            });
            QCOMPARE(stored.value(), most);
        }
        const Visitor back = m_relay->again(m_bo);
        QCOMPARE(back.welcome.agreements.size(), kAgreementKinds.size());
        QCOMPARE(back->refused(wire::Agree{RequestId::random(), AgreementKind::resultsKept, "perhaps", 1}).code,
                 std::string("value-unknown"));
    }

    void whoeverOnlyListensTodayIsShownSo()
    {
        m_bo->say(wire::Today{wire::VoiceToday::listening, false});
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::resting; });
        m_bo->drop();
        m_ann->waitStanding(seat(), [](const auto& entry) { return entry.standing == Standing::away; });
    }

private:
    [[nodiscard]] std::uint32_t seat() const { return m_bo.welcome.seat; }
    void letDeskSee(bool on) { m_ann->acked(wire::LevelsToDesk{RequestId::random(), on}); }
    [[nodiscard]] std::vector<store::TurnResultRow> kept()
    {
        return m_relay->store()
            .run([&](store::Tables& tables) -> Result<std::vector<store::TurnResultRow>> {
                return tables.results.ofPerson(m_bo.welcome.person);
            })
            .value();
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_kim;
    Visitor m_bo;
    ClassId m_class;
    std::uint32_t m_lease = 0;
    std::uint32_t m_serial = 0;
    std::uint32_t m_turn = 0;
};

QTEST_GUILESS_MAIN(TestSharing)
#include "test_sharing.moc"
