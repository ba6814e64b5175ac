// Pictures with the real process: all the way up and to everybody, once, and gone when they are taken back; what is no
// picture, or breaks what reads it, costs that picture and nothing else.
#include "server/hall/coming_pictures.h"
#include "tests/server/hall/picture_cast.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;
using photos::motley;
using photos::writeJpeg;
using wire::Decision;
using wire::DeskState;

namespace
{

/// Several pieces long.
const Bytes& garden()
{
    static const Bytes file = photos::withMetadata(writeJpeg(photos::grainy(640, 400, 5), 85));
    return file;
}
Bytes small(int width = 60, int height = 40)
{
    return writeJpeg(motley(width, height), 85);
}
Bytes asking(std::string_view what)
{
    Bytes bytes = small(16, 16);
    bytes.insert(bytes.end(), what.begin(), what.end());
    return bytes;
}

} // namespace

class TestPicturesOfHall : public QObject
{
    Q_OBJECT
private slots:
    void init() { begin(VH_PHOTOS_PROGRAM); }
    void cleanup()
    {
        for (Visitor* each : {&m_ann, &m_kim, &m_bo, &m_cy})
            *each = {};
        m_relay.reset();
    }

    void aPictureGoesAllTheWayUpAndNobodySeesItBefore()
    {
        m_ann->acked(wire::OpenBoard{RequestId::random(), true}); // lines go up unread; pictures never
        QVERIFY(piecesOf(garden()) > 2);
        const wire::DeskItem held = inHand(sent(m_bo, garden(), "My <b>beans</b>"));
        QCOMPARE(held.kind, wire::ItemKind::picture);
        QCOMPARE(held.text, std::string("My <b>beans</b>"));
        QCOMPARE(held.picture->width, 640U);
        QCOMPARE(held.picture->height, 400U);
        const wire::Hash hash = held.picture->hash;
        const Bytes shown = fetched(m_kim, hash);
        QCOMPARE(store::sha256(shown), hash);
        for (const std::string_view trace : photos::kTraces)
            QVERIFY2(!photos::holds(shown, trace), trace.data());
        QCOMPARE(fetched(m_bo, hash), shown);
        QCOMPARE(notFetched(m_cy, hash), std::string("part-unknown"));
        QVERIFY(!m_cy->has<wire::Board>());

        decide(m_kim, held, Decision::show);
        onDesk(m_kim, held.item, DeskState::goingUp);
        QCOMPARE(notFetched(m_cy, hash), std::string("part-unknown"));
        m_relay->clock.advance(wire::kGoesUpAfter);
        const wire::BoardItem up = m_cy->wait<wire::Board>().items.front();
        QCOMPARE(up.kind, wire::ItemKind::picture);
        QCOMPARE(up.picture->hash, hash);
        QVERIFY(up.name.empty()); // Bo has not agreed to be seen
        QCOMPARE(fetched(m_cy, hash), shown);
        const GroupId other = m_relay->addGroup("Friday voices");
        const Visitor stranger = m_relay->enrol(other, Role::leader, "Eve");
        QCOMPARE(notFetched(stranger, hash), std::string("part-unknown"));
    }

    void piecesComeInOrderOrFromTheBeginning()
    {
        const RequestId id = RequestId::random();
        QCOMPARE(m_bo->refused(piece(garden(), id, 1)).code, std::string("piece-unknown"));
        m_bo->acked(piece(garden(), id, 0));
        QCOMPARE(m_bo->refused(piece(garden(), id, 2)).code, std::string("piece-unknown"));
        QCOMPARE(m_bo->refused(piece(garden(), id, 1)).code, std::string("piece-unknown")); // nothing is left of it
        m_bo->acked(piece(garden(), id, 0));
        QCOMPARE(m_bo->refused(piece(garden(), RequestId::random(), 1)).code, std::string("piece-unknown"));
        inHand(sent(m_bo, garden(), {}, id));
    }

