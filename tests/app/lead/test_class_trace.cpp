// Her pace in a class she led: only while the place is hers, once, and also over a correction of the script.
#include "app/lead/class_trace.h"
#include "tests/app/lead/lead_fixture.h"

#include <QtTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

namespace
{

/// Goes through the whole script by the clock; `mine` says for each turn whether she leads.
std::optional<PaceSample> goThrough(ClassTraceKeeper& keeper, const std::shared_ptr<const ClassScript>& script,
                                    const std::function<bool(const Place&)>& mine)
{
    Instant now = kStart;
    std::uint32_t serial = 1;
    std::optional<PaceSample> told;
    for (std::optional<Place> at = Place{}; at; at = nextTurn(*script, *at)) {
        const Millis length = turnAt(*script, *at)->turn->planned;
        if (keeper.see(script, placeAt(serial++, Phase::running, *at, now, length), mine(*at), now))
            qFatal("told before the end");
        now += length * 3 / 2;
    }
    for (int i = 0; i < 3; ++i) // said again, as after a lost line
        if (auto sample = keeper.see(script, placeAt(serial, Phase::ended, {}, now, {}), mine({}), now))
            told = told ? std::nullopt : sample;
    return told;
}

std::shared_ptr<const ClassScript> longScript()
{
    ClassScript script = *smallScript();
    script.sections[1].steps[0].rounds[0].turns[0].planned = Millis{120'000};
    return std::make_shared<const ClassScript>(script);
}

} // namespace

class TestClassTrace : public QObject
{
    Q_OBJECT
private slots:
    void theWholeClassIsTakenOnceAtItsEnd()
    {
        ClassTraceKeeper keeper;
        const auto sample = goThrough(keeper, longScript(), [](const Place&) { return true; });
        QVERIFY(sample.has_value());
        QCOMPARE(sample->of(SectionKind::pause, PacePart::shown).planned, Millis{120'000});
        QCOMPARE(sample->of(SectionKind::pause, PacePart::shown).actual, Millis{180'000});
    }

    void whatSomebodyElseLedSaysNothingOfHer()
    {
        ClassTraceKeeper keeper;
        const auto sample = goThrough(keeper, longScript(), [](const Place& at) { return at.section != 1; });
        QVERIFY(sample.has_value());
        QCOMPARE(sample->of(SectionKind::pause, PacePart::shown).planned, Millis{0});
        ClassTraceKeeper never;
        const auto nothing = goThrough(never, longScript(), [](const Place&) { return false; });
        QVERIFY(nothing.has_value() && nothing->empty());
    }

    void aCorrectionKeepsWhatWasBeforeIt()
    {
        ClassTraceKeeper keeper;
        const auto first = longScript();
        ClassScript changed = *first;
        changed.sections[2].steps[0].text = "Until Wednesday.";
        const auto second = std::make_shared<const ClassScript>(changed);
        const auto see = [&](const auto& script, std::uint32_t serial, Phase phase, Place place, int at) {
            return keeper.see(script, placeAt(serial, phase, place, kStart, {}), true, kStart + Millis{1000 * at});
        };
        QVERIFY(!see(first, 1, Phase::running, {1, 0, 0, 0}, 0));
        QVERIFY(!see(first, 2, Phase::running, {2, 0, 0, 0}, 130));
        QVERIFY(!see(second, 3, Phase::running, {2, 0, 0, 0}, 133));
        const auto sample = see(second, 4, Phase::ended, {2, 0, 0, 0}, 140);
        QVERIFY(sample.has_value());
        QCOMPARE(sample->of(SectionKind::pause, PacePart::shown).actual, Millis{130'000});
    }

    void anotherClassBeginsAfresh()
    {
        ClassTraceKeeper keeper;
        QVERIFY(goThrough(keeper, longScript(), [](const Place&) { return true; }).has_value());
        wire::PlaceNow other = placeAt(1, Phase::running, {}, kStart, Millis{1000});
        other.classId = ClassId::random();
        QVERIFY(!keeper.see(longScript(), other, true, kStart));
        other.phase = Phase::ended;
        const auto sample = keeper.see(longScript(), other, true, kStart + Millis{5000});
        QVERIFY(sample.has_value() && sample->empty());
    }

    void withoutAPlaceThereIsNothingToSee()
    {
        ClassTraceKeeper keeper;
        QVERIFY(!keeper.see(longScript(), std::nullopt, true, kStart));
        QVERIFY(!keeper.see(nullptr, placeAt(1, Phase::running, {}, kStart, {}), true, kStart));
    }
};

QTEST_APPLESS_MAIN(TestClassTrace)
#include "test_class_trace.moc"
