#include "common/wire/script_json.h"

#include <QtTest>

using namespace vh;
using namespace vh::wire;

namespace
{
ClassScript small()
{
    Step step;
    step.text = "Größe: \"ä\"";
    step.stretches = {{2, 4}};
    step.picture = Picture{"boat.svg", "A boat"};
    step.note = "Slowly.";
    step.rounds = {{false, {{TurnKind::listen, Millis{3000}}}},
                   {true, {{TurnKind::ready, Millis{2000}}, {TurnKind::yours, Millis{4500}}}}};
    step.optionalDearness = 3;
    Step water;
    water.rounds = {{false, {{TurnKind::listen, Millis{20000}}}}};
    return {"Title",
            "Theme",
            "en",
            20,
            {{SectionKind::phrases, "Phrases", {step}}, {SectionKind::pause, "Water", {water}}}};
}
} // namespace

class TestScriptJson : public QObject
{
    Q_OBJECT
private slots:
    void aScriptGoesBothWays()
    {
        const auto back = decodeScript(encodeScript(small()));
        QVERIFY2(back, back ? "" : back.error().message.c_str());
        QVERIFY(*back == small());
    }

    void whatTheValuesPromiseIsHeld_data()
    {
        QTest::addColumn<QByteArray>("wrong");
        const auto row = [](const char* name, auto change) {
            ClassScript script = small();
            change(script);
            QTest::newRow(name) << QByteArray::fromStdString(encodeScript(script));
        };
        row("no sections", [](auto& s) { s.sections.clear(); });
        row("no steps", [](auto& s) { s.sections[0].steps.clear(); });
        row("no rounds", [](auto& s) { s.sections[0].steps[0].rounds.clear(); });
        row("no turns", [](auto& s) { s.sections[0].steps[0].rounds[0].turns.clear(); });
        row("no text outside a pause", [](auto& s) {
            s.sections[0].steps[0].text.clear();
            s.sections[0].steps[0].stretches.clear();
        });
        row("a mark inside a letter", [](auto& s) { s.sections[0].steps[0].stretches = {{3, 4}}; });
        row("a mark beyond the text", [](auto& s) { s.sections[0].steps[0].stretches = {{2, 400}}; });
        row("marks that overlap", [](auto& s) { s.sections[0].steps[0].stretches = {{0, 4}, {2, 5}}; });
        row("a turn without length", [](auto& s) { s.sections[0].steps[0].rounds[0].turns[0].planned = Millis{0}; });
        row("a turn of two hours",
            [](auto& s) { s.sections[0].steps[0].rounds[0].turns[0].planned = std::chrono::hours{2}; });
        row("dearness of 10", [](auto& s) { s.sections[0].steps[0].optionalDearness = 10; });
        QTest::newRow("not JSON") << QByteArray("sections: []");
    }
    void whatTheValuesPromiseIsHeld()
    {
        QFETCH(QByteArray, wrong);
        QVERIFY(!decodeScript(wrong.toStdString()));
    }
};

QTEST_APPLESS_MAIN(TestScriptJson)
#include "test_script_json.moc"
