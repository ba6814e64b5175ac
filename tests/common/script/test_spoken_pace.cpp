// How long a turn without seconds is planned to take: worked examples by hand, other languages, and that a whole class
// has the same length in every program that has the dictionary.
#include "common/script/reader.h"
#include "common/script/spoken_pace.h"
#include "common/script/writer.h"

#include <QtTest>

using namespace vh;

class TestSpokenPace : public QObject
{
    Q_OBJECT
    static Millis of(const char* text, std::size_t stretches = 0, const char* language = "en",
                     TurnKind kind = TurnKind::yours)
    {
        return plannedAsSpoken(language, kind, text, stretches).value_or(Millis{-1});
    }

private slots:
    // By hand: 1 s, syllables / 2.8, 0.7 s a mark inside the text, 0.8 s a stretch, up to half seconds.
    void workedExamples_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<int>("stretches");
        QTest::addColumn<int>("milliseconds");
        QTest::newRow("at least two seconds") << "oh" << 0 << 2000;                        // 1 + 0.36
        QTest::newRow("a silent e is silent") << "Row the boat to the stone" << 0 << 3500; // 1 + 6 / 2.8 = 3.14
        QTest::newRow("one stretch") << "Row the boat" << 1 << 3000;                       // 1 + 1.07 + 0.8 = 2.87
        QTest::newRow("a comma") << "Hello, you there" << 0 << 3500;                       // 1 + 4 / 2.8 + 0.7 = 3.13
        QTest::newRow("the last full stop is none") << "Hello, you there." << 0 << 3500;
        QTest::newRow("a new line is a mark") << "Hello\nyou there" << 0 << 3500;
    }
    void workedExamples()
    {
        QFETCH(QString, text);
        QFETCH(int, stretches);
        QFETCH(int, milliseconds);
        QCOMPARE(of(qPrintable(text), static_cast<std::size_t>(stretches)), Millis{milliseconds});
    }

    void readyIsTwoSecondsWhateverTheText()
    {
        QCOMPARE(of("A rather long sentence, for a ready turn.", 3, "en", TurnKind::ready), Millis{2000});
    }

    void otherLanguagesGoByVowelGroups()
    {
        QCOMPARE(of("Die Uhr geht vor", 0, "de"), Millis{2500});       // 4 groups: 1 + 1.43 = 2.43
        QCOMPARE(of("Die Uhr, sie geht vor.", 0, "de"), Millis{3500}); // 5 groups, a mark: 1 + 1.79 + 0.7 = 3.49
        QCOMPARE(of("\"Ja!\" -- \"Nein!\"", 0, "de"), Millis{2500});   // one mark between two words: 1 + 0.71 + 0.7
    }

    void textWithoutAnythingToSayNeedsItsSeconds()
    {
        QVERIFY(!plannedAsSpoken("en", TurnKind::yours, "\u2026", 0));
        QVERIFY(!plannedAsSpoken("de", TurnKind::yours, "Mmm", 0));
    }

    void theReaderAsksThePaceItIsGivenWithTheLanguageOfTheClass()
    {
        const std::string yaml = "title: A\ntheme: B\nlanguage: %\nminutes: 1\nsections:\n  - kind: phrases\n"
                                 "    title: C\n    steps:\n      - text: Row the boat to the stone\n"
                                 "        rounds:\n          - turns: [listen, ready, yours 7]\n";
        const auto turns = [&](const char* language, Pace pace) {
            std::string text = yaml;
            text.replace(text.find('%'), 1, language);
            return readClassScript(text, "a.yaml", pace)->sections[0].steps[0].rounds[0].turns;
        };
        QCOMPARE(turns("en", plannedAsSpoken)[0].planned, Millis{3500});
        QCOMPARE(turns("en", plannedAsSpoken)[2].planned, Millis{7000}); // what is written counts
        QCOMPARE(turns("en", nullptr)[0].planned, Millis{4000});         // 7 written vowel groups: 1 + 2.8
        QCOMPARE(turns("fr", plannedAsSpoken)[0].planned, Millis{3500}); // 1 + 7 / 2.8 = 3.5
    }

    void aStepThatIsWrittenGetsTheLengthsOfItsText()
    {
        Step step;
        step.text = "Row the boat to the stone";
        step.rounds = {
            {false,
             {{TurnKind::listen, Millis{9000}}, {TurnKind::ready, Millis{2000}}, {TurnKind::yours, Millis{500}}}}};
        const Step timed = withSpokenLengths(step, "en");
        QCOMPARE(timed.rounds[0].turns[0].planned, Millis{3500});
        QCOMPARE(timed.rounds[0].turns[1].planned, Millis{2000});
        QCOMPARE(timed.rounds[0].turns[2].planned, Millis{3500});
        step.text = "\u2026";
        QVERIFY(withSpokenLengths(step, "en") == step);
    }
};

QTEST_APPLESS_MAIN(TestSpokenPace)
#include "test_spoken_pace.moc"
