// Where the board is quiet for participants.
#include "common/live/board_rest.h"
#include "tests/common/live/scripts.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

class TestBoardRest : public QObject
{
    Q_OBJECT
private slots:
    void itRestsWhilePeoplePractiseAndWakesBetween()
    {
        const ClassScript script = smallClass(); // opening, phrases, closing
        QVERIFY(!boardRestsIn(script, {0, 0, 0, 0}));
        for (std::uint16_t turn = 0; turn < 4; ++turn) // the leader's turn belongs to it
            QVERIFY(boardRestsIn(script, {1, 1, 0, turn}));
        QVERIFY(!boardRestsIn(script, {2, 0, 0, 0}));
        QVERIFY(!boardRestsIn(script, {9, 0, 0, 0}));
    }

    void pausesAndOpenTalkAreNoDrills()
    {
        for (const SectionKind kind :
             {SectionKind::opening, SectionKind::openTalk, SectionKind::pause, SectionKind::closing})
            QVERIFY(!isDrill(kind));
        for (const SectionKind kind :
             {SectionKind::warmUp, SectionKind::sustainedVowel, SectionKind::pitchGlide, SectionKind::counting,
              SectionKind::phrases, SectionKind::categoryNaming, SectionKind::backOfTongue, SectionKind::passage})
            QVERIFY(isDrill(kind));
    }

    void theOwnTurnBeginsWithTheBreathBeforeIt()
    {
        QVERIFY(!isOwnTurn(TurnKind::listen));
        QVERIFY(isOwnTurn(TurnKind::ready) && isOwnTurn(TurnKind::withMe) && isOwnTurn(TurnKind::yours));
    }
};

QTEST_APPLESS_MAIN(TestBoardRest)
#include "test_board_rest.moc"
