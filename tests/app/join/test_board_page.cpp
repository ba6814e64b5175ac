// The board as a person meets it: nothing is markup, the field takes any script and no more than there is room for, the
// list is turned like pages; and against the real relay, what was written while the line was lost goes up once.
#include "app/join/answers_read.h"
#include "app/join/board_list.h"
#include "app/join/join_control.h"
#include "app/join/words_field.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "tests/app/join/join_steps.h"
#include "tests/app/link/relay_here.h"
#include "tests/app/look/paint_record.h"

#include <QClipboard>
#include <QLabel>
#include <QMimeData>
#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::join;
using namespace vh::testing;

namespace
{

wire::BoardItem itemOf(std::uint64_t item, const std::string& text, const std::string& name = "Odile",
                       wire::ItemKind kind = wire::ItemKind::line)
{
    wire::BoardItem made;
    made.item = made.change = item;
    made.text = text;
    made.name = name;
    made.kind = kind;
    return made;
}
wire::ToClient answer(std::uint64_t item, const std::string& text = "Yes, at ten.")
{
    return wire::ToClient(wire::Answer{item, "Bram", "Is there a class tomorrow?", text, Instant{}});
}

const Place kWater{3, 0, 0, 0};

} // namespace

class TestBoardPage : public QObject
{
    Q_OBJECT
private slots:
    void initTestCase()
    {
        qunsetenv("DBUS_SESSION_BUS_ADDRESS"); // keys in files: no keychain is asked
        QVERIFY(look::Look{}.applyTo(*qApp));
    }

    void nothingIsTakenForMarkup()
    {
        const std::string tags = "<b>loud</b> <img src=x> &amp; https://example.org/?a=1";
        ClassHere here;
        here.welcome.board = {itemOf(1, tags, "<i>Odile</i>"), itemOf(2, tags, {}, wire::ItemKind::notice)};
        JoinModel model;
        intoClass(model, here);
        here.place(model, kWater);
        JoinRoom room;
        room.resize(1366, 700);
        const auto allPainted = [&] {
            room.setState(model.view(&here.follow));
            room.show();
            QCoreApplication::processEvents();
            QString all;
            const PaintRecord record(room, PaintRecord::Read::wordsOnly);
            for (const PaintedText& each : record.texts())
                all += each.text;
            for (const QLabel* label : room.findChildren<QLabel*>())
                if (label->textFormat() != Qt::PlainText)
                    qFatal("a label that reads markup");
            return all.remove(' ');
        };
        QVERIFY(allPainted().contains("<b>loud</b>"));
        model.pressWrite();
        model.write(QString::fromStdString(tags));
        QString painted = allPainted();
        QVERIFY(painted.contains("<b>loud</b><imgsrc=x>&amp;https://example.org/?a=1"));
        QVERIFY(painted.contains("<i>Odile</i>"));
        QCOMPARE(room.findChild<WordsField*>()->toPlainText(), QString::fromStdString(tags));
        (void)model.goBack();
        model.take(answer(9, tags));
        painted = allPainted();
        QVERIFY(painted.contains("<b>loud</b>") && painted.contains("&amp;"));
    }

    void theFieldTakesAnyScriptAndNeverMoreThanThereIsRoomFor()
    {
        WordsField field(20);
        QSignalSpy changed(&field, &WordsField::wordsChanged);
        field.setWords("Dzień dobry \u0928\u092e\u0938\u094d\u0924\u0947");
        QCOMPARE(changed.size(), 0); // pushing state emits nothing
        field.setWords({});
        QTest::keyClicks(&field, "Good morning");
        QCOMPARE(changed.size(), 12);
        // Pasted rubbish: control characters, an override, and far too much.
        auto* mime = new QMimeData;
        mime->setText(QString(QChar(0)) + QChar(0x202e) + "\x1b[31m" + QString(1'000'000, 'x'));
        QApplication::clipboard()->setMimeData(mime);
        field.paste();
        QCOMPARE(field.toPlainText(), "Good morning[31mxxxx");
        field.setWords({});
        const QString family =
            QString::fromUtf8("\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x91\xA7");
        QApplication::clipboard()->setText(QString(17, 'a') + family); // 17 and 5 code points
        field.paste();
        QCOMPARE(field.toPlainText(), QString(17, 'a')); // whole or not at all
        QCOMPARE(shortened(QString(15, 'a') + family, 20), QString(15, 'a') + family);
    }

    void whatIsOverTheLimitGoesFromWhereItWasPutIn()
    {
        WordsField field(10);
        field.setWords("front end");
        field.moveCursor(QTextCursor::Start);
        QApplication::clipboard()->setText("12345");
        field.paste();
        QCOMPARE(field.toPlainText(), "1front end");
        QCOMPARE(field.textCursor().position(), 1);
    }

    void enterSendsOnceHoweverItTrembles()
    {
        HandClock clock{kNoon};
        WordsField field(500);
        field.setClock(clock);
        QSignalSpy sends(&field, &WordsField::sendRequested);
        QTest::keyClick(&field, Qt::Key_Return);
        clock.advance(Millis{300});
        QTest::keyClick(&field, Qt::Key_Return);
        QCOMPARE(sends.size(), 1);
        clock.advance(Millis{400});
        QTest::keyClick(&field, Qt::Key_Enter);
        QCOMPARE(sends.size(), 2);
        QTest::keyClick(&field, Qt::Key_Return, Qt::ShiftModifier);
        QCOMPARE(sends.size(), 2);
        QCOMPARE(field.toPlainText(), "\n");
    }

