// The picture that the leader shows to all, the ones that wait for that, and what a participant's program keeps of
// pictures. Against a relay that says what the test tells it to.
#include "tests/app/pictures/line_fixture.h"
#include "tests/app/pictures/parts.h"

#include <QMimeData>

using namespace vh;
using namespace vh::testing;

namespace
{

wire::PictureNow nowOf(std::uint64_t seq, std::uint64_t item, const QByteArray& bytes)
{
    wire::PictureNow now;
    now.seq = seq;
    now.item = item;
    now.picture = wire::PictureAbout{hashOf(bytes), 40, 20};
    now.name = "Ruth";
    now.text = "my beans";
    return now;
}

wire::PictureNow nothing(std::uint64_t seq)
{
    wire::PictureNow now;
    now.seq = seq;
    return now;
}

wire::DeskItem waitingFor(std::uint64_t item, const QByteArray& bytes)
{
    wire::DeskItem made = deskItem(item, item + 100, bytes, "my beans");
    made.state = wire::DeskState::forWindow;
    return made;
}

/// A leader's program.
struct Leads : Here {
    using Here::Here;
    WindowNow window{line, shelf};
    WindowWaiting waiting{line, shelf, window};
    QSignalSpy said{&waiting, &WindowWaiting::refused};
};

const QByteArray kRed = plain({40, 20}, Qt::red);
const QByteArray kBlue = plain({40, 20}, Qt::blue);

} // namespace

class TestInTheWindow : public QObject
{
    Q_OBJECT
private slots:
    void whatIsShownIsFetchedAndGoesWhenItIsOver()
    {
        ScriptedRelay relay;
        relay.welcome.seq = 10;
        Leads here(relay);
        QVERIFY(here.isIn());
        QVERIFY(!here.window.shown().isShown());
        relay.send(nowOf(11, 3, kRed));
        QTRY_COMPARE(here.window.item(), std::uint64_t{3});
        QCOMPARE(here.window.shown().words, QString("The picture is on its way."));
        QCOMPARE(here.window.shown().caption, QString("Ruth: my beans"));
        QVERIFY(relay.hear<wire::PictureAsk>());
        relay.sendBytes(partOf(hashOf(kRed), kRed));
        QTRY_COMPARE(here.window.shown().picture.size(), QSize(40, 20));
        relay.send(nothing(12));
        QTRY_VERIFY(!here.window.shown().isShown());
    }

    void whatTheWelcomeSaysStandsForAllBefore()
    {
        ScriptedRelay relay;
        relay.welcome.seq = 10;
        relay.welcome.inWindow = nowOf(9, 3, kRed);
        Leads here(relay);
        QVERIFY(here.isIn());
        QCOMPARE(here.window.item(), std::uint64_t{3});
        relay.send(nothing(10)); // of before the welcome
        relay.send(nowOf(11, 4, kBlue));
        QTRY_COMPARE(here.window.item(), std::uint64_t{4});
        relay.welcome.inWindow.reset(); // and it was over while the line was lost
        relay.welcome.seq = 20;
        here.line.pullCable();
        QTRY_VERIFY(!here.window.shown().isShown());
    }