    void aCutLineBeginsAgainAndThePictureIsThereOnce()
    {
        const RequestId id = RequestId::random();
        m_bo->acked(piece(garden(), id, 0, "Beans"));
        m_bo->drop();
        const Visitor bo = m_relay->again(m_bo);
        const std::uint64_t item = sent(bo, garden(), "Beans", id);
        QCOMPARE(bo->acked(piece(garden(), id, 0, "Beans")).item, std::optional(item)); // nothing more need come
        QCOMPARE(sent(bo, small(), {}, RequestId::random()), item + 1);
        const Visitor again = m_relay->again(m_bo);
        QCOMPARE(again.welcome.own, (std::vector<std::uint64_t>{item, item + 1}));
        m_relay->restart();
        QCOMPARE(m_relay->again(m_bo)->acked(piece(garden(), id, 0, "Beans")).item, std::optional(item));
    }

    void whatIsNoPictureIsRefusedInWords()
    {
        const std::string words = "This is a letter, not a picture.";
        QCOMPARE(refusedOf(m_bo, Bytes(words.begin(), words.end())), std::string("picture-unknown"));
        Bytes half = garden();
        half.resize(garden().size() / 3);
        QCOMPARE(refusedOf(m_bo, half), std::string("picture-cut-short"));
        QCOMPARE(refusedOf(m_bo, photos::jpegThatSaysItIs(60'000, 60'000)), std::string("picture-too-large"));
        wire::PicturePiece rubbish = piece(small(), RequestId::random(), 0);
        rubbish.base64 = "%%%%";
        QCOMPARE(m_bo->refused(rubbish).code, std::string("piece-unreadable"));
        wire::PicturePiece endless = piece(small(), RequestId::random(), 0);
        endless.pieces = wire::kPicturePieces + 1;
        QCOMPARE(m_bo->refused(endless).code, std::string("picture-too-large"));
        wire::PicturePiece tooLong = piece(small(), RequestId::random(), 0);
        tooLong.text = std::string(501, 'a');
        QCOMPARE(m_bo->refused(tooLong).code, std::string("text-too-long"));
        inHand(sent(m_bo, small())); // and none of this is in the way of a good one
    }

    void whatBreaksTheProcessLosesOnePictureAndNoClass()
    {
        begin(VH_PHOTOS_BREAKING);
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        QCOMPARE(refusedOf(m_bo, asking("please crash")), std::string("picture-unmade"));
        QCOMPARE(refusedOf(m_bo, asking("please lie")), std::string("picture-unmade"));
        press(*m_ann.line, CommandKind::goOn, opened.lease, *started.serial);
        m_cy->wait<wire::PlaceNow>([](const auto& place) { return place.place.section == 1; });
        inHand(sent(m_bo, small()));
    }

    void theDeskCutsAndTurnsAndCaptions()
    {
        const wire::DeskItem held = inHand(sent(m_bo, small(80, 40)));
        const Bytes before = fetched(m_kim, held.picture->hash);
        QVERIFY(isOnDisk(*m_relay, before));
        wire::EditPicture edit{RequestId::random(), held.item, held.change, 1, 0, 0, 0.5, 1, "Half of it"};
        m_kim->acked(edit);
        const wire::DeskItem after = changed(held);
        QCOMPARE(after.state, DeskState::held);
        QCOMPARE(after.text, std::string("Half of it"));
        QCOMPARE(after.picture->width, 40U); // half of 80, turned: 40 by 40
        QCOMPARE(after.picture->height, 40U);
        QVERIFY(after.picture->hash != held.picture->hash);
        QCOMPARE(notFetched(m_kim, held.picture->hash), std::string("part-unknown"));
        QVERIFY(!isOnDisk(*m_relay, before));
        m_kim->acked(edit); // asked again: the same answer, and nothing is done
        const auto stale = m_kim->refused(wire::Decide{RequestId::random(), held.item, held.change, Decision::show});
        QCOMPARE(stale.code, std::string("item-changed"));
        edit = {RequestId::random(), held.item, after.change, 0, 0.5, 0, 0.5, 1, {}};
        QCOMPARE(m_kim->refused(edit).code, std::string("cut-impossible"));
        QCOMPARE(m_bo->refused(edit).code, std::string("not-allowed"));

        const wire::BoardItem up = onBoard(after);
        m_kim->acked(wire::EditPicture{RequestId::random(), held.item, up.change, 0, 0, 0, 1, 1, "Beans"});
        const wire::BoardItem captioned = m_cy->wait<wire::Board>().items.front();
        QCOMPARE(captioned.item, held.item);
        QCOMPARE(captioned.text, std::string("Beans"));
        QCOMPARE(captioned.picture->hash, after.picture->hash);
        const auto board = m_relay->again(m_cy).welcome.board;
        QCOMPARE(board.size(), std::size_t{1});
        QCOMPARE(board.front().text, std::string("Beans"));
        m_ann->say(wire::ActsAsk{});
        QCOMPARE(m_ann->wait<wire::Acts>().acts.front().what, std::string("picture-changed"));
    }

