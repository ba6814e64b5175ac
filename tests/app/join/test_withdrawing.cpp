// A participant's program against the real relay: what must hold across lost lines and programs that end.
#include "app/join/join_control.h"
#include "tests/app/link/relay_here.h"

#include <QtTest>

#include <algorithm>

using namespace vh;
using namespace vh::join;
using vh::testing::RelayHere;

namespace
{

/// One home: its program can be ended and begun again on the same profile.
struct Home {
    explicit Home(bool plain) : m_plain(plain) { begin(); }
    void begin()
    {
        room = std::make_unique<JoinRoom>();
        control = std::make_unique<JoinControl>(
            JoinSetup{&clock, folder.path(), sound::DeviceChoice::nothing(), m_plain}, *room);
    }
    void end()
    {
        control.reset();
        room.reset();
    }
    void comeBack()
    {
        begin();
        control->startKnown(link::Memberships(folder.path()).all().front());
    }
    void comeInBy(const wire::JoinLink& link)
    {
        control->startNew();
        emit room->submitRequested({QString::fromStdString(wire::format(link)), {}, "Ruth"});
    }
    [[nodiscard]] Screen screen() const { return control->model().screen(); }
    /// Yes to everything, and listens today.
    void agreeToEverything()
    {
        while (screen() == Screen::agreements)
            emit room->choiceRequested(0);
        emit room->submitRequested({"Mill Lane 3", "Jonas, 555 0142"});
        emit room->choiceRequested(2);
    }

    QTemporaryDir folder;
    SystemClock clock;
    std::unique_ptr<JoinRoom> room;
    std::unique_ptr<JoinControl> control;

private:
    bool m_plain;
};

wire::JoinLink linkTo(RelayHere& relay, GroupId group, store::Role role)
{
    const link::Entry entry = relay.redeeming(group, role);
    return {entry.host, entry.port, {}, entry.token, entry.pin};
}

/// A helper who lets in whoever knocks first.
struct Desk {
    Desk(RelayHere& relay, GroupId group) : line(clock)
    {
        QObject::connect(&line, &link::Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* at = std::get_if<wire::Door>(&message); at && !at->waiting.empty())
                door = at->waiting.front().door;
        });
        line.open(relay.redeeming(group, store::Role::helper));
    }
    void letIn()
    {
        QTRY_VERIFY(door);
        line.ask(wire::LetIn{{}, *door, {}});
    }
    SystemClock clock;
    link::Line line;
    std::optional<std::uint64_t> door;
};

} // namespace

class TestJoinControl : public QObject
{
    Q_OBJECT
private slots:
    void aWithdrawalWhileTheLineIsDownOutlivesTheProgram()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Home home(false);
        home.comeInBy(linkTo(relay, group.id, store::Role::participant));
        QTRY_COMPARE(home.screen(), Screen::agreements);
        home.agreeToEverything();
        QTRY_COMPARE(home.control->line().unanswered(), std::size_t{0});
        QVERIFY(home.control->model().agreements().levelVisible == LevelVisible::leader);
        const PersonId person = home.control->line().welcome()->person;

        relay.stop();
        QTRY_COMPARE(home.control->line().state(), link::LineState::lost);
        emit home.room->privateRequested();
        QVERIFY(home.control->model().agreements().levelVisible == LevelVisible::nobody); // here at once
        home.end();
        QCOMPARE(PendingAgreements(home.folder.path()).of(person).size(), std::size_t{1});

        relay.start();
        home.comeBack();
        QTRY_COMPARE_WITH_TIMEOUT(home.control->line().state(), link::LineState::in, 15'000);
        // The relay's welcome is older than the withdrawal.
        QVERIFY(home.control->model().agreements().levelVisible == LevelVisible::nobody);
        QTRY_COMPARE(home.control->line().unanswered(), std::size_t{0});
        QVERIFY(PendingAgreements(home.folder.path()).of(person).empty());
        const auto told = relay.beside([&](store::Tables& tables) -> Result<std::vector<store::AgreementRow>> {
            return tables.agreements.history(person);
        });
        QCOMPARE(told.size(), std::size_t{7}); // six answers and one withdrawal, each once
        QCOMPARE(told.back().value, std::string("nobody"));
    }

