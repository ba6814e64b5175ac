// A picture all the way, with the real relay and its own process: from a home to the desk, turned there, onto the board
// of another home and into the group's window.
#include "tests/app/link/relay_here.h"
#include "tests/app/pictures/camera_file.h"
#include "tests/app/pictures/line_fixture.h"
#include "tests/app/pictures/parts.h"

#include <QPainter>

using namespace vh;
using namespace vh::testing;

namespace
{

/// Somebody's program on a line to the real relay.
struct Visits {
    Visits(RelayHere& relay, const store::GroupRow& group, store::Role role)
    {
        QObject::connect(&line, &link::Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* board = std::get_if<wire::Board>(&message))
                items.insert(items.end(), board->items.begin(), board->items.end());
            if (const auto* own = std::get_if<wire::OwnNow>(&message))
                mine.insert(mine.end(), own->lines.begin(), own->lines.end());
        });
        line.open(relay.redeeming(group.id, role));
        if (!QTest::qWaitFor([this] { return line.state() == link::LineState::in; }))
            qFatal("not let in");
    }
    SystemClock clock;
    link::Line line{clock};
    PictureShelf shelf{line};
    PictureSender sender{line};
    WindowNow window{line, shelf};
    std::vector<wire::BoardItem> items;
    std::vector<wire::OwnLine> mine;
};

/// A red corner at its top left.
QByteArray photograph()
{
    QImage image(1200, 800, QImage::Format_RGB32);
    image.fill(QColor(40, 140, 60));
    QPainter(&image).fillRect(0, 0, 300, 200, QColor(200, 30, 30));
    return cameraFile(image, 1);
}

} // namespace

class TestAllTheWay : public QObject
{
    Q_OBJECT
private slots:
    void fromAHomeToTheDeskTheBoardAndTheGroupsWindow()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        Visits leader(relay, group, store::Role::leader);
        Visits ruth(relay, group, store::Role::participant);
        Visits odile(relay, group, store::Role::participant);
        Visits helper(relay, group, store::Role::helper);
        PictureDesk desk(helper.line, helper.shelf);
        WindowWaiting waiting(leader.line, leader.shelf, leader.window);
        QObject::connect(&desk, &PictureDesk::decisionRequested, &desk, [&](quint64 item, wire::Decision decision) {
            helper.line.ask(wire::Decide{{}, item, desk.changeOf(item), decision});
        });
        // Not before she has agreed to it.
        QSignalSpy refused(&ruth.sender, &PictureSender::refused);
        ruth.sender.send(photograph(), {}, "my beans");
        QTRY_COMPARE(refused.size(), 1);
        QCOMPARE(refused[0][1].value<Error>().code, std::string("not-agreed"));
        ruth.line.askFirst(wire::Agree{{}, AgreementKind::pictures, "yes", 1});
        QSignalSpy sent(&ruth.sender, &PictureSender::sent);
        ruth.sender.send(photograph(), {}, "my beans");
        QTRY_VERIFY_WITH_TIMEOUT(!sent.isEmpty() || refused.size() > 1, 20'000);
        QVERIFY2(!sent.isEmpty(), refused.back()[1].value<Error>().message.c_str());
        const quint64 item = sent[0][1].toULongLong();
        QTRY_COMPARE(ruth.mine.size(), std::size_t{1});
        QCOMPARE(ruth.mine.back().item, std::uint64_t{item});
        QVERIFY(ruth.mine.back().picture);

        // The desk turns it, leaves the left half out, and hands it to the leader.
        QTRY_VERIFY((desk.openItem(item), desk.isOpen()));
        QTRY_COMPARE(desk.view({}).picture.size(), QSize(1200, 800));
        PictureEdit edit = turned(desk.view({}).edit, 1);
        edit.cut = QRectF(0, 0, 0.5, 1);
        edit.caption = "Ruth's beans";
        desk.change(edit, EditDraft::Step::anew);
        desk.become(Becomes::window);
        QTRY_COMPARE_WITH_TIMEOUT(waiting.view().item, item, 20'000);
        QCOMPARE(waiting.view().text, QString("Ruth's beans"));
        waiting.show(item, true);
        QTRY_COMPARE(odile.window.shown().picture.size(), QSize(800, 600));
        const QColor corner = odile.window.shown().picture.pixelColor(790, 10); // top left is top right
        QVERIFY2(corner.red() > 150 && corner.green() < 90, qPrintable(corner.name()));
        QCOMPARE(odile.window.shown().caption, QString("Ruth's beans")); // nobody agreed to her name being seen
        waiting.show(item, false);
        QTRY_VERIFY(!odile.window.shown().isShown());
        QTRY_COMPARE(waiting.view().item, 0ULL); // it waits no longer

        // And onto the board, from where its owner takes it back.
        desk.openItem(item);
        desk.become(Becomes::board);
        QTRY_COMPARE_WITH_TIMEOUT(odile.items.size(), std::size_t{1}, 20'000); // 3 s later
        QVERIFY(odile.items.back().picture && odile.items.back().kind == wire::ItemKind::picture);
        const wire::Hash hash = odile.items.back().picture->hash;
        QTRY_COMPARE(odile.shelf.small(hash).size(), QSize(240, 180));
        ruth.line.ask(wire::TakeBackOwn{{}, item});
        QTRY_VERIFY(odile.items.back().gone);
        Visits late(relay, group, store::Role::participant);
        (void)late.shelf.picture(hash);
        QTRY_VERIFY(late.shelf.isWithheld(hash));
    }
};

int vh::testing::picturesAllTheWay(int argc, char** argv)
{
    TestAllTheWay test;
    return QTest::qExec(&test, argc, argv);
}
#include "all_the_way.moc"