    void onlyWhoAgreedSendsPicturesAndTakingItBackTakesThemBack()
    {
        QCOMPARE(refusedOf(m_cy, small()), std::string("not-agreed"));
        const wire::DeskItem held = inHand(sent(m_bo, garden(), "Beans"));
        const wire::BoardItem up = onBoard(inHand(sent(m_bo, small(), "Peas")));
        const Bytes bytes = fetched(m_kim, held.picture->hash);
        QVERIFY(isOnDisk(*m_relay, bytes));
        agree(*m_bo.line, AgreementKind::pictures, "no");
        QVERIFY(!isOnDisk(*m_relay, bytes));
        QVERIFY(m_cy->wait<wire::Board>([&](const auto& each) { return each.items.front().gone; }).items.front().item ==
                up.item);
        const wire::DeskItem gone = onDesk(m_kim, held.item, DeskState::setAside);
        QVERIFY(gone.text.empty() && !gone.picture);
        QCOMPARE(notFetched(m_kim, held.picture->hash), std::string("part-unknown"));
        QCOMPARE(notFetched(m_bo, up.picture->hash), std::string("part-unknown"));
        QCOMPARE(refusedOf(m_bo, small()), std::string("not-agreed"));
    }

    void whatIsTakenBackIsGoneFromTheDiskToo()
    {
        const wire::BoardItem up = onBoard(inHand(sent(m_bo, garden(), "Beans")));
        const Bytes bytes = fetched(m_cy, up.picture->hash);
        QVERIFY(isOnDisk(*m_relay, bytes));
        m_bo->acked(wire::TakeBackOwn{RequestId::random(), up.item});
        QVERIFY(!isOnDisk(*m_relay, bytes));
        QVERIFY(m_cy->wait<wire::Board>().items.front().gone);
        for (const Visitor* each : {&m_cy, &m_kim, &m_bo})
            QCOMPARE(notFetched(*each, up.picture->hash), std::string("part-unknown"));
        const wire::DeskItem gone = onDesk(m_kim, up.item, DeskState::setAside);
        QCOMPARE(m_kim->refused(wire::Decide{RequestId::random(), gone.item, gone.change, Decision::show}).code,
                 std::string("item-unknown"));
    }

    void thePictureInTheWindowEndsWithTheLeadersNextMove()
    {
        const OpenedClass opened = openSmallClass(*m_ann.line);
        const wire::Ack started = press(*m_ann.line, CommandKind::start, opened.lease, 0);
        const wire::DeskItem held = inHand(sent(m_bo, small(), "Beans"));
        QCOMPARE(m_ann->refused(wire::ShowPicture{RequestId::random(), held.item, true}).code,
                 std::string("picture-unread"));
        decide(m_kim, held, Decision::forWindow);
        onDesk(m_ann, held.item, DeskState::forWindow);
        m_ann->acked(wire::ShowPicture{RequestId::random(), held.item, true});
        const auto shown = m_cy->wait<wire::PictureNow>();
        QCOMPARE(shown.picture->hash, held.picture->hash);
        QCOMPARE(shown.text, std::string("Beans"));
        fetched(m_cy, shown.picture->hash);
        m_relay->restart();
        comeBack();
        QCOMPARE(m_cy.welcome.inWindow->item, held.item);
        const wire::Ack waits = press(*m_ann.line, CommandKind::wait, m_ann.welcome.place->lease, *started.serial);
        m_cy->wait<wire::PlaceNow>();
        QVERIFY(!m_cy->has<wire::PictureNow>()); // to hold the clock is no move
        press(*m_ann.line, CommandKind::goOn, *waits.lease, *waits.serial);
        QVERIFY(!m_cy->wait<wire::PictureNow>().picture);
        QCOMPARE(notFetched(m_cy, held.picture->hash), std::string("part-unknown"));
        m_relay->restart();
        comeBack();
        QVERIFY(!m_cy.welcome.inWindow);
        m_ann->acked(wire::TakeItem{RequestId::random(), held.item});
        onDesk(m_kim, held.item, DeskState::seenTo);
    }

