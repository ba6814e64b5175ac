// The one window: from the first screen into a room and back, by whichever link, against the real relay.
#include "app/look/kept_look.h"
#include "app/program.h"
#include "demo/stage/press.h"
#include "tests/app/link/relay_here.h"

#include <QLabel>
#include <QTcpServer>
#include <QtTest>

using namespace vh;
using vh::testing::RelayHere;

namespace
{

QString linkTo(RelayHere& relay, GroupId group, store::Role role)
{
    const link::Entry entry = relay.redeeming(group, role);
    wire::JoinLink link;
    link.host = entry.host;
    link.port = entry.port;
    link.token = entry.token;
    return QString::fromStdString(wire::format(link));
}

/// All that can be read on the screen that is shown.
QString wordsOn(const Program& program)
{
    QStringList words;
    for (const QLabel* label : program.currentWidget()->findChildren<QLabel*>())
        if (label->isVisibleTo(&program))
            words.append(label->text());
    return words.join('\n');
}

} // namespace

class TestProgram : public QObject
{
    Q_OBJECT
private:
    SystemClock m_clock;
    std::unique_ptr<QTemporaryDir> m_folder;
    std::unique_ptr<Program> m_program;

    bool press(const QString& words) { return stage::press(*m_program, words); }
    bool shows(const QString& words) { return wordsOn(*m_program).contains(words); }

private slots:
    void initTestCase()
    {
        qunsetenv("DBUS_SESSION_BUS_ADDRESS"); // keys in files: no keychain is asked
        QVERIFY(look::Look{}.applyTo(*qApp));
    }
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        ProgramSetup setup;
        setup.clock = &m_clock;
        setup.folder = m_folder->path();
        setup.sound = sound::DeviceChoice::nothing();
        setup.ownClasses = m_folder->filePath("own");
        setup.plain = true;
        m_program = std::make_unique<Program>(setup);
        m_program->resize(1366, 700);
        m_program->show();
    }
    void cleanup() { m_program.reset(); }

    void classesAreWrittenWithoutAGroup()
    {
        QVERIFY(press("Write a class"));
        QVERIFY(m_program->writeControl());
        QVERIFY(shows("Your classes"));
        QVERIFY(press("Leave"));
        QTRY_VERIFY(!m_program->writeControl());
        QVERIFY(shows("Welcome to Voicehall"));
    }

    void todaysClassIsOfferedFirstAndWrittenDownWhenItHasBeenHeld()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        QFile file(m_folder->filePath("own/loaves.yaml"));
        QVERIFY(QDir(m_folder->path()).mkpath("own") && file.open(QIODevice::WriteOnly));
        file.write("title: Warm loaves\ntheme: Bread\nlanguage: en\nminutes: 1\nsections:\n  - kind: phrases\n"
                   "    title: Out loud\n    steps:\n      - text: The loaf is still warm.\n"
                   "        rounds: [{turns: [ready, yours 40]}]\n");
        file.close();
        const QDate today = QDate::currentDate();
        write::DaysFile daysFile(m_folder->path(), group.id);
        write::ClassDays days;
        QVERIFY(days.plan({today, "own:loaves.yaml", "Warm loaves", "Bread"}));
        days.keep({{today.addDays(-3), "own:other.yaml", "Crusts", "Bread"}, Millis(1), Millis(1), {}});
        QVERIFY(daysFile.save(days));

        QVERIFY(press("Lead a class"));
        stage::fillIn(*m_program, {linkTo(relay, group.id, store::Role::leader), "Anna"});
        QVERIFY(press("Go on"));
        QTRY_VERIFY(m_program->leadControl());
        const auto choice = [this] { return m_program->leadControl()->view().choice; };
        QTRY_COMPARE(choice().title, "Warm loaves"); // chosen already
        QCOMPARE(choice().files.front().heading, "Planned for today");
        QTRY_COMPARE(choice().used.size(), 1);
        QVERIFY2(choice().used.front().contains("Crusts"), qPrintable(choice().used.front()));
        QVERIFY(shows(choice().used.front()));

        m_program->leadControl()->openChosen();
        QTRY_COMPARE(m_program->leadControl()->view().hold, lead::Hold::mine);
        m_program->leadControl()->command(CommandKind::start);
        QTRY_COMPARE(m_program->leadControl()->view().stage, lead::Stage::inClass);
        m_program->leadControl()->endPressed();
        m_program->leadControl()->endPressed();
        QTRY_COMPARE(m_program->leadControl()->view().stage, lead::Stage::over);
        QTRY_COMPARE(daysFile.load().held().size(), std::size_t{2});
        const write::HeldClass held = daysFile.load().held().back();
        QCOMPARE(held.what, (write::DayClass{today, "own:loaves.yaml", "Warm loaves", "Bread"}));
        QCOMPARE(held.planned, Millis(42'000));
        QVERIFY(held.took < held.planned);
        QCOMPARE(held.sentences, std::set<std::string>{"the loaf is still warm"});
        QVERIFY(daysFile.load().planned().empty());
    }

    void onTheWayItSaysWhereItGoesAndCanBeStopped()
    {
        QTcpServer silent; // takes the call and says nothing
        QVERIFY(silent.listen(QHostAddress::LocalHost));
        wire::JoinLink link;
        link.host = "127.0.0.1";
        link.port = silent.serverPort();
        link.token = wire::Token{};
        m_program->redeem(QString::fromStdString(wire::format(link)), "Anna");
        QVERIFY(shows("One moment"));
        QVERIFY(shows("Going to 127.0.0.1."));
        QVERIFY(!m_program->leadControl() && !m_program->deskControl());
        QVERIFY(press("Stop"));
        QVERIFY(shows("Welcome to Voicehall"));
        QVERIFY(!m_program->workLine());
    }

    void whateverLinkIsPastedTheRightRoomOpens_data()
    {
        QTest::addColumn<QString>("asked");
        QTest::addColumn<int>("role");
        const auto number = [](store::Role role) { return static_cast<int>(role); };
        QTest::newRow("a leader's, to lead") << "Lead a class" << number(store::Role::leader);
        QTest::newRow("a helper's, to lead") << "Lead a class" << number(store::Role::helper);
        QTest::newRow("a participant's, to lead") << "Lead a class" << number(store::Role::participant);
        QTest::newRow("a leader's, to help") << "Help at the desk" << number(store::Role::leader);
        QTest::newRow("a leader's, to join") << "Join a class" << number(store::Role::leader);
        QTest::newRow("a helper's, to join") << "Join a class" << number(store::Role::helper);
    }
    void whateverLinkIsPastedTheRightRoomOpens()
    {
        QFETCH(const QString, asked);
        QFETCH(const int, role);
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        QVERIFY(press(asked));
        const QString link = linkTo(relay, group.id, static_cast<store::Role>(role));
        if (asked == "Join a class") {
            stage::fillIn(*m_program, {link, {}, "Anna"});
            QVERIFY(press("Come in"));
        } else {
            stage::fillIn(*m_program, {link, "Anna"});
            QVERIFY(press("Go on"));
        }
        switch (static_cast<store::Role>(role)) {
        case store::Role::leader:
            QTRY_VERIFY(m_program->leadControl());
            break;
        case store::Role::helper:
            QTRY_VERIFY(m_program->deskControl());
            break;
        default:
            QTRY_VERIFY(m_program->joinControl() &&
                        m_program->joinControl()->model().screen() == join::Screen::agreements);
            break;
        }
        const link::Memberships kept(m_folder->path());
        QCOMPARE(kept.all().size(), std::size_t{1});
        m_program->toFirst();
        QVERIFY(shows("Good to see you again"));
        QVERIFY(stage::canPress(*m_program, "Anna"));
    }

    void whatIsNoOneTimeLinkIsAskedForAgainWithWhatWasTyped()
    {
        QVERIFY(press("Lead a class"));
        stage::fillIn(*m_program, {"voicehall://hall.example.org/#c=K7M4AP", "Anna"});
        QVERIFY(press("Go on"));
        QTRY_VERIFY2(shows("not a one-time link"), qPrintable(wordsOn(*m_program)));
        stage::fillIn(*m_program, {"voicehall://hall.example.org/#t=" + QString(32, '0'), {}});
        QVERIFY(press("Go on"));
        QTRY_VERIFY2(shows("Please write your name."), qPrintable(wordsOn(*m_program)));
        QVERIFY(press("Back"));
        QVERIFY(shows("Welcome to Voicehall"));
    }

    void aLinkThatIsUsedUpIsSaidInTheRelaysWords()
    {
        RelayHere relay(ops::Tls::off);
        const auto group = relay.addGroup("Lakeside voices");
        const QString link = linkTo(relay, group.id, store::Role::helper);
        m_program->redeem(link, "Piet");
        QTRY_VERIFY(m_program->deskControl());
        m_program->toFirst();
        QVERIFY(press("Help at the desk"));
        stage::fillIn(*m_program, {link, "Somebody else"});
        QVERIFY(press("Go on"));
        QTRY_VERIFY(!stage::canPress(*m_program, "Stop"));
        QVERIFY(!m_program->deskControl());
        QVERIFY(shows("Help at the desk"));                                                // the same question again
        QVERIFY2(!shows("good once, within seven days"), qPrintable(wordsOn(*m_program))); // but what was wrong
    }

    void theSizeOfWordsAndTheBackgroundAreOnePressAndAreKept()
    {
        QVERIFY(!look::keptLook(m_folder->path()));
        QVERIFY(press("Size of words"));
        QVERIFY(look::Look::current().textSize() == look::TextSize::larger);
        QVERIFY(press("Background"));
        QVERIFY(look::Look::current().ground() == look::Ground::dark);
        const auto kept = look::keptLook(m_folder->path());
        QVERIFY(kept && kept->textSize() == look::TextSize::larger && kept->ground() == look::Ground::dark);
        QFile file(m_folder->filePath("look.ini"));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write("[General]\nwords=gigantic\nground=dark\n");
        file.close();
        QVERIFY(!look::keptLook(m_folder->path()));
        QVERIFY(look::Look{}.applyTo(*qApp));
    }

    void aKeyThatIsGoneIsSaid()
    {
        link::Membership anna;
        anna.host = "127.0.0.1";
        anna.group = GroupId::random();
        anna.person = PersonId::random();
        anna.key = wire::makeKeyPair().publicKey; // whose other half nobody has
        anna.name = "Anna";
        anna.groupName = "Lakeside voices";
        anna.role = Role::leader;
        QVERIFY(link::Memberships(m_folder->path()).use(anna));
        QCOMPARE(link::Memberships(m_folder->path()).all().size(), std::size_t{1});
        m_program->toFirst();
        QTRY_VERIFY(stage::canPress(*m_program, "Anna"));
        QVERIFY(press("Anna"));
        QTRY_VERIFY2(shows("has lost its key"), qPrintable(wordsOn(*m_program)));
        m_program->toFirst();
        anna.role = Role::participant;
        anna.name = "Ruth";
        QVERIFY(link::Memberships(m_folder->path()).use(anna));
        m_program->toFirst();
        QVERIFY(shows("Who is here?"));
        QTRY_VERIFY(stage::canPress(*m_program, "Ruth"));
        QVERIFY(press("Ruth"));
        QTRY_VERIFY2(shows("has lost its key"), qPrintable(wordsOn(*m_program)));
        QVERIFY(stage::canPress(*m_program, "Come in"));
    }
};

QTEST_MAIN(TestProgram)
#include "test_program.moc"
