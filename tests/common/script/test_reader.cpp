#include "bad_inputs.h"
#include "common/script/reader.h"
#include "common/script/valid.h"

#include <QFile>
#include <QtTest>
#include <set>

using namespace vh;

namespace
{

std::string listOf(const std::vector<ScriptError>& errors)
{
    std::string list;
    for (const ScriptError& error : errors)
        list += std::to_string(error.line) + ":" + std::to_string(error.column) + " " + error.code + "\n";
    return list;
}

std::vector<ScriptError> errorsOf(std::string_view yaml)
{
    const auto script = readClassScript(yaml, "x.yaml");
    return script ? std::vector<ScriptError>{} : script.error();
}

std::string sectionWith(const std::string& body)
{
    return "title: a\ntheme: b\nlanguage: en\nminutes: 1\nsections:\n" + body;
}

} // namespace

class TestReader : public QObject
{
    Q_OBJECT
private slots:
    void aGoodFileIsReadWhole()
    {
        const auto script = readClassScript(smallClass(), "x.yaml");
        QVERIFY(script);
        QCOMPARE(script->title, std::string("Small class"));
        QCOMPARE(script->theme, std::string("Boats"));
        QCOMPARE(script->language, std::string("en"));
        QCOMPARE(script->plannedMinutes, 1);
        const Step& step = script->sections.at(0).steps.at(0);
        QCOMPARE(step.text, std::string("Row the boat"));
        QCOMPARE(step.stretches, (std::vector<Stretch>{{1, 3}}));
        // three vowel groups and one stretch: 1 + 3 / 2.5 + 1 / 2 = 2.7 s, so 3 s
        const Round round{
            false,
            {{TurnKind::listen, Millis{3000}}, {TurnKind::ready, Millis{2000}}, {TurnKind::yours, Millis{3000}}}};
        QCOMPARE(step.rounds, std::vector<Round>{round});
    }

    void everyMistakeIsNamedWithItsPlace_data()
    {
        QTest::addColumn<QString>("yaml");
        QTest::addColumn<QString>("expected");
        for (const BadInput& input : badInputs()) {
            std::string expected;
            for (const Expected& error : input.errors)
                expected += std::to_string(error.line) + ":" + std::to_string(error.column) + " " + error.code + "\n";
            QTest::newRow(input.name.c_str())
                << QString::fromLatin1(input.yaml.data(), static_cast<qsizetype>(input.yaml.size()))
                << QString::fromStdString(expected);
        }
    }

    void everyMistakeIsNamedWithItsPlace()
    {
        QFETCH(QString, yaml);
        QFETCH(QString, expected);
        const auto errors = errorsOf(yaml.toLatin1().toStdString());
        QCOMPARE(QString::fromStdString(listOf(errors)), expected);
        for (const ScriptError& error : errors) {
            QCOMPARE(error.file, std::string("x.yaml"));
            QVERIFY(!error.message.empty());
            QVERIFY(!error.remedy.empty());
        }
    }

    void theDocumentTellsTheTruth()
    {
        QFile file(VH_SOURCE_DIR "/docs/class-script.md");
        QVERIFY(file.open(QIODevice::ReadOnly));
        const std::string document = file.readAll().toStdString();
        const auto start = document.find("```yaml\n") + 8;
        const auto example = readClassScript(document.substr(start, document.find("```\n", start) - start), "x.yaml");
        QVERIFY(example);
        QCOMPARE(example->sections.size(), std::size_t(4));
        std::set<std::string> codes;
        for (const BadInput& input : badInputs())
            for (const Expected& error : input.errors)
                codes.insert(error.code);
        QVERIFY(codes.size() >= 24);
        for (const std::string& code : codes)
            QVERIFY2(document.find("| `" + code + "` |") != std::string::npos, code.c_str());
    }

    void theNearestNameIsSuggested()
    {
        const auto errors = errorsOf(sectionWith("  - knd: phrases\n    kind: Warm-Up\n    title: t\n    steps:\n"
                                                 "      - {text: oh, rounds: [{turns: [withme 3]}]}\n"));
        QCOMPARE(errors.size(), std::size_t(3));
        QCOMPARE(errors[0].remedy, std::string("Perhaps \"kind\" is meant."));
        QCOMPARE(errors[1].remedy, std::string("Perhaps \"warm-up\" is meant."));
        QCOMPARE(errors[2].remedy, std::string("Perhaps \"withMe\" is meant."));
        QVERIFY(errorsOf(smallClass() + "zebra: 1\n").at(0).remedy.starts_with("Known here: title, theme"));
    }

    void cuttingTheFileAnywhereIsNeverACrash()
    {
        const std::string whole = smallClass();
        const std::size_t enough = whole.find("yours]") + 6; // from here on it is a class: the rest may be left out
        for (std::size_t length = 0; length < whole.size(); ++length) {
            const auto script = readClassScript(std::string_view(whole).substr(0, length), "x.yaml");
            QVERIFY(script ? !faultOf(*script) : !script.error().empty());
            QVERIFY2(!script || length >= enough, std::to_string(length).c_str());
        }
    }

    void stepsInheritTheRoundsOfTheirSection()
    {
        const auto script = readClassScript(sectionWith("  - kind: phrases\n"
                                                        "    title: t\n"
                                                        "    rounds: [{turns: [yours], times: 2}]\n"
                                                        "    steps:\n"
                                                        "      - text: one\n"
                                                        "      - text: one two three four five six\n"
                                                        "      - {text: own, seconds: 4.25}\n"),
                                            "x.yaml");
        QVERIFY(script);
        const auto& steps = script->sections.at(0).steps;
        QCOMPARE(steps[0].rounds, std::vector<Round>(2, Round{false, {{TurnKind::yours, Millis{2000}}}}));
        QCOMPARE(steps[1].rounds[1].turns[0].planned, Millis{4500}); // o-e-o-ee-ou-i-e-i: 8 groups
        QCOMPARE(steps[2].rounds, (std::vector<Round>{Round{false, {{TurnKind::listen, Millis{4250}}}}}));
    }

    void aPauseNeedsOnlySeconds()
    {
        const auto script = readClassScript(sectionWith("  - {kind: pause, title: Water, seconds: 25}\n"), "x.yaml");
        QVERIFY(script);
        const Step& step = script->sections.at(0).steps.at(0);
        QVERIFY(step.text.empty());
        QCOMPARE(step.rounds, (std::vector<Round>{Round{false, {{TurnKind::listen, Millis{25'000}}}}}));
    }

    void outerSpaceIsDroppedAndWindowsLineEndsAreRead()
    {
        std::string yaml = "\xEF\xBB\xBF" + smallClass();
        for (std::size_t at = 0; (at = yaml.find('\n', at)) != std::string::npos; at += 2)
            yaml.replace(at, 1, "\r\n");
        QCOMPARE(readClassScript(yaml, "x.yaml"), readClassScript(smallClass(), "x.yaml"));
        const auto script =
            readClassScript(sectionWith("  - kind: passage\n    title: \"  t\"\n    seconds: 9\n"
                                        "    steps:\n      - text: |\n          One.\n            Two.\n\n"),
                            "x.yaml");
        QVERIFY(script);
        QCOMPARE(script->sections[0].title, std::string("t"));
        QCOMPARE(script->sections[0].steps[0].text, std::string("One.\n  Two."));
    }
};

QTEST_APPLESS_MAIN(TestReader)
#include "test_reader.moc"