    void theListIsTurnedLikePagesAndStaysAtItsEnd()
    {
        BoardList list;
        list.resize(1200, 400);
        list.show();
        std::vector<BoardRow> rows;
        const auto seen = [&] {
            QStringList texts;
            for (const auto* each : list.findChildren<BoardLineView*>())
                if (each->isVisible())
                    texts.append(each->row().text);
            return texts;
        };
        for (std::uint64_t i = 1; i <= 40; ++i) {
            BoardRow row;
            row.key = i;
            row.head = "Odile";
            row.text = QString::number(i);
            rows.push_back(row);
        }
        list.setRows(rows);
        QCOMPARE(seen().last(), "40");
        QVERIFY(list.hasEarlier() && !list.hasLater());
        const QString first = seen().first();
        list.earlier();
        QCOMPARE(seen().last().toInt(), first.toInt() - 1);
        const QStringList page = seen();
        rows.push_back(rows.back());
        rows.back().key = 41;
        list.setRows(rows); // somebody who reads is left where they are
        QCOMPARE(seen(), page);
        QSet<QString> all(page.begin(), page.end());
        while (list.hasEarlier()) {
            list.earlier();
            for (const QString& each : seen())
                all.insert(each);
        }
        QCOMPARE(seen().first(), "1");
        while (list.hasLater()) {
            list.later();
            for (const QString& each : seen())
                all.insert(each);
        }
        QCOMPARE(all.size(), 40); // each was seen
        rows.back().text = QString(500, 'W');
        list.setRows(rows);
        QVERIFY(seen().contains(rows.back().text));
        for (const auto* each : list.findChildren<BoardLineView*>())
            if (each->isVisible())
                QVERIFY(each->geometry().bottom() < list.height());
    }

    void whatWasWrittenWhileTheLineWasLostGoesUpOnce()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        SystemClock clock;
        link::Line desk(clock);
        QStringList read;
        connect(&desk, &link::Line::received, this, [&](const wire::ToClient& message) {
            if (const auto* onDesk = std::get_if<wire::OnDesk>(&message))
                for (const wire::DeskItem& item : onDesk->items)
                    if (item.state == wire::DeskState::held)
                        read.append(QString::fromStdString(item.text));
        });
        desk.open(relay.redeeming(group.id, store::Role::helper));
        QTemporaryDir folder;
        JoinSetup setup{&clock, folder.path(), sound::DeviceChoice::fileOf("/nowhere.wav", sound::Pace::byHand), true};
        JoinRoom room;
        JoinControl home(setup, room);
        wire::JoinLink link;
        link.host = "127.0.0.1";
        link.port = relay.entry(link::Entry::How::redeem).port;
        link.token = relay.link(group.id, store::Role::participant);
        home.startNew();
        emit room.submitRequested({QString::fromStdString(wire::format(link)), {}, "Ruth"});
        QTRY_VERIFY(home.model().screen() == Screen::agreements);
        while (home.model().screen() == Screen::agreements)
            emit room.choiceRequested(0);
        emit room.submitRequested({{}, {}});
        emit room.choiceRequested(2); // just listening
        QTRY_VERIFY(desk.state() == link::LineState::in);

        emit room.writeRequested();
        const auto write = [&](const QString& words) {
            emit room.draftChanged(words);
            emit room.sendRequested();
            emit room.sendRequested(); // a trembling hand
        };
        const auto standsAs = [&](const QString& words) {
            QStringList all;
            const auto shown = std::get<BoardView>(home.model().view(&home.follow()));
            for (const BoardRow& row : shown.rows)
                all.append(row.below);
            return all.filter(words).size();
        };
        write("before");
        QTRY_COMPARE(standsAs("a helper reads it first"), 1);
        home.line().pullCable();
        write("while it is lost");
        write("and again");
        QCOMPARE(standsAs("goes out when the line is back"), 2);
        home.line().pullCable();
        QTRY_COMPARE(standsAs("a helper reads it first"), 3);
        QTRY_COMPARE(read, (QStringList{"before", "while it is lost", "and again"}));

        // A helper answers one; it arrives, and the person is told that it was read.
        std::uint64_t item = 0;
        for (const BoardLine& line : home.model().board().lines())
            if (line.text == "before")
                item = line.item;
        desk.ask(wire::Reply{{}, item, false, "Good morning, Ruth."});
        QTRY_COMPARE(standsAs("a helper has read it"), 1);
        emit room.backRequested();
        QTRY_VERIFY(std::holds_alternative<AnswerView>(home.model().view(&home.follow())));
        emit room.putAwayRequested(false);
        QVERIFY(std::holds_alternative<ClassView>(home.model().view(&home.follow())));
        QCOMPARE(AnswersRead(folder.path()).of(home.line().welcome()->person).size(), std::size_t{1});

        // And out: the whole reason, longer than a close has room for.
        wire::SetRest out{{}, home.line().welcome()->person, wire::Rest::out, std::string(180, 'k')};
        desk.ask(out);
        QTRY_VERIFY(home.model().screen() == Screen::over);
        const auto over = std::get<WaitView>(home.model().view(&home.follow()));
        QCOMPARE(over.heading, "A helper has asked you to leave today's class");
        QVERIFY(over.words.contains(QString(180, 'k')));
    }
};

QTEST_MAIN(TestBoardPage)
#include "test_board_page.moc"
