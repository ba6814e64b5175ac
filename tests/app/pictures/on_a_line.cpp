// Pictures over a line: up piece by piece and there once, down by hash and never trusted, changed at the desk before
// they are decided on. Against a relay that says what the test tells it to.
#include "tests/app/pictures/line_fixture.h"
#include "tests/app/pictures/parts.h"

using namespace vh;
using namespace vh::testing;

class TestOnALine : public QObject
{
    Q_OBJECT
private:
    const QByteArray m_large = QByteArray(70'000, 'p'); // three pieces

private slots:
    void piecesGoUpInOrderEachAfterTheOneBefore()
    {
        ScriptedRelay relay;
        Here here(relay);
        const RequestId picture = here.sender.send(m_large, {}, "my beans"); // before the line is up
        QByteArray got;
        for (std::uint32_t number = 0; number < 3; ++number) {
            const auto piece = relay.hear<wire::PicturePiece>();
            QVERIFY(piece);
            QCOMPARE(piece->piece, number);
            QCOMPARE(piece->pieces, 3U);
            QCOMPARE(piece->picture, picture);
            QCOMPARE(piece->text, std::string(number == 0 ? "my beans" : ""));
            QCOMPARE(here.sender.going().front().percent(), static_cast<int>(number * 100 / 3));
            QVERIFY(hearsNo(relay, wire::PicturePiece{}));
            got += bytesOf(*piece);
            relay.send(ackOf(piece->id, number == 2 ? std::optional<std::uint64_t>(7) : std::nullopt));
        }
        QCOMPARE(got, m_large);
        QTRY_COMPARE(here.sent.size(), 1);
        QCOMPARE(here.sent[0][1].toULongLong(), 7ULL);
        QVERIFY(here.sender.going().empty());
    }

    void afterABrokenLineItBeginsAgainUnderTheSameName()
    {
        ScriptedRelay relay;
        Here here(relay);
        const RequestId picture = here.sender.send(m_large, {}, "my beans");
        auto piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece);
        relay.send(ackOf(piece->id));
        piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->piece == 1);
        here.line.pullCable();
        piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->piece == 0 && piece->picture == picture && piece->text == "my beans");
        QVERIFY(hearsNo(relay, wire::PicturePiece{})); // the one that was on its way is not said again
        relay.send(ackOf(piece->id, 9));               // it had come, after all
        QTRY_COMPARE(here.sent.size(), 1);
    }

    void aRelayThatHasLostItsPlaceIsSentAllOfItAgain()
    {
        ScriptedRelay relay;
        Here here(relay);
        here.sender.send(m_large, {}, {});
        auto piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece);
        relay.send(ackOf(piece->id));
        piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece);
        relay.send(wire::Refused{piece->id, "piece-unknown", "This piece belongs to no picture."});
        piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->piece == 0);
        QVERIFY(here.refused.isEmpty());
    }

    void whatIsRefusedIsSaidAndTheNextOneGoes()
    {
        ScriptedRelay relay;
        Here here(relay);
        const RequestId first = here.sender.send(m_large, {}, {});
        const RequestId second = here.sender.send("a small one", {}, {});
        auto piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->picture == first);
        relay.send(wire::Refused{piece->id, "picture-damaged", "This picture is damaged."});
        QTRY_COMPARE(here.refused.size(), 1);
        QCOMPARE(here.refused[0][1].value<Error>().message, std::string("This picture is damaged."));
        piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->picture == second && piece->pieces == 1);
    }

    void oneThatIsCancelledIsNotFinishedAndTakenBackIfItIsThere()
    {
        ScriptedRelay relay;
        Here here(relay);
        const RequestId first = here.sender.send(m_large, {}, {});
        const RequestId second = here.sender.send("a small one", {}, {});
        const RequestId third = here.sender.send("another", {}, {});
        auto piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece);
        here.sender.cancel(first);
        here.sender.cancel(third);
        QCOMPARE(here.sender.going().size(), std::size_t{1});
        relay.send(ackOf(piece->id));
        piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->picture == second);
        here.sender.cancel(second); // too late: this was all of it
        relay.send(ackOf(piece->id, 12));
        const auto back = relay.hear<wire::TakeBackOwn>();
        QVERIFY(back && back->item == 12);
        QVERIFY(here.sent.isEmpty() && here.refused.isEmpty());
    }

    void noMoreThanAFewWait()
    {
        ScriptedRelay relay;
        Here here(relay);
        for (std::size_t i = 0; i < PictureSender::kMostWaiting; ++i)
            QVERIFY(!here.sender.send("p", {}, {}).isNull());
        QVERIFY(here.sender.send("p", {}, {}).isNull());
    }

    void aPictureIsFetchedOnceAndKeptInTwoSizes()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        const QByteArray bytes = plain({600, 300}, Qt::blue);
        QVERIFY(here.shelf.small(hashOf(bytes)).isNull());
        QVERIFY(here.shelf.picture(hashOf(bytes)).isNull());
        const auto asked = relay.hear<wire::PictureAsk>();
        QVERIFY(asked && asked->hash == hashOf(bytes));
        relay.sendBytes(partOf(hashOf(bytes), bytes));
        QTRY_COMPARE(here.shelf.picture(hashOf(bytes)).size(), QSize(600, 300));
        QCOMPARE(here.shelf.small(hashOf(bytes)).size(), QSize(240, 120));
        QVERIFY(hearsNo(relay, wire::PictureAsk{}));
    }

    void whatIsNotWhatItClaimsToBeIsNeverShown_data()
    {
        QTest::addColumn<QByteArray>("asked");
        QTest::addColumn<QByteArray>("given");
        const QByteArray picture = plain({60, 30}, Qt::blue);
        QTest::newRow("another picture") << picture << plain({60, 30}, Qt::green);
        QTest::newRow("no picture") << QByteArray("GIF89a") << QByteArray("GIF89a");
        QTest::newRow("half a picture") << picture.left(50) << picture.left(50);
        QTest::newRow("too large a picture") << plain({1700, 9}, Qt::blue) << plain({1700, 9}, Qt::blue);
    }
    void whatIsNotWhatItClaimsToBeIsNeverShown()
    {
        QFETCH(QByteArray, asked);
        QFETCH(QByteArray, given);
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        const QByteArray next = plain({20, 20}, Qt::red);
        QVERIFY(here.shelf.picture(hashOf(asked)).isNull());
        QVERIFY(here.shelf.small(hashOf(next)).isNull());
        QVERIFY(relay.hear<wire::PictureAsk>());
        relay.sendBytes(partOf(hashOf(asked), given));
        QTRY_VERIFY(here.shelf.isWithheld(hashOf(asked)));
        const auto after = relay.hear<wire::PictureAsk>(); // and the next one comes
        QVERIFY(after && after->hash == hashOf(next));
        relay.sendBytes(partOf(hashOf(next), next));
        QTRY_COMPARE(here.shelf.small(hashOf(next)).size(), QSize(20, 20));
        QVERIFY(here.shelf.picture(hashOf(asked)).isNull());
    }

    void partsOfTheClassAndPicturesTakeTurnsSoThatARefusalIsClear()
    {
        ScriptedRelay relay;
        wire::ClassOpen open;
        open.classId = ClassId::random();
        open.parts = {wire::sha256("a script")};
        relay.welcome.open = open;
        Here here(relay);
        QVERIFY(here.isIn());
        const QByteArray bytes = plain({20, 20}, Qt::red);
        QVERIFY(here.shelf.picture(hashOf(bytes)).isNull());
        QVERIFY(relay.hear<wire::PartAsk>());
        QVERIFY(relay.hear<wire::ClockAsk>());
        QVERIFY(hearsNo(relay, wire::PictureAsk{}));
        relay.sendBytes(partOf(wire::sha256("a script"), "a script"));
        QVERIFY(relay.hear<wire::PictureAsk>());
        wire::ClassOpen corrected = open;
        corrected.parts = {wire::sha256("another script")};
        relay.send(corrected);
        QTRY_VERIFY(here.follow.open()->parts == corrected.parts);
        QVERIFY(hearsNo(relay, wire::PartAsk{}));
        relay.send(wire::Refused{{}, "part-unknown", "There is no such picture."});
        QTRY_VERIFY(here.shelf.isWithheld(hashOf(bytes)));
        const auto part = relay.hear<wire::PartAsk>();
        QVERIFY(part && part->hash == corrected.parts.front());
    }

    void whatWasSeenLongestAgoGoesFirstAndSmallOnesStay()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        std::vector<QByteArray> all;
        for (int i = 0; i < 10; ++i) { // 7.7 MB each
            all.push_back(plain({1600, 1200}, QColor(20 * i, 90, 90)));
            QVERIFY(here.shelf.picture(hashOf(all.back())).isNull());
            QVERIFY(relay.hear<wire::PictureAsk>());
            relay.sendBytes(partOf(hashOf(all.back()), all.back()));
            QTRY_VERIFY(!here.shelf.picture(hashOf(all.back())).isNull());
            QVERIFY(!here.shelf.picture(hashOf(all.front())).isNull()); // seen all the while
            QVERIFY(here.shelf.heldBytes() <= PictureShelf::kMostBytes);
        }
        QCOMPARE(here.shelf.small(hashOf(all[1])).size(), QSize(240, 180));
        QVERIFY(here.shelf.picture(hashOf(all[1])).isNull());
        const auto again = relay.hear<wire::PictureAsk>();
        QVERIFY(again && again->hash == hashOf(all[1]));
    }

    void whatWasChangedGoesUpBeforeTheDecision()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        QSignalSpy decided(&here.desk, &PictureDesk::decisionRequested);
        const QByteArray before = plain({40, 20}, Qt::red);
        const QByteArray after = plain({20, 20}, Qt::red);
        relay.send(wire::OnDesk{true, {deskItem(3, 11, before, "beans")}});
        QTRY_VERIFY((here.desk.openItem(3), here.desk.isOpen()));
        PictureEdit edit = turned(here.desk.view({}).edit, 1);
        edit.cut = QRectF(0.25, 0, 0.5, 1);
        edit.caption = "  my beans ";
        here.desk.change(edit, EditDraft::Step::anew);
        QVERIFY(here.desk.view({}).canUndo);
        here.desk.become(Becomes::window);
        QVERIFY(here.desk.view({}).busy);
        here.desk.become(Becomes::board); // once is enough
        const auto asked = relay.hear<wire::EditPicture>();
        QVERIFY(asked && asked->item == 3 && asked->change == 11 && asked->quarterTurns == 1);
        QCOMPARE(QRectF(QPointF(asked->left, asked->top), QPointF(asked->right, asked->bottom)),
                 QRectF(0.25, 0, 0.5, 1));
        QCOMPARE(asked->text, std::string("my beans"));
        relay.send(ackOf(asked->id));
        relay.send(wire::Claimed{3, "Bram"});
        QTRY_VERIFY(here.line.unanswered() == 0);
        QVERIFY(decided.isEmpty()); // how it stands now is not known yet
        relay.send(wire::OnDesk{false, {deskItem(3, 12, after, "my beans")}});
        QTRY_COMPARE(decided.size(), 1);
        QCOMPARE(decided[0][0].toULongLong(), 3ULL);
        QCOMPARE(decided[0][1].value<wire::Decision>(), wire::Decision::forWindow);
        QVERIFY(!here.desk.isOpen());
        QVERIFY(hearsNo(relay, wire::EditPicture{}));
    }

    void whatIsSetAsideOrAsItCameNeedsNoChange()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        QSignalSpy decided(&here.desk, &PictureDesk::decisionRequested);
        const QByteArray bytes = plain({40, 20}, Qt::red);
        relay.send(wire::OnDesk{true, {deskItem(3, 11, bytes, {}), deskItem(4, 12, bytes, {})}});
        QTRY_VERIFY((here.desk.openItem(3), here.desk.isOpen()));
        here.desk.become(Becomes::board);
        QCOMPARE(decided.size(), 1);
        here.desk.openItem(4);
        here.desk.change(turned({}, 1), EditDraft::Step::anew);
        here.desk.become(Becomes::aside);
        QCOMPARE(decided.size(), 2);
        QCOMPARE(decided[1][1].value<wire::Decision>(), wire::Decision::setAside);
        here.desk.openItem(4); // undone at the desk: what was changed is still there
        QCOMPARE(here.desk.view({}).edit.quarterTurns, 1);
    }

    void aChangeThatIsRefusedDecidesNothing()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        QSignalSpy decided(&here.desk, &PictureDesk::decisionRequested);
        const QByteArray bytes = plain({40, 20}, Qt::red);
        relay.send(wire::OnDesk{true, {deskItem(3, 11, bytes, {})}});
        QTRY_VERIFY((here.desk.openItem(3), here.desk.isOpen()));
        here.desk.change(turned({}, 1), EditDraft::Step::anew);
        here.desk.become(Becomes::board);
        const auto asked = relay.hear<wire::EditPicture>();
        QVERIFY(asked);
        relay.send(wire::Refused{asked->id, "item-changed", "Bram has set it aside."});
        QTRY_COMPARE(here.desk.view({}).notice, QString("Bram has set it aside."));
        QVERIFY(!here.desk.view({}).busy && decided.isEmpty());
        // Somebody else's change: what was changed here was of the picture before.
        relay.send(wire::OnDesk{false, {deskItem(3, 15, plain({20, 40}, Qt::red), {})}});
        QTRY_VERIFY(!here.desk.view({}).canUndo);
        QVERIFY(here.desk.view({}).notice.contains("changed this picture"));
        relay.send(wire::OnDesk{true, {}}); // taken back by whoever sent it
        QTRY_VERIFY(!here.desk.isOpen());
    }
};

int vh::testing::picturesOnALine(int argc, char** argv)
{
    TestOnALine test;
    return QTest::qExec(&test, argc, argv);
}
#include "on_a_line.moc"
