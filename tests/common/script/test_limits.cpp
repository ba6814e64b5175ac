#include "common/script/limits.h"
#include "common/script/pace.h"
#include "common/script/reader.h"
#include "common/script/valid.h"

#include <QtTest>

using namespace vh;

namespace
{

std::string firstCode(std::string_view yaml)
{
    const auto script = readClassScript(yaml, "x.yaml");
    return script ? "" : script.error().front().code;
}

std::string repeated(std::string_view text, std::size_t times)
{
    std::string all;
    for (std::size_t i = 0; i < times; ++i)
        all += text;
    return all;
}

const std::string kHead = "title: a\ntheme: b\nlanguage: en\nminutes: 1\nsections:\n";

/// So many sections of so many steps, whose rounds stand once for all.
std::string classOf(std::size_t sections, std::size_t steps, const std::string& rounds)
{
    const std::string section = "  - kind: phrases\n    title: t\n    rounds: " + rounds + "\n    steps:\n";
    return kHead + repeated(section + repeated("      - text: oh\n", steps), sections);
}

} // namespace

class TestLimits : public QObject
{
    Q_OBJECT
private slots:
    void sizeDepthAndNumberOfPartsAreBounded()
    {
        QCOMPARE(firstCode(std::string(limits::kMaxScriptBytes + 1, '#')), std::string("file-too-big"));
        QCOMPARE(firstCode(std::string(limits::kMaxScriptBytes, '#')), std::string("empty-file"));
        QCOMPARE(firstCode(repeated("[", 6)), std::string("syntax"));
        QCOMPARE(firstCode(repeated("[", 13)), std::string("too-deep"));
        QCOMPARE(firstCode(repeated("[", 500'000)), std::string("too-deep"));
        QCOMPARE(firstCode(repeated("- ", 10'000)), std::string("too-deep"));
        QCOMPARE(firstCode("[" + repeated("a,", limits::kMaxYamlNodes) + "]"), std::string("too-many-parts"));
    }

    // Nine levels of nine aliases each: 3.5e8 values if anything followed them.
    void aliasesAreNeverFollowed()
    {
        std::string bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n";
        for (int i = 1; i < 10; ++i) {
            const std::string name = "a" + std::to_string(i);
            const std::string before = "*a" + std::to_string(i - 1);
            bomb += name;
            bomb += ": &" + name;
            bomb += " [" + before + repeated(", " + before, 8) + "]\n";
        }
        const auto script = readClassScript(bomb + kHead, "x.yaml");
        QVERIFY(!script);
        const auto anchors = std::ranges::count(script.error(), std::string("anchor"), &ScriptError::code);
        QCOMPARE(anchors, 10 + 9 * 9);
    }

    void listsAreBounded()
    {
        const std::string rounds = "[{turns: [yours]}]";
        QCOMPARE(firstCode(classOf(60, 1, rounds)), std::string());
        QCOMPARE(firstCode(classOf(61, 1, rounds)), std::string("too-many"));
        QCOMPARE(firstCode(classOf(1, 100, rounds)), std::string());
        QCOMPARE(firstCode(classOf(1, 101, rounds)), std::string("too-many"));
        QCOMPARE(firstCode(classOf(4, 100, rounds)), std::string());
        QCOMPARE(firstCode(classOf(5, 81, rounds)), std::string("too-many"));
        QCOMPARE(firstCode(classOf(1, 1, "[{turns: [yours], times: 30}]")), std::string());
        QCOMPARE(firstCode(classOf(1, 1, "[{turns: [yours], times: 31}]")), std::string("out-of-range"));
        QCOMPARE(firstCode(classOf(1, 1, "[{turns: [yours" + repeated(", yours", 23) + "]}]")), std::string());
        QCOMPARE(firstCode(classOf(1, 1, "[{turns: [yours" + repeated(", yours", 24) + "]}]")),
                 std::string("too-many"));
    }

    void turnsAreBoundedBeforeTheyAreMade()
    {
        QCOMPARE(firstCode(classOf(2, 50, "[{turns: [yours], times: 20}]")), std::string());
        const auto script = readClassScript(classOf(60, 100, "[{turns: [yours], times: 30}]"), "x.yaml");
        QVERIFY(!script);
        QCOMPARE(script.error().size(), std::size_t(1)); // said once, at the step with which there are too many
        QCOMPARE(script.error().front().code, std::string("too-many"));
        QCOMPARE(script.error().front().line, 5 + 4 + 67);
    }

    void textsAreBounded()
    {
        const auto step = [](const std::string& fields) {
            return kHead + "  - kind: phrases\n    title: t\n    seconds: 5\n    steps:\n" + fields;
        };
        const std::string most(limits::kMaxText, '<');
        const auto marked = [](const std::string& text) { return repeated("\\<", text.size()); };
        QCOMPARE(firstCode(step("      - text: \"" + repeated("\xC3\xA9", 2000) + "\"\n")), std::string());
        QCOMPARE(firstCode(step("      - text: '" + marked(most) + "'\n")), std::string());
        QCOMPARE(firstCode(step("      - text: '" + marked(most + "<") + "'\n")), std::string("too-long"));
        QCOMPARE(firstCode(step("      - text: " + repeated("<a>", 101) + "\n")), std::string("bad-mark"));
        QCOMPARE(firstCode(step("      - text: <" + std::string(13, 'a') + ">\n")), std::string("bad-mark"));
        QCOMPARE(firstCode(step(repeated("      - text: " + std::string(2000, 'a') + "\n", 33))),
                 std::string("too-long"));
        QCOMPARE(firstCode(step("      - text: a\n        note: " + std::string(1001, 'a') + "\n")),
                 std::string("too-long"));
    }

    void mistakesWithoutEndAreListedToALimit()
    {
        const auto script = readClassScript(kHead + repeated("  - {}\n", 5000), "x.yaml");
        QCOMPARE(script.error().size(), std::size_t(1)); // too many sections: the list is not gone through
        const auto many = readClassScript(kHead + repeated("  - {a: b, c: d}\n", 60), "x.yaml");
        QCOMPARE(many.error().size(), limits::kMaxReportedErrors + 1);
        QCOMPARE(many.error().back().code, std::string("too-many-errors"));
        const auto controls = readClassScript(std::string(limits::kMaxScriptBytes, '\x01'), "x.yaml");
        QCOMPARE(controls.error().size(), limits::kMaxReportedErrors + 1);
    }

    void columnsAreRightInVeryLongLines()
    {
        for (const std::size_t length : {0, 1, 254, 255, 256, 257, 511, 512, 5000}) {
            const auto script = readClassScript("a: b\n" + repeated("\xC3\xA9", length) + "\x07" + "a", "x.yaml");
            QCOMPARE(script.error().front().line, 2);
            QCOMPARE(script.error().front().column, static_cast<int>(length) + 1);
        }
    }

    void pictureFilesStayBesideTheClass()
    {
        for (const char* good : {"a.svg", "pictures/a b.png", "x/y/z.jpeg", "..a.svg", "a..b/c.jpg", "\xC3\xA9.svg"})
            QVERIFY2(!pictureFileFault(good), good);
        for (const char* bad : {"",
                                "/a.svg",
                                "../a.svg",
                                "a/../b.svg",
                                "a/..",
                                "./a.svg",
                                "a//b.svg",
                                "a/",
                                "C:/a.svg",
                                "c:a.svg",
                                "a\\b.svg",
                                "\\\\host\\a.svg",
                                "file:a.svg",
                                "http://a/b.svg",
                                "a.exe",
                                "a",
                                " a.svg",
                                "a\nb.svg",
                                "a\xE2\x80\xAEgvs.svg",
                                "a.svg\xFF",
                                "..",
                                "."})
            QVERIFY2(pictureFileFault(bad), bad);
        QVERIFY(pictureFileFault(std::string(200, 'a') + ".svg"));
    }

    void languageTagsHaveTheirShape()
    {
        for (const char* good : {"en", "en-GB", "sr-Latn-RS", "de-CH-1996", "yue"})
            QVERIFY2(isLanguageTag(good), good);
        for (const char* bad :
             {"", "e", "en-", "-en", "en_GB", "english language", "abcdefghi", "en-abcdefghi", "1en", "en--GB"})
            QVERIFY2(!isLanguageTag(bad), bad);
    }

    // Counted by hand.
    void vowelGroupsAreCounted()
    {
        QCOMPARE(vowelGroups("The rowing boat is home."), 7); // e ow-i oa i o-e, with the silent e
        QCOMPARE(vowelGroups("Queue"), 1);
        QCOMPARE(vowelGroups("rhythm"), 1);
        QCOMPARE(vowelGroups("10, 25"), 4);
        QCOMPARE(vowelGroups("r\xC3\xA9sum\xC3\xA9"), 3);
        QCOMPARE(vowelGroups("re\xCC\x81sume\xCC\x81"), 3);
        QCOMPARE(vowelGroups("sm\xC3\xB8r \xC3\x85se"), 3);
        QCOMPARE(vowelGroups("Mmm. \xD0\x9D\xD1\x8F"), 0);
        QCOMPARE(vowelGroups(""), 0);
    }

    void theRuleGivesHalfSeconds()
    {
        QCOMPARE(plannedByRule(TurnKind::ready, "", 0), Millis{2000});
        QCOMPARE(plannedByRule(TurnKind::yours, "oh", 0), Millis{2000}); // 1.4, but at least 2
        QCOMPARE(plannedByRule(TurnKind::yours, "la la la la la", 0), Millis{3000});
        QCOMPARE(plannedByRule(TurnKind::listen, "la la la la la", 1), Millis{3500});
        QCOMPARE(plannedByRule(TurnKind::withMe, "la la la la la la", 0), Millis{3500}); // 3.4
        QCOMPARE(plannedByRule(TurnKind::yours, "Mmm", 1), std::nullopt);
        QCOMPARE(plannedByRule(TurnKind::yours, std::string(2000, '1'), 0), limits::kMaxTurn);
    }

    void valuesFromElsewhereAreHeldToTheSameRules()
    {
        const Step good{"oh", {}, std::nullopt, "", {{false, {{TurnKind::yours, Millis{2000}}}}}, std::nullopt};
        const ClassScript script{"a", "b", "en", 1, {{SectionKind::phrases, "t", {good}}}};
        QVERIFY(!faultOf(script));
        const auto whereBroken = [&](auto&& change) {
            ClassScript broken = script;
            change(broken, broken.sections[0].steps[0]);
            const auto fault = faultOf(broken);
            return fault ? fault->where : std::string("nothing");
        };
        QCOMPARE(whereBroken([](ClassScript& c, Step&) { c.title.clear(); }), std::string("title"));
        QCOMPARE(whereBroken([](ClassScript& c, Step&) { c.theme = " b"; }), std::string("theme"));
        QCOMPARE(whereBroken([](ClassScript& c, Step&) { c.plannedMinutes = 0; }), std::string("minutes"));
        QCOMPARE(whereBroken([](ClassScript& c, Step&) { c.sections.clear(); }), std::string("sections"));
        QCOMPARE(whereBroken([](ClassScript& c, Step&) { c.sections[0].kind = static_cast<SectionKind>(99); }),
                 std::string("sections[0].kind"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) { s.text = "\xFF"; }), std::string("sections[0].steps[0].text"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) {
                     s.stretches = {{1, 9}};
                 }),
                 std::string("sections[0].steps[0].text"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) {
                     s.picture = Picture{"../a.svg", "d"};
                 }),
                 std::string("sections[0].steps[0].picture.file"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) {
                     s.picture = Picture{"a.svg", ""};
                 }),
                 std::string("sections[0].steps[0].picture.description"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) { s.optionalDearness = 0; }),
                 std::string("sections[0].steps[0].dearness"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) { s.rounds.clear(); }),
                 std::string("sections[0].steps[0].rounds"));
        QCOMPARE(whereBroken([](ClassScript&, Step& s) { s.rounds[0].turns[0].planned = Millis{0}; }),
                 std::string("sections[0].steps[0].rounds[0].turns"));
        QCOMPARE(whereBroken([](ClassScript& c, Step&) { c.sections[0].kind = SectionKind::pause; }),
                 std::string("sections[0].steps[0].rounds[0].turns"));
    }
};

QTEST_APPLESS_MAIN(TestLimits)
#include "test_limits.moc"
