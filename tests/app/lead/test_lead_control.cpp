// The leader's controller against a real relay in this process: a class is published, opened and led; a stand-in takes
// the place and the leader takes it back.
#include "app/help/desk_control.h"
#include "app/lead/group_window.h"
#include "app/look/look.h"
#include "tests/app/lead/lead_relay.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

namespace
{

constexpr int kSoon = 10'000;

} // namespace

class TestLeadControl : public QObject
{
    Q_OBJECT
    QTemporaryDir m_scripts;
    LeadRelay m_relay;
    std::unique_ptr<Program> m_leader;
    std::unique_ptr<Program> m_standIn;

    link::Entry entry(const wire::Token& token, const char* name) const { return m_relay.entry(token, name); }

private slots:
    void initTestCase()
    {
        QVERIFY(look::Look().applyTo(*qApp));
        QVERIFY(m_scripts.isValid());
        QVERIFY(m_relay.start());

        QFile picture(m_scripts.filePath("loaf.svg"));
        QVERIFY(picture.open(QIODevice::WriteOnly));
        picture.write(
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 20'><rect width='40' height='20'/></svg>");

        QFile script(m_scripts.filePath("bread.yaml"));
        QVERIFY(script.open(QIODevice::WriteOnly));
        script.write("title: Bread\ntheme: Baking\nlanguage: en\nminutes: 5\nsections:\n  - kind: opening\n"
                     "    title: Morning\n    steps:\n      - text: Good morning.\n        seconds: 90\n"
                     "        picture: {file: loaf.svg, description: A loaf.}\n"
                     "      - text: The loaf is warm.\n        seconds: 90\n        dearness: 1\n");
    }

    void sheComesInAndChoosesAClass()
    {
        m_leader = std::make_unique<Program>();
        m_leader->line.open(entry(m_relay.link(Role::leader), "Anna"));
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, Stage::choosing, kSoon);
        QCOMPARE(m_leader->view().groupName, QString("Thursday voices"));
        QVERIFY(m_leader->view().way.link.startsWith("voicehall://127.0.0.1:"));
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().way.words.split(' ').size(), 4, kSoon);
        m_leader->control.offerFolder(m_scripts.path());
        m_leader->control.chooseFile(m_scripts.filePath("bread.yaml"));
        QCOMPARE(m_leader->view().choice.title, QString("Bread"));
    }

    void theClassIsPublishedAndOpened()
    {
        m_leader->control.openChosen();
        QVERIFY(m_leader->view().choice.opening);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, Stage::ready, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().hold, Hold::mine, kSoon);
        QVERIFY(!m_leader->view().choice.opening);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->view().clock.value(0).endsWith("if you start now"), kSoon);
    }

    void herPapersAreSavedOnOnePress()
    {
        QTemporaryDir folder;
        m_leader->control.setPapersFolder(folder.path());
        QCOMPARE(m_leader->view().papers, PapersView::offered);
        m_leader->control.pressPapers();
        QCOMPARE(m_leader->view().papers, PapersView::making);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().papers, PapersView::saved, kSoon);
        const QStringList made = QDir(folder.path()).entryList(QDir::Files);
        QCOMPARE(made.size(), 2);
        QVERIFY(made[0].endsWith("Bread - handout.pdf"));
        QVERIFY(made[1].endsWith("Bread - paper script.pdf"));
        QVERIFY(m_leader->view().notice.words.contains(QDir::toNativeSeparators(folder.path())));
    }

    void papersThatCannotBeSavedSayWhy()
    {
        m_leader->control.chooseFile(m_scripts.filePath("bread.yaml"));
        m_leader->control.setPapersFolder(m_scripts.filePath("not/there"));
        m_leader->control.pressPapers();
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().papers, PapersView::offered, kSoon);
        QVERIFY(m_leader->view().notice.words.startsWith("There is no folder"));
    }

    void theGroupIsOfferedTheHandoutOfHerClass()
    {
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->handout.has_value(), kSoon);
        QCOMPARE(m_leader->handout->title, std::string("Bread"));
        QCOMPARE(m_leader->handout->parts.size(), std::size_t(1));
        QVERIFY(m_leader->handout->bytes > 5000);
    }

    void aStandInComesByTheLinkSheMade()
    {
        m_leader->control.invite(Role::standIn);
        QTRY_VERIFY_WITH_TIMEOUT(!m_leader->view().way.standInLink.isEmpty(), kSoon);
        const auto link = wire::parseJoinLink(m_leader->view().way.standInLink.toStdString());
        QVERIFY(link.has_value());
        m_standIn = std::make_unique<Program>();
        m_standIn->line.open(entry(*link->token, "Berta"));
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().stage, Stage::ready, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().holder, QString("Anna"), kSoon);
        QVERIFY(!m_standIn->view().mayTake);
        QVERIFY(m_standIn->view().way.code.isEmpty());
    }

    void sheLeadsItStepByStep()
    {
        m_leader->control.command(CommandKind::start);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, Stage::inClass, kSoon);
        QCOMPARE(m_leader->view().column.now.text, std::string("Good morning."));
        QVERIFY(m_leader->view().clock.value(0).contains("in time"));
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().column.now.text, std::string("Good morning."), kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().group.picture.size(), QSize(640, 320), kSoon);
        m_leader->control.command(CommandKind::goOn);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().column.now.text, std::string("The loaf is warm."), kSoon);
        QCOMPARE(m_leader->view().column.last, QString("Good morning."));
        m_leader->control.command(CommandKind::wait);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->view().waits, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_standIn->view().waits, kSoon);
        m_leader->control.command(CommandKind::back);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().column.now.text, std::string("Good morning."), kSoon);
        QVERIFY(!m_leader->view().waits);
    }

    void sheGivesMoreTimeLeavesOutAndJumps()
    {
        using Kind = ChangeRequest::Kind;
        const auto ask = [this](Kind kind, std::optional<StepAt> at = {}) { m_leader->control.change({kind, at, {}}); };
        for (int i = 0; i < 4; ++i)
            ask(Kind::moreTime); // faster than the relay answers
        QTRY_VERIFY_WITH_TIMEOUT(m_standIn->view().column.turns.beside.value(0).contains("40 s added"), kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->line.unanswered(), 0U, kSoon);
        ask(Kind::showTrim);
        QCOMPARE(m_leader->view().changes.trim.rows.size(), std::size_t{1});
        QVERIFY(m_leader->view().changes.trim.headline.endsWith("it ends on time."));
        ask(Kind::agree);
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().column.next, QString("Then the class is over."), kSoon);
        ask(Kind::showTrim);
        QVERIFY(!m_leader->view().changes.trim.already.isEmpty());
        ask(Kind::putBack);
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().column.next, QString("The loaf is warm."), kSoon);
        ask(Kind::showSteps);
        QCOMPARE(m_leader->view().changes.steps.size(), std::size_t{2});
        ask(Kind::jump, StepAt{0, 1});
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().column.now.text, std::string("The loaf is warm."), kSoon);
        QCOMPARE(m_leader->view().changes.sheet, ChangesView::Sheet::none);
    }

    void sheCorrectsAStepAndTakesTheFileAnew()
    {
        using Kind = ChangeRequest::Kind;
        m_leader->control.change({Kind::showText, {}, {}});
        QCOMPARE(m_leader->view().changes.text.text, QString("The loaf is warm."));
        m_leader->control.change({Kind::correct, {}, "The l<oaf is warm."});
        QCOMPARE(m_leader->view().changes.text.fault, QString("A < is never closed."));
        const auto offered = m_leader->handout->parts;
        m_leader->control.change({Kind::correct, {}, "The l<oa>f is hot."});
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().column.now.text, std::string("The loaf is hot."), kSoon);
        QCOMPARE(m_standIn->view().column.now.stretches, (std::vector<Stretch>{{5, 7}}));
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().changes.sheet, ChangesView::Sheet::none, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->handout->parts != offered, kSoon); // the group's handout follows

        m_leader->control.change({Kind::showText, {}, {}});
        QVERIFY(m_leader->view().changes.text.fromFile);
        m_leader->control.change({Kind::takeFile, {}, {}}); // the first text again
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().column.now.text, std::string("The loaf is warm."), kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().changes.sheet, ChangesView::Sheet::none, kSoon);
        m_leader->control.change({Kind::showText, {}, {}});
        m_leader->control.change({Kind::takeFile, {}, {}});
        QCOMPARE(m_leader->view().changes.text.fault, QString("The file says what the class says already."));
        m_leader->control.change({});
        m_leader->control.command(CommandKind::back);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().column.now.text, std::string("Good morning."), kSoon);
    }

    void aHeldPlaceIsNotTaken()
    {
        m_standIn->control.command(CommandKind::goOn);
        QVERIFY(m_standIn->view().notice.words.contains("Anna leads now"));
        m_standIn->control.takePlace(); // she is there: this asks for nothing
        QCOMPARE(m_standIn->line.unanswered(), 0U);
    }

    void theGroupsWindowShowsAndHides()
    {
        m_leader->control.room().groupWindowRequested();
        QVERIFY(m_leader->control.groupWindow().isVisible());
        QVERIFY(m_leader->view().groupWindowShown);
        m_leader->control.groupWindow().close();
        QVERIFY(!m_leader->control.groupWindow().isVisible());
        QVERIFY(!m_leader->view().groupWindowShown);
    }

    void aStandInTakesThePlaceWhenHerLineIsLost()
    {
        const link::Entry before = m_leader->line.entry();
        m_leader->line.pullCable();
        link::Entry again = before; // the same device, after its program has been started anew
        again.how = link::Entry::How::login;
        again.group = m_leader->line.welcome()->group;
        again.role = Role::leader;
        m_leader.reset();
        QTRY_VERIFY_WITH_TIMEOUT(m_standIn->view().mayTake, kSoon);
        QCOMPARE(m_standIn->view().hold, Hold::anotherSilent);
        m_standIn->control.takePlace();
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().hold, Hold::mine, kSoon);

        m_leader = std::make_unique<Program>();
        m_leader->line.open(again);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, Stage::inClass, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().notice.words,
                                  QString("Berta leads now. To take the place back, press T."), kSoon);
        m_leader->control.takePlace();
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().hold, Hold::mine, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_standIn->view().hold, Hold::another, kSoon);
    }

    void theDeskReadsLetsInAndHelps()
    {
        m_leader->control.invite(Role::moderator);
        QTRY_VERIFY_WITH_TIMEOUT(!m_leader->view().way.helperLink.isEmpty(), kSoon);
        const auto link = wire::parseJoinLink(m_leader->view().way.helperLink.toStdString());
        SystemClock clock;
        link::Line line(clock);
        help::DeskControl desk(line);
        line.open(entry(*link->token, "Ben"));
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().classLine, QString("Bread, step 1 of 2 \u00B7 the leader is heard"),
                                  kSoon);

        m_standIn->line.ask(wire::Write{{}, "Rain here this morning."});
        const auto& toRead = desk.model().words().toRead();
        const auto& board = desk.model().words().board();
        QTRY_COMPARE_WITH_TIMEOUT(toRead.waiting(), 1, kSoon);
        const std::uint64_t rain = toRead.rows().front().item;
        QCOMPARE(toRead.rows().front().name, QString("Berta"));
        emit desk.room().decisionRequested(rain, wire::Decision::show);
        QTRY_COMPARE_WITH_TIMEOUT(desk.model().words().inHand().rows().size(), 1U, kSoon); // going up
        emit desk.room().takeBackRequested(0);
        QTRY_COMPARE_WITH_TIMEOUT(toRead.waiting(), 1, kSoon);
        emit desk.room().decisionRequested(rain, wire::Decision::show);
        QTRY_COMPARE_WITH_TIMEOUT(board.rows().size(), 1U, kSoon);
        QCOMPARE(toRead.waiting(), 0);
        emit desk.room().noticeRequested("Welcome, everybody.");
        QTRY_COMPARE_WITH_TIMEOUT(board.rows().size(), 2U, kSoon);
        QVERIFY(board.rows().back().isNotice);

        m_standIn->line.ask(wire::Write{{}, "Is it the same as on Tuesday?"});
        QTRY_COMPARE_WITH_TIMEOUT(toRead.waiting(), 1, kSoon);
        emit desk.room().answerRequested(toRead.rows().back().item, false, "It is.");
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().notice.words, QString("Berta has your answer."), kSoon);
        QCOMPARE(toRead.waiting(), 0);
        emit desk.room().actsRequested();
        QTRY_VERIFY_WITH_TIMEOUT(desk.view().acts.size() >= 4, kSoon);
        QCOMPARE(desk.view().acts.back().head, QString("Ben answered Berta"));

        link::Entry knock = entry({}, "Marta");
        knock.how = link::Entry::How::knock;
        knock.code = m_leader->line.welcome()->code;
        link::Line newcomer(clock);
        newcomer.open(knock);
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().door.rows.size(), 1U, kSoon);
        QCOMPARE(desk.view().door.rows[0].name, QString("Marta"));
        QCOMPARE(desk.view().door.words, m_leader->view().way.words);
        emit desk.room().letInRequested(desk.view().door.rows[0].door);
        QTRY_COMPARE_WITH_TIMEOUT(newcomer.state(), link::LineState::in, kSoon);
        const auto marta = [&] {
            for (const help::PersonRow& row : desk.model().people().rows())
                if (row.name == "Marta")
                    return row;
            return help::PersonRow{};
        };
        QTRY_VERIFY_WITH_TIMEOUT(marta().here, kSoon);
        QVERIFY(marta().late);
        emit desk.room().restRequested(marta().person, "Marta", wire::Rest::tenMinutes, {});
        QTRY_COMPARE_WITH_TIMEOUT(marta().rest, wire::Rest::tenMinutes, kSoon);
        emit desk.room().takeBackRequested(0);
        QTRY_COMPARE_WITH_TIMEOUT(marta().rest, wire::Rest::none, kSoon);

        newcomer.ask(wire::Contact{{}, "Mill Lane 3", "Odile, 555 0100"});
        newcomer.ask(wire::HelpCall{});
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().calls.rows.size(), 1U, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().calls.rows.size(), 1U, kSoon);
        emit desk.room().callTakeRequested(desk.view().calls.rows[0].call);
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().calls.rows[0].words, QString("You have Marta's call"), kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().calls.rows[0].detail,
                                  QString("Mill Lane 3 \u00B7 to ring: Odile, 555 0100"), kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().calls.rows[0].words, QString("Ben has Marta's call"), kSoon);
        QVERIFY(m_leader->view().calls.rows[0].detail.isEmpty()); // it is for whoever has the call
        emit desk.room().callDoneRequested(desk.view().calls.rows[0].call, "rang her");
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->view().calls.rows.empty(), kSoon);
        emit m_leader->control.room().whomToRingRequested("the clinic, 555 0142");
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().whomToRing, QString("the clinic, 555 0142"), kSoon);

        emit desk.room().attendRequested("Mr Lindqvist");
        QTRY_COMPARE_WITH_TIMEOUT(desk.view().byHand, QString("By hand: Mr Lindqvist"), kSoon);
    }

    void theSecondPressEndsAndSaysHowItWent()
    {
        QSignalSpy led(&m_leader->control, &LeadControl::classLed);
        m_leader->control.endPressed();
        QVERIFY(m_leader->view().endArmed);
        QCOMPARE(m_leader->view().stage, Stage::inClass);
        m_leader->control.endPressed();
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->view().stage, Stage::over, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(!m_leader->view().summary.lines.isEmpty(), kSoon);
        QVERIFY(m_leader->view().summary.lines.contains("One call for help."));
        QCOMPARE(led.size(), 1);
        QVERIFY(led.first().first().value<PaceSample>().empty()); // skipped through: that is no pace
        emit m_leader->control.room().anotherClassRequested();
        QCOMPARE(m_leader->view().stage, Stage::choosing);
    }

    void cleanupTestCase()
    {
        m_leader.reset();
        m_standIn.reset();
        m_relay.stop();
    }
};

QTEST_MAIN(TestLeadControl)
#include "test_lead_control.moc"