    void onePictureAtATimeWaitsForTheWindowAndGoesOnceItWasShown()
    {
        ScriptedRelay relay;
        Leads here(relay);
        QVERIFY(here.isIn());
        QCOMPARE(here.waiting.view().item, 0ULL);
        relay.send(wire::OnDesk{true, {waitingFor(3, kRed), waitingFor(4, kBlue), deskItem(5, 9, kRed, "held")}});
        QTRY_COMPARE(here.waiting.view().item, 3ULL);
        QCOMPARE(here.waiting.view().more, 1);
        QCOMPARE(here.waiting.view().name, QString("Ruth"));
        QCOMPARE(here.waiting.view().text, QString("my beans"));
        here.waiting.show(3, true);
        auto asked = relay.hear<wire::ShowPicture>();
        QVERIFY(asked && asked->item == 3 && asked->on);
        relay.send(ackOf(asked->id));
        relay.send(nowOf(11, 3, kRed));
        QTRY_VERIFY(here.waiting.view().shown);
        QCOMPARE(here.waiting.view().item, 3ULL);
        relay.send(nothing(12)); // with her next move: it waits no longer
        auto taken = relay.hear<wire::TakeItem>();
        QVERIFY(taken && taken->item == 3);
        wire::DeskItem seen = waitingFor(3, kRed);
        seen.state = wire::DeskState::seenTo;
        relay.send(wire::OnDesk{false, {seen}});
        QTRY_COMPARE(here.waiting.view().item, 4ULL);
        QVERIFY(!here.waiting.view().shown);
        relay.send(nowOf(13, 4, kBlue)); // by another leader, who takes it away again
        QTRY_VERIFY(here.waiting.view().shown);
        relay.send(nothing(14));
        QTRY_VERIFY(!here.waiting.view().shown);
        QVERIFY(hearsNo(relay, wire::TakeItem{}));
        here.waiting.done(4);
        taken = relay.hear<wire::TakeItem>();
        QVERIFY(taken && taken->item == 4);
        here.waiting.show(4, true);
        asked = relay.hear<wire::ShowPicture>();
        QVERIFY(asked);
        relay.send(wire::Refused{asked->id, "item-unknown", "This is no longer there."});
        QTRY_COMPARE(here.said.size(), 1);
    }

    void aHomeOpensOnePageAtATime()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        HomePictures home(here.line);
        QCOMPARE(home.page(), HomePictures::Page::none);
        home.look({7, hashOf(kRed), "Ruth", "my beans", {}, false, false});
        QCOMPARE(home.page(), HomePictures::Page::large);
        QVERIFY(home.largeView().picture.isNull());
        QVERIFY(relay.hear<wire::PictureAsk>());
        relay.sendBytes(partOf(hashOf(kRed), kRed));
        QTRY_VERIFY(!home.largeView().picture.isNull());
        QMimeData pasted;
        pasted.setImageData(QImage::fromData(kBlue));
        home.paste(&pasted);
        QCOMPARE(home.page(), HomePictures::Page::send);
        QTRY_COMPARE(home.sendView().stage, SendView::Stage::looking);
        home.send("for the board");
        QCOMPARE(home.sendView().stage, SendView::Stage::agreeing); // once
        home.flow().agree(true);
        auto piece = relay.hear<wire::PicturePiece>();
        QVERIFY(piece && piece->text == "for the board");
        QCOMPARE(home.page(), HomePictures::Page::large);
        home.closeLarge();
        QCOMPARE(home.page(), HomePictures::Page::none);
        home.paste(&pasted);
        QTRY_COMPARE(home.sendView().stage, SendView::Stage::looking);
        home.send({});
        QCOMPARE(home.page(), HomePictures::Page::none); // asked no more
        QCOMPARE(home.sender().going().size(), std::size_t{2});
    }

    void whileTheClassAsksForSomethingOnlyWhatIsLookedAtIsFetched()
    {
        ScriptedRelay relay;
        Here here(relay);
        QVERIFY(here.isIn());
        here.shelf.setHeldBack(true);
        QVERIFY(here.shelf.small(hashOf(kRed)).isNull());
        QVERIFY(here.shelf.picture(hashOf(kBlue)).isNull());
        auto asked = relay.hear<wire::PictureAsk>();
        QVERIFY(asked && asked->hash == hashOf(kBlue));
        relay.sendBytes(partOf(hashOf(kBlue), kBlue));
        QTRY_VERIFY(!here.shelf.picture(hashOf(kBlue)).isNull());
        QVERIFY(hearsNo(relay, wire::PictureAsk{}));
        here.shelf.setHeldBack(false);
        asked = relay.hear<wire::PictureAsk>();
        QVERIFY(asked && asked->hash == hashOf(kRed));
    }
};

int vh::testing::picturesInTheWindow(int argc, char** argv)
{
    TestInTheWindow test;
    return QTest::qExec(&test, argc, argv);
}
#include "in_the_window.moc"
