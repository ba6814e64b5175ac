#include "common/live/share.h"

#include <QtTest>

#include <set>

using namespace vh;

Q_DECLARE_METATYPE(vh::Viewer)
Q_DECLARE_METATYPE(vh::LevelVisible)
Q_DECLARE_METATYPE(std::optional<vh::Standing>)

namespace
{

constexpr PersonNow kJudged{true, false, Standing::below};
constexpr PersonNow kResting{true, true, Standing::below};
constexpr PersonNow kAway{false, true, Standing::below};

} // namespace

class TestShare : public QObject
{
    Q_OBJECT
private slots:
    void beforeAnyAnswerEverythingIsNo()
    {
        const Agreements none;
        QCOMPARE(valueOf(none, AgreementKind::levelVisible), std::string_view("nobody"));
        QCOMPARE(valueOf(none, AgreementKind::addressed), std::string_view("not"));
        for (const auto kind : kAgreementKinds) {
            if (kind != AgreementKind::levelVisible && kind != AgreementKind::addressed)
                QCOMPARE(valueOf(none, kind), std::string_view("no"));
        }
        QVERIFY(!readingsGoUp(none));
        QVERIFY(!resultsGoUp(none));
        QVERIFY(!mayAddress(none, WordKind::kind));
        QVERIFY(!nameShownTo(Viewer::participant, none));
        QCOMPARE(*standingFor(Viewer::leader, none, kJudged), Standing::private_);
        QVERIFY(!standingFor(Viewer::helper, none, kJudged));
    }

    void whoSeesWhichStanding_data()
    {
        QTest::addColumn<Viewer>("viewer");
        QTest::addColumn<LevelVisible>("visible");
        QTest::addColumn<std::optional<Standing>>("judged");
        QTest::addColumn<std::optional<Standing>>("resting");
        QTest::addColumn<std::optional<Standing>>("away");
        using S = std::optional<Standing>;
        const auto row = [](const char* name, Viewer viewer, LevelVisible visible, S judged, S resting, S away) {
            QTest::newRow(name) << viewer << visible << judged << resting << away;
        };
        using enum Viewer;
        const S all[] = {Standing::below, Standing::resting, Standing::away};
        const S none;
        row("the person, nobody else", self, LevelVisible::nobody, all[0], all[1], all[2]);
        row("the leader, not agreed", leader, LevelVisible::nobody, Standing::private_, all[1], all[2]);
        row("the leader, agreed", leader, LevelVisible::leader, all[0], all[1], all[2]);
        row("the leader, agreed to helpers too", leader, LevelVisible::leaderAndHelpers, all[0], all[1], all[2]);
        row("a helper, not agreed", helper, LevelVisible::nobody, none, none, none);
        row("a helper, agreed to the leader", helper, LevelVisible::leader, none, none, none);
        row("a helper, agreed", helper, LevelVisible::leaderAndHelpers, all[0], all[1], all[2]);
        row("a stand-in gets the place, never levels", standIn, LevelVisible::leaderAndHelpers, none, none, none);
        row("other participants never", participant, LevelVisible::leaderAndHelpers, none, none, none);
        row("a viewer that is not known", static_cast<Viewer>(9), LevelVisible::leaderAndHelpers, none, none, none);
    }
    void whoSeesWhichStanding()
    {
        QFETCH(Viewer, viewer);
        QFETCH(LevelVisible, visible);
        QFETCH(std::optional<Standing>, judged);
        QFETCH(std::optional<Standing>, resting);
        QFETCH(std::optional<Standing>, away);
        Agreements agreements;
        agreements.levelVisible = visible;
        QVERIFY(standingFor(viewer, agreements, kJudged) == judged);
        QVERIFY(standingFor(viewer, agreements, kResting) == resting);
        QVERIFY(standingFor(viewer, agreements, kAway) == away);
    }

    void readingsLeaveTheHomeOnlyForSomebodyWhoMaySeeThem()
    {
        Agreements agreements;
        agreements.resultsKept = true;
        QVERIFY(!readingsGoUp(agreements));
        QVERIFY(resultsGoUp(agreements));
        agreements = {};
        agreements.levelVisible = LevelVisible::leader;
        QVERIFY(readingsGoUp(agreements));
        QVERIFY(resultsGoUp(agreements));
    }

    void peopleAreAddressedAsTheyAgreed()
    {
        Agreements agreements;
        agreements.addressed = Addressed::kind;
        QVERIFY(mayAddress(agreements, WordKind::kind));
        QVERIFY(!mayAddress(agreements, WordKind::prompt));
        agreements.addressed = Addressed::prompts;
        QVERIFY(mayAddress(agreements, WordKind::kind));
        QVERIFY(mayAddress(agreements, WordKind::prompt));
    }

    void namesAreSeenByThoseWhoWorkWithThem()
    {
        Agreements agreements;
        QVERIFY(nameShownTo(Viewer::leader, agreements));
        QVERIFY(nameShownTo(Viewer::helper, agreements));
        QVERIFY(!nameShownTo(Viewer::participant, agreements));
        agreements.nameSeen = true;
        QVERIFY(nameShownTo(Viewer::participant, agreements));
    }

    void everyValueGoesInAndComesOutByName()
    {
        std::set<std::string_view> names;
        for (const auto kind : kAgreementKinds) {
            names.insert(nameOf(kind));
            QCOMPARE(*agreementKindOf(nameOf(kind)), kind);
            int values = 0;
            for (const std::string_view value :
                 {"nobody", "leader", "leader-and-helpers", "not", "kind", "prompts", "no", "yes"}) {
                Agreements agreements;
                const bool taken = setValue(agreements, kind, value);
                QCOMPARE(agreements == Agreements{}, !taken || value == "nobody" || value == "not" || value == "no");
                if (!taken)
                    continue;
                ++values;
                QCOMPARE(valueOf(agreements, kind), value);
                for (const auto other : kAgreementKinds) {
                    if (other != kind)
                        QCOMPARE(valueOf(agreements, other), valueOf(Agreements{}, other)); // each by itself
                }
            }
            QCOMPARE(values, kind == AgreementKind::levelVisible || kind == AgreementKind::addressed ? 3 : 2);
        }
        QCOMPARE(names.size(), kAgreementKinds.size());
        QCOMPARE(nameOf(AgreementKind::practiceToLeader), std::string_view("practice-to-leader"));
        QVERIFY(!agreementKindOf("levelVisible"));
        Agreements agreements;
        QVERIFY(!setValue(agreements, AgreementKind::pictures, ""));
        QVERIFY(!setValue(agreements, static_cast<AgreementKind>(77), "yes"));
    }
};

QTEST_APPLESS_MAIN(TestShare)
#include "test_share.moc"