    void aSlipThatWouldDeleteResultsCanBeUndoneBeforeAnythingIsDeleted()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        Home home(true);
        home.comeInBy(linkTo(relay, group.id, store::Role::participant));
        QTRY_COMPARE(home.screen(), Screen::agreements);
        home.agreeToEverything();
        QTRY_COMPARE(home.control->line().unanswered(), std::size_t{0});
        const PersonId person = home.control->line().welcome()->person;
        const auto refusals = [&] {
            const auto told = relay.beside([&](store::Tables& tables) -> Result<std::vector<store::AgreementRow>> {
                return tables.agreements.history(person);
            });
            return std::count_if(told.begin(), told.end(), [](const auto& row) { return row.value == "no"; });
        };
        emit home.room->choicesRequested();
        emit home.room->pickRequested(2, 1);
        QVERIFY(!home.control->model().agreements().resultsKept);                          // here at once
        QCOMPARE(PendingAgreements(home.folder.path()).of(person).size(), std::size_t{1}); // and not to be lost
        emit home.room->undoRequested();
        QVERIFY(home.control->model().agreements().resultsKept);
        QTRY_COMPARE(home.control->line().unanswered(), std::size_t{0});
        QCOMPARE(refusals(), 0);
        QVERIFY(PendingAgreements(home.folder.path()).of(person).empty());

        emit home.room->pickRequested(2, 1);
        emit home.room->backRequested();
        emit home.room->leaveRequested();
        emit home.room->choiceRequested(1); // who leaves has meant it
        QTRY_COMPARE(refusals(), 1);
    }

    void byTheCodeAloneNothingIsAskedBeforeTheWordsWereCompared()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Desk desk(relay, group.id);
        Home home(false);
        const link::Entry entry = relay.entry(link::Entry::How::knock);
        home.comeInBy({entry.host, entry.port, group.code, {}, {}});
        desk.letIn();
        QTRY_COMPARE(home.screen(), Screen::sameWords);
        QVERIFY(!home.control->line().entry().pin);
        QVERIFY(link::Memberships(home.folder.path()).all().empty());
        emit home.room->choiceRequested(0);
        QCOMPARE(home.screen(), Screen::agreements);
        QCOMPARE(link::Memberships(home.folder.path()).all().size(), std::size_t{1});
        QVERIFY(link::Memberships(home.folder.path()).all().front().pin == relay.pin());
    }

    void otherWordsEndTheLineAndNothingIsKept()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Desk desk(relay, group.id);
        Home home(false);
        const link::Entry entry = relay.entry(link::Entry::How::knock);
        home.comeInBy({entry.host, entry.port, group.code, {}, {}});
        desk.letIn();
        QTRY_COMPARE(home.screen(), Screen::sameWords);
        QSignalSpy left(home.control.get(), &JoinControl::left);
        emit home.room->choiceRequested(1);
        QCOMPARE(left.size(), 1);
        QCOMPARE(home.control->line().state(), link::LineState::closed);
        QVERIFY(link::Memberships(home.folder.path()).all().empty());
    }

    void aHelpersLinkThatIsPastedHereLeadsToTheHelpersRoom()
    {
        RelayHere relay(ops::Tls::selfSigned);
        const auto group = relay.addGroup("Lakeside voices");
        Home home(false);
        QSignalSpy other(home.control.get(), &JoinControl::otherRoomNeeded);
        home.comeInBy(linkTo(relay, group.id, store::Role::helper));
        QTRY_COMPARE(other.size(), 1);
        QVERIFY(other.front().front().value<link::Membership>().role == Role::moderator);
        QCOMPARE(link::Memberships(home.folder.path()).all().size(), std::size_t{1});
        QVERIFY(home.screen() != Screen::agreements);
    }
};

QTEST_MAIN(TestJoinControl)
#include "test_withdrawing.moc"