    void thePictureInTheWindowEndsWhenItIsTakenOff()
    {
        const wire::BoardItem up = onBoard(inHand(sent(m_bo, small(), "Beans")));
        const auto show = [&](bool on) { m_ann->acked(wire::ShowPicture{RequestId::random(), up.item, on}); };
        show(true);
        QVERIFY(m_cy->wait<wire::PictureNow>().picture);
        show(false);
        QVERIFY(!m_cy->wait<wire::PictureNow>().picture);
        show(true);
        QVERIFY(m_cy->wait<wire::PictureNow>().picture);
        m_bo->acked(wire::TakeBackOwn{RequestId::random(), up.item});
        QVERIFY(!m_cy->wait<wire::PictureNow>().picture);
        QVERIFY(!m_relay->again(m_cy).welcome.inWindow);
        const wire::Ack line = m_bo->acked(wire::Write{RequestId::random(), "Not a picture"});
        QCOMPARE(m_ann->refused(wire::ShowPicture{RequestId::random(), *line.item, true}).code,
                 std::string("item-unknown"));
        const wire::DeskItem words = onDesk(m_kim, *line.item, DeskState::held);
        QCOMPARE(m_kim->refused(wire::Decide{RequestId::random(), words.item, words.change, Decision::forWindow}).code,
                 std::string("decision-impossible"));
    }

    void aRestartGivesAllOfThemBack()
    {
        const wire::DeskItem held = inHand(sent(m_bo, small(50, 50), "Held"));
        const wire::BoardItem up = onBoard(inHand(sent(m_bo, garden(), "Up")));
        const Bytes bytes = fetched(m_cy, up.picture->hash);
        m_relay->restart();
        comeBack();
        QCOMPARE(m_cy.welcome.board.front().picture->hash, up.picture->hash);
        QCOMPARE(fetched(m_cy, up.picture->hash), bytes);
        QCOMPARE(onDesk(m_kim, held.item, DeskState::held).picture->hash, held.picture->hash);
        fetched(m_kim, held.picture->hash);
        QCOMPARE(m_bo.welcome.own.size(), std::size_t{2});
    }

    void nothingIsKeptLongerThanTheGroupKeepsItsBoard()
    {
        const wire::BoardItem up = onBoard(inHand(sent(m_bo, garden(), "Beans")));
        const wire::DeskItem aside = inHand(sent(m_bo, small(), "Peas"));
        decide(m_kim, aside, Decision::setAside);
        const Bytes bytes = fetched(m_cy, up.picture->hash);
        const Bytes setAside = fetched(m_kim, aside.picture->hash);
        QVERIFY(isOnDisk(*m_relay, setAside));
        const auto sweepAfter = [&](Millis time) {
            m_relay->clock.advance(time);
            (void)m_relay->store().run([at = m_relay->clock.now()](store::Tables& tables) -> Result<std::int64_t> {
                return tables.sweep(at);
            });
        };
        sweepAfter(store::Board::kUndoable + Millis{1}); // nobody can bring it back any more
        QVERIFY(!isOnDisk(*m_relay, setAside));
        sweepAfter(std::chrono::hours{24} * 29);
        QVERIFY(isOnDisk(*m_relay, bytes));
        sweepAfter(std::chrono::hours{24});
        QVERIFY(!isOnDisk(*m_relay, bytes));
    }

