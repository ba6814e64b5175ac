#include "common/script/limits.h"
#include "common/script/marks.h"
#include "common/script/reader.h"
#include "common/script/valid.h"
#include "common/script/writer.h"
#include "random_script.h"

#include <QtTest>

using namespace vh;

class TestRoundTrip : public QObject
{
    Q_OBJECT
private slots:
    void whatIsWrittenReadsTheSame()
    {
        for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
            const ClassScript script = randomScript(seed);
            const auto fault = faultOf(script);
            QVERIFY2(!fault, fault ? (fault->where + " " + fault->message).c_str() : "");
            const std::string yaml = writeClassScript(script);
            const auto again = readClassScript(yaml, "x.yaml");
            if (!again)
                qWarning() << again.error().front().line << again.error().front().message.c_str();
            QVERIFY2(again && *again == script, ("seed " + std::to_string(seed) + "\n" + yaml).c_str());
            QCOMPARE(writeClassScript(*again), yaml);
        }
    }

    void theLargestScriptStillFitsItsFile()
    {
        const ClassScript script = largestScript();
        QVERIFY(!faultOf(script));
        const std::string yaml = writeClassScript(script);
        QVERIFY2(yaml.size() <= limits::kMaxScriptBytes, std::to_string(yaml.size()).c_str());
        QVERIFY(readClassScript(yaml, "x.yaml") == script);
    }

    void whatIsWrittenIsPleasantToRead()
    {
        ClassScript script{"Small class", "Boats", "en", 1, {}};
        const Round round{true, {{TurnKind::ready, Millis{2000}}, {TurnKind::yours, Millis{4500}}}};
        Step step{"Row the boat", {{1, 3}}, std::nullopt, "First line.\nSecond line.", {round, round}, 3};
        script.sections.push_back({SectionKind::phrases, "Two: boats", {step, step}});
        QCOMPARE(writeClassScript(script), std::string("title: Small class\n"
                                                       "theme: Boats\n"
                                                       "language: en\n"
                                                       "minutes: 1\n"
                                                       "sections:\n"
                                                       "\n"
                                                       "  - kind: phrases\n"
                                                       "    title: \"Two: boats\"\n"
                                                       "    rounds:\n"
                                                       "      - turns: [ready 2, yours 4.5]\n"
                                                       "        moreVoice: yes\n"
                                                       "        times: 2\n"
                                                       "    steps:\n"
                                                       "      - text: R<ow> the boat\n"
                                                       "        note: |-\n"
                                                       "          First line.\n"
                                                       "          Second line.\n"
                                                       "        dearness: 3\n"
                                                       "      - text: R<ow> the boat\n"
                                                       "        note: |-\n"
                                                       "          First line.\n"
                                                       "          Second line.\n"
                                                       "        dearness: 3\n"));
    }

    void marksGoBothWays()
    {
        const MarkedText expected{"a<b>\\ row", {{0, 1}, {1, 2}, {7, 9}}};
        QCOMPARE(*readMarks("<a><\\<>b\\>\\\\ r<ow>"), expected);
        QCOMPARE(writeMarks(expected.text, expected.stretches), std::string("<a><\\<>b\\>\\\\ r<ow>"));
    }
};

QTEST_APPLESS_MAIN(TestRoundTrip)
#include "test_round_trip.moc"
