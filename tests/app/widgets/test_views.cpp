// What widgets say and where they put things, worked out without a GUI.
#include "app/widgets/cue_badge.h"
#include "app/widgets/level_bar.h"
#include "app/widgets/press_filter.h"
#include "app/widgets/rail_labels.h"
#include "app/widgets/script_rail.h"
#include "app/widgets/seat_table.h"
#include "app/widgets/standing_view.h"
#include "app/widgets/text_fit.h"
#include "app/widgets/voice_meter.h"

#include <QtTest>

using namespace vh;
using namespace std::chrono_literals;

namespace
{

const std::vector<Standing> kAll{Standing::notYet,    Standing::inBand,  Standing::below,    Standing::above,
                                 Standing::straining, Standing::noVoice, Standing::cantTell, Standing::resting,
                                 Standing::private_,  Standing::away};

ScriptRail::State rail()
{
    return {{{"Opening", 60s, false}, {"Water", 30s, true}, {"Phrases", 180s, false}}, 0ms, -1};
}

} // namespace

class TestViews : public QObject
{
    Q_OBJECT
private slots:
    void aBurstOfPressesCountsOnce()
    {
        PressFilter filter;
        HandClock clock;
        QVERIFY(filter.accept(clock.now()));
        for (int i = 0; i < 6; ++i) { // a tremor of 5 Hz
            clock.advance(200ms);
            QVERIFY(!filter.accept(clock.now()));
        }
    }
    void aPressCountsAgainAfter400Ms()
    {
        PressFilter filter;
        HandClock clock;
        QVERIFY(filter.accept(clock.now()));
        clock.advance(399ms);
        QVERIFY(!filter.accept(clock.now()));
        clock.advance(400ms);
        QVERIFY(filter.accept(clock.now()));
    }

