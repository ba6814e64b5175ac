// Every room, walked by keyboard alone and through the accessibility tree: the first one, the participant's on each of
// its screens, the leader's, the helper's. And what changes is announced.
#include "app/first_room.h"
#include "app/join/call_page.h"
#include "app/join/join_room.h"
#include "app/lead/lead_room.h"
#include "app/look/look.h"
#include "tests/app/help/desk_scenes.h"
#include "tests/app/join/join_steps.h"
#include "tests/app/join/scenes.h"
#include "tests/app/lead/lead_states.h"
#include "tests/app/walk/walk.h"

#include <QSignalSpy>
#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

lead::LeadView leading()
{
    lead::LeadView view;
    view.groupName = "Lakeside voices";
    view.title = "Bread and baking";
    view.stage = lead::Stage::inClass;
    view.hold = lead::Hold::mine;
    view.column.now.text = "The loaf is warm.";
    view.column.turns = {{TurnKind::listen, TurnKind::yours}, 1, {"0:04"}};
    view.calls.rows = {{1, "Greta needs help, 18 s ago", "at the kitchen table", CallList::Hand::nobody},
                       {2, "You have Wim's call", {}, CallList::Hand::mine}};
    SeatRow row;
    row.name = "Ruth";
    view.hall.seats.push_back(row);
    view.hall.places = 1;
    return view;
}

link::Membership known(const char* name, Role role)
{
    link::Membership one;
    one.groupName = "Lakeside voices";
    one.name = name;
    one.role = role;
    return one;
}

} // namespace

class TestWalk : public QObject
{
    Q_OBJECT
private:
    int m_wrong = 0;

    /// A second walk after the first, as somebody returns to a screen.
    void walk(QWidget& screen, const QString& where)
    {
        screen.resize(1366, 700);
        screen.show();
        screen.activateWindow();
        QTRY_VERIFY(screen.isActiveWindow());
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
        const QStringList findings = unspokenIn(screen) + outOfReachIn(screen);
        for (const QString& each : findings)
            qInfo().noquote() << where << ':' << each;
        m_wrong += static_cast<int>(findings.size());
    }

private slots:
    void initTestCase() { QVERIFY(look::Look{}.applyTo(*qApp)); }
    void init() { m_wrong = 0; }

    void theFirstRoom()
    {
        FirstRoom room;
        walk(room, "nobody known");
        room.setState(firstViewOf({known("Ruth", Role::participant)}));
        walk(room, "one known");
        std::vector<link::Membership> many(8, known("Bram", Role::moderator));
        room.setState(firstViewOf(many));
        walk(room, "many known");
        QCOMPARE(m_wrong, 0);
    }

    void everyScreenOfTheParticipant()
    {
        for (const Scene& scene : joinScenes()) {
            SceneClass here;
            join::JoinModel model;
            scene.arrange(model, here);
            join::JoinRoom room;
            room.setState(model.view(&here.follow));
            room.setHeard(model.voices().isHeard());
            walk(room, scene.name);
        }
        QCOMPARE(m_wrong, 0);
    }

    void theLeadersRoom()
    {
        lead::LeadRoom room;
        lead::LeadView view = leading();
        view.stage = lead::Stage::choosing;
        room.setState(view);
        walk(room, "choosing");
        view = leading();
        view.stage = lead::Stage::ready;
        view.door.rows = {{1, "Marta", "tablet, 12 s"}};
        view.way.code = "K7M 42P";
        room.setState(view);
        walk(room, "ready");
        view.desk = vh::testing::withDesk().desk;
        room.setState(view);
        walk(room, "ready, the sheet of the desk");
        room.setState(leading());
        walk(room, "in class");
        for (const auto& [name, state] :
             {std::pair{"steps", vh::testing::withSteps()}, std::pair{"what to leave out", vh::testing::withTrim()},
              std::pair{"a text", vh::testing::withText()},
              std::pair{"questions, a clinician is needed", vh::testing::withClinician()},
              std::pair{"the sheet of the desk", vh::testing::withDesk()}}) {
            room.setState(leading());
            room.setState(state);
            walk(room, name);
        }
        view = leading();
        view.hold = lead::Hold::another;
        view.mayTake = true;
        room.setState(view);
        walk(room, "another leads");
        view.stage = lead::Stage::over;
        view.summary = {"The class is over.", {"27 people came."}};
        room.setState(view);
        walk(room, "over");
        vh::testing::fillActs(view.desk);
        room.setState(view);
        walk(room, "over, what was done at the desk");
        QCOMPARE(m_wrong, 0);
    }

    void theHelpersDesk()
    {
        for (const DeskScene& scene : deskScenes()) {
            help::DeskModel model;
            scene.arrange(model);
            help::DeskRoom room;
            room.setState(model.view(kDeskNow));
            walk(room, scene.name);
            if (!scene.act)
                continue;
            scene.act(room);
            walk(room, scene.name);
        }
        QCOMPARE(m_wrong, 0);
    }

    void aReaderCanPressWhatAHandCan()
    {
        SceneClass here;
        join::JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 0});
        join::JoinRoom room;
        room.setState(model.view(&here.follow));
        room.resize(1366, 700);
        room.show();
        QSignalSpy hello(&room, &join::JoinRoom::helloRequested);
        QWidget* button = nullptr;
        for (QWidget* each : shownIn(room))
            if (auto* found = qobject_cast<QAbstractButton*>(each); found && found->text() == "Say hello")
                button = found;
        QVERIFY(button);
        QAccessible::queryAccessibleInterface(button)->actionInterface()->doAction(
            QAccessibleActionInterface::pressAction());
        QTRY_COMPARE(hello.size(), 1);
    }

    void whatChangesIsAnnounced()
    {
        SceneClass here;
        join::JoinModel model;
        intoClass(model, here);
        here.place(model, {1, 0, 0, 0});
        join::JoinRoom room;
        const auto show = [&] { room.setState(model.view(&here.follow)); };
        room.resize(1366, 700);
        room.show();
        show();
        Announced announced(room);
        here.place(model, {1, 0, 0, 3});
        show();
        QVERIFY(announced.alerts().contains("You")); // the cue
        hear(model, voiceFrames(300, -24));
        show();
        announced.clear();
        here.place(model, {1, 0, 1, 0});
        show();
        QVERIFY(announced.alerts().contains("Easy to hear. Your last turn.")); // the standing, between turns
        (void)model.pressHelp();
        show();
        const auto* call = room.findChild<join::CallPage*>(); // alerts with its name
        QVERIFY2(call->accessibleName().startsWith("Your call has gone out"), qPrintable(call->accessibleName()));
        (void)model.goBack();
        show();
        model.take(wire::ToClient(wire::WordHeard{WordKind::kind, "Anna", "Lovely."}));
        show();
        QCOMPARE(announced.alerts().last(), "Anna, to you alone: Lovely.");
        model.lineIs(link::LineState::lost, {});
        show();
        QVERIFY(announced.alerts().last().startsWith("The line is lost."));
        model.pressChoices();
        show();
        (void)model.pick(1, 2);
        show();
        QCOMPARE(announced.alerts().last(), "Changed. My level is seen by: nobody.");
        const qsizetype before = announced.alerts().size();
        show();
        QCOMPARE(announced.alerts().size(), before); // the same again is not said again
    }
};

QTEST_MAIN(TestWalk)
#include "test_walk.moc"