    void thereIsALimitToWhatWaitsAndQuietIsQuiet()
    {
        for (int i = 0; i < 5; ++i)
            inHand(sent(m_bo, small(20 + i, 20)));
        QCOMPARE(m_bo->refused(piece(garden(), RequestId::random(), 0)).code, std::string("many-held")); // at once
        QCOMPARE(refusedOf(m_bo, small()), std::string("many-held"));
        m_bo->acked(wire::Write{RequestId::random(), "Lines are counted by themselves"});
        agree(*m_cy.line, AgreementKind::pictures, "yes");
        m_kim->acked(wire::SetRest{RequestId::random(), m_cy.welcome.person, wire::Rest::tenMinutes, {}});
        QCOMPARE(refusedOf(m_cy, small()), std::string("quiet"));
        const RequestId earlier = RequestId::random(); // there before, and its answer was lost: it is not refused now
        m_kim->acked(wire::SetRest{RequestId::random(), m_cy.welcome.person, wire::Rest::none, {}});
        const std::uint64_t item = sent(m_cy, small(), {}, earlier);
        m_kim->acked(wire::SetRest{RequestId::random(), m_cy.welcome.person, wire::Rest::tenMinutes, {}});
        QCOMPARE(m_cy->acked(piece(small(), earlier, 0)).item, std::optional(item));
        m_kim->acked(piece(small(), RequestId::random(), 0)); // a helper's is held like everybody's
    }

    void aRelayWithoutItsProgramSaysSoAndGoesOn()
    {
        begin({});
        QCOMPARE(refusedOf(m_bo, small()), std::string("pictures-off"));
        m_bo->acked(wire::Write{RequestId::random(), "Then in words"});
    }

    void onlySoManyBytesAreUnderWayAndNotForLong()
    {
        hall::PictureRoom all(hall::kPictureRoomOfAll);
        hall::ComingPictures coming(&all);
        const std::vector<std::uint8_t> bytes(wire::kPicturePieceBytes);
        // Nobody looks into who sends it: any addresses will do.
        const std::array<char, 16> lines{};
        const auto line = [&](std::size_t number) { return reinterpret_cast<const hall::Session*>(&lines.at(number)); };
        const Instant start{Millis{0}};
        wire::PicturePiece piece{RequestId::random(), RequestId::random(), 0, wire::kPicturePieces, {}, {}};
        std::size_t taken = 0;
        std::string refused;
        for (std::size_t each = 1; refused.empty(); ++each)
            for (piece.piece = 0; piece.piece + 1 < piece.pieces && refused.empty(); ++piece.piece)
                if (const auto took = coming.take(line(each), piece, {}, bytes, start))
                    taken += bytes.size();
                else
                    refused = took.error().code;
        QCOMPARE(refused, std::string("pictures-busy"));
        QCOMPARE(taken, hall::kPictureRoomOfHall);
        QVERIFY(all.taken() < taken); // what was refused has gone
        coming.forget(line(1));
        coming.forget(start + hall::kPieceKept);
        QVERIFY(all.taken() > 0);
        coming.forget(start + hall::kPieceKept + Millis{1});
        QCOMPARE(all.taken(), std::size_t{0});
    }

private:
    void begin(const std::filesystem::path& program)
    {
        cleanup();
        m_relay = std::make_unique<TestRelay>();
        m_relay->takePicturesWith(program);
        m_relay->restart();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_kim = m_relay->enrol(m_group, Role::moderator, "Kim");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_cy = m_relay->enrol(m_group, Role::participant, "Cy");
        agree(*m_bo.line, AgreementKind::pictures, "yes");
    }
    void comeBack()
    {
        for (Visitor* each : {&m_ann, &m_kim, &m_bo, &m_cy})
            *each = m_relay->again(*each);
    }
    wire::DeskItem inHand(std::uint64_t item) const { return onDesk(m_kim, item, DeskState::held); }
    /// As the desk hears of it after an edit.
    wire::DeskItem changed(const wire::DeskItem& before) const
    {
        return m_kim
            ->wait<wire::OnDesk>([&](const wire::OnDesk& desk) {
                return !desk.items.empty() && desk.items.front().item == before.item &&
                       desk.items.front().change > before.change;
            })
            .items.front();
    }
    wire::BoardItem onBoard(const wire::DeskItem& held)
    {
        decide(m_kim, held, Decision::show);
        onDesk(m_kim, held.item, DeskState::goingUp);
        m_relay->clock.advance(wire::kGoesUpAfter);
        return m_cy->wait<wire::Board>([&](const auto& each) { return each.items.front().item == held.item; })
            .items.front();
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_kim;
    Visitor m_bo;
    Visitor m_cy;
};

QTEST_GUILESS_MAIN(TestPicturesOfHall)
#include "test_pictures_of_hall.moc"
