#include "common/live/standing.h"

#include <QtTest>

using namespace vh;

class TestStanding : public QObject
{
    Q_OBJECT
private slots:
    void namesAreThoseOfTheWords()
    {
        using enum Standing;
        for (const auto standing :
             {notYet, inBand, below, above, straining, noVoice, cantTell, resting, private_, away})
            QCOMPARE(*standingOf(nameOf(standing)), standing);
        QCOMPARE(nameOf(private_), std::string_view("private"));
        QCOMPARE(nameOf(notYet), std::string_view("notYet"));
        QCOMPARE(nameOf(static_cast<Standing>(10)), std::string_view());
        QVERIFY(!standingOf("in-band"));
    }

    void theDefaultBandIsThreeSixNineTwelve()
    {
        QCOMPARE(*bandFor(SectionKind::phrases), (Band{3, 6, 9, 12}));
        QCOMPARE(*bandFor(SectionKind::openTalk), (Band{2, 6, 9, 12}));
        QVERIFY(!bandFor(SectionKind::pitchGlide));
        QVERIFY(!bandFor(SectionKind::pause));
    }

    void aLeaderMovesTheWholeBand()
    {
        QCOMPARE(*bandFor(SectionKind::phrases, -2), (Band{1, 4, 7, 10}));
        QCOMPARE(*bandFor(SectionKind::phrases, 100), *bandFor(SectionKind::phrases, kLargestOffsetDb));
    }

    void everyKindOfSectionHasItsKindOfTask()
    {
        QCOMPARE(*taskOf(SectionKind::sustainedVowel), TaskKind::vowel);
        QCOMPARE(*taskOf(SectionKind::pitchGlide), TaskKind::glide);
        QCOMPARE(*taskOf(SectionKind::categoryNaming), TaskKind::openTalk);
        QCOMPARE(*taskOf(SectionKind::openTalk), TaskKind::openTalk);
        using enum SectionKind;
        for (const auto kind : {opening, warmUp, counting, phrases, backOfTongue, passage, closing})
            QCOMPARE(*taskOf(kind), TaskKind::phrases);
        QVERIFY(!taskOf(SectionKind::pause));
    }

    void whereCalibratedNothingIsAskedAboveEighty()
    {
        QCOMPARE(underCeiling(Band{}, 60), Band{});
        QCOMPARE(underCeiling(Band{}, 68), Band{}); // plenty at exactly 80
        QCOMPARE(underCeiling(Band{}, 73), (Band{3, 6, 7, 7}));
        QCOMPARE(underCeiling(Band{}, 79), (Band{1, 1, 1, 1}));
    }
};

QTEST_APPLESS_MAIN(TestStanding)
#include "test_standing.moc"