    void everyStandingHasItsShapeAndItsWords_data()
    {
        // The table of words.md and the shapes of the design.
        QTest::addColumn<Standing>("standing");
        QTest::addColumn<int>("shape");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, Standing standing, Shape shape, const char* words) {
            QTest::newRow(name) << standing << static_cast<int>(shape) << words;
        };
        row("not yet", Standing::notYet, Shape::empty, "");
        row("in band", Standing::inBand, Shape::solid, "easy to hear");
        row("below", Standing::below, Shape::hollow, "a little more");
        row("above", Standing::above, Shape::capped, "plenty");
        row("straining", Standing::straining, Shape::capped, "ease off");
        row("no voice", Standing::noVoice, Shape::dash, "no voice heard");
        row("can't tell", Standing::cantTell, Shape::question, "can't tell");
        row("resting", Standing::resting, Shape::word, "listening today");
        row("private", Standing::private_, Shape::dotted, "private");
        row("away", Standing::away, Shape::cross, "line lost");
    }
    void everyStandingHasItsShapeAndItsWords()
    {
        QFETCH(Standing, standing);
        QFETCH(int, shape);
        QFETCH(QString, words);
        QCOMPARE(static_cast<int>(shapeOf(standing)), shape);
        QCOMPARE(wordsOf(standing), words);
    }
    void noColourMeansTwoThings()
    {
        for (const auto ground : {look::Ground::light, look::Ground::dark}) {
            const look::Palette& palette = look::paletteOf(ground);
            for (const Standing one : kAll) {
                for (const Standing other : kAll) {
                    const bool bothJudged = hasColumn(one) && hasColumn(other);
                    if (bothJudged)
                        QCOMPARE(colourOf(one, palette) == colourOf(other, palette), shapeOf(one) == shapeOf(other));
                }
            }
        }
    }
    void everyReasonIsSaid()
    {
        QSet<QString> all;
        for (int reason = 1; reason <= static_cast<int>(Blank::setupChanged); ++reason)
            all.insert(wordsOf(static_cast<Blank>(reason)));
        QVERIFY(!all.contains(QString()));
        QCOMPARE(all.size(), static_cast<int>(Blank::setupChanged));
        QCOMPARE(sentenceOf(Standing::cantTell, Blank::roomTooNoisy), QStringLiteral("can't tell: the room is loud"));
        QCOMPARE(sentenceOf(Standing::inBand, Blank::roomTooNoisy), QStringLiteral("easy to hear"));
    }

    void theCueSaysMoreVoiceOnlyToThoseWhoSpeak()
    {
        QCOMPARE(CueBadge::wordsOf({TurnKind::yours, true, {}}), QStringLiteral("You, with more voice"));
        QCOMPARE(CueBadge::wordsOf({TurnKind::withMe, true, {}}), QStringLiteral("With me, with more voice"));
        QCOMPARE(CueBadge::wordsOf({TurnKind::yours, false, {}}), QStringLiteral("You"));
        QCOMPARE(CueBadge::wordsOf({TurnKind::listen, true, {}}), QStringLiteral("Listen"));
        QCOMPARE(CueBadge::wordsOf({TurnKind::ready, true, {}}), QStringLiteral("Ready"));
        QCOMPARE(CueBadge::wordsOf({std::nullopt, true, "Water pause"}), QStringLiteral("Water pause"));
    }

    void theMeterSaysWhyItCannotTell()
    {
        VoiceMeter::State state;
        state.standing = Standing::cantTell;
        state.reason = Blank::clipping;
        QCOMPARE(VoiceMeter::wordsOf(state), QStringLiteral("I can't tell just now"));
        QCOMPARE(VoiceMeter::whyOf(state), QStringLiteral("The microphone is set too high"));
        state.standing = Standing::below;
        QCOMPARE(VoiceMeter::wordsOf(state), QStringLiteral("A little more"));
        QVERIFY(VoiceMeter::whyOf(state).isEmpty());
        state.words = "I hear you";
        QCOMPARE(VoiceMeter::wordsOf(state), QStringLiteral("I hear you"));
    }

    void levelsAreSaidWithTheirSign()
    {
        QCOMPARE(levelWords(4.4F), QStringLiteral("+4 dB"));
        QCOMPARE(levelWords(-2.0F), QStringLiteral("\u22122 dB"));
        QCOMPARE(levelWords(-0.4F), QStringLiteral("0 dB"));
        QCOMPARE(levelWords(std::nullopt), QString());
        QCOMPARE(levelWords(std::numeric_limits<float>::quiet_NaN()), QString());
    }

    void herOwnLevelIsABlockPer8Db()
    {
        QCOMPARE(LevelBar::blocksOf({{}, std::nullopt}), 0);
        QCOMPARE(LevelBar::blocksOf({{}, -120.0F}), 0);
        QCOMPARE(LevelBar::blocksOf({{}, -52.0F}), 1);
        QCOMPARE(LevelBar::blocksOf({{}, -28.5F}), 3);
        QCOMPARE(LevelBar::blocksOf({{}, -10.0F}), 5);
    }

    void theBandLiesInsideTheMeterWhereverTheLeaderMovesIt()
    {
        for (const float offset : {-kLargestOffsetDb, 0.0F, kLargestOffsetDb}) {
            const Band band = *bandFor(SectionKind::phrases, offset);
            const LevelSpan span = spanOf(band);
            QVERIFY(span.shareOf(band.easyFromDb) > 0.05);
            QVERIFY(span.shareOf(band.plentyToDb) < 0.95);
            QCOMPARE(span.shareOf(-100), 0.0);
            QCOMPARE(span.shareOf(100), 1.0);
        }
    }

    void theRailIsInProportionToTime()
    {
        const auto boxes = ScriptRail::boxesOf(rail(), QRectF(0, 0, 1000, 30));
        QCOMPARE(boxes.size(), std::size_t{3});
        QVERIFY(std::abs(boxes[2].width() - 3 * boxes[0].width()) < 1e-6);
        QCOMPARE(boxes[0].left(), 0.0);
        QVERIFY(std::abs(boxes[2].right() - 1000) < 1e-6);
        QVERIFY(boxes[0].right() < boxes[1].left() && boxes[1].right() < boxes[2].left());
    }
    void theRailShowsWhatIsDone()
    {
        ScriptRail::State state = rail();
        state.done = 60s + 30s + 45s;
        QCOMPARE(ScriptRail::doneOf(state, 0), 1.0);
        QCOMPARE(ScriptRail::doneOf(state, 1), 1.0);
        QCOMPARE(ScriptRail::doneOf(state, 2), 0.25);
        state.done = 0ms;
        QCOMPARE(ScriptRail::doneOf(state, 0), 0.0);
        state.done = 1h;
        QCOMPARE(ScriptRail::doneOf(state, 2), 1.0);
    }
    void labelsAreWholeInOrderAndNeverOverEachOther()
    {
        const std::vector<RailLabel> labels{
            {0, 60, 30, false}, {33, 70, 40, false}, {76, 50, 80, true}, {159, 90, 20, false}, {182, 60, 18, false}};
        for (const double room : {380.0, 300.0, 200.0, 40.0}) {
            const auto places = placeLabels(labels, room, 8);
            double free = 0;
            for (std::size_t i = 0; i < labels.size(); ++i) {
                if (!places[i])
                    continue;
                QVERIFY(*places[i] >= free);
                free = *places[i] + labels[i].width + 8;
            }
            QVERIFY(places[2].has_value()); // the current one
            QVERIFY(room < 50 || free - 8 <= room);
        }
        QCOMPARE(*placeLabels(labels, 380, 8)[0], 0.0);
        QVERIFY(!placeLabels(labels, 300, 8)[4]); // the shortest part gives way first
    }
    void anEmptyRailIsNoTrouble()
    {
        QVERIFY(ScriptRail::boxesOf({}, QRectF(0, 0, 100, 30)).empty());
        const auto boxes = ScriptRail::boxesOf({{{"A", 0s, false}}, 0ms, 0}, QRectF(0, 0, 100, 30));
        QCOMPARE(boxes[0].width(), 0.0);
    }

    void byteRangesBecomeLetterRanges()
    {
        // "ä" is 2 bytes, the loaf (U+1F35E) 4 bytes and two UTF-16 units.
        const std::string text = "B\u00E4r \U0001F35E oh";
        const auto ranges = rangesOf(text, {{1, 3}, {5, 9}, {10, 11}});
        QCOMPARE(ranges, (QVector<TextRange>{{1, 2}, {4, 6}, {7, 8}}));
        QCOMPARE(QString::fromStdString(text).mid(7, 1), QStringLiteral("o"));
    }
    void breaksComeGladlyAfterPunctuationAndNeverAfterAnArticle()
    {
        QVERIFY(breakCost("six.", "By") < breakCost("golden", "and"));
        QVERIFY(breakCost("caraway,", "and") < breakCost("golden", "and"));
        QVERIFY(breakCost("golden", "and") < breakCost("loaf", "comes"));
        QVERIFY(breakCost("loaf", "comes") < breakCost("the", "loaf"));
        QVERIFY(breakCost("loaf", "comes") < breakCost("and", "warm"));
    }
};

QTEST_APPLESS_MAIN(TestViews)
#include "test_views.moc"
