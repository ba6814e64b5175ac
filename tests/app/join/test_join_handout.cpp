// The handout from the leader's app to a folder of somebody at home, over the real relay: before the class, not during
// it, and after it, also after a restart of the relay.
#include "app/join/join_control.h"
#include "app/lead/handout_offer.h"
#include "common/base/base64.h"
#include "common/wire/script_json.h"
#include "tests/app/link/relay_here.h"
#include "tests/common/home/home_class.h"

#include <QtTest>

using namespace vh;
using namespace vh::join;
using vh::testing::RelayHere;

namespace
{

constexpr int kSoon = 10'000;

/// Whoever leads: opens a class, offers its handout, moves it.
struct Leader {
    Leader(RelayHere& relay, GroupId group) : line(clock)
    {
        QObject::connect(&line, &link::Line::received, &line, [this](const wire::ToClient& message) {
            if (const auto* now = std::get_if<wire::PlaceNow>(&message))
                place = *now;
        });
        QObject::connect(&line, &link::Line::answered, &line,
                         [this](const RequestId& id, const wire::Ack& ack, const Error*) {
                             if (id == opening && ack.classId)
                                 offer.offerFor(*ack.classId);
                         });
        line.open(relay.redeeming(group, store::Role::leader));
    }
    void openClass()
    {
        const ClassScript script = vh::testing::homeClass();
        offer.make(script, {}, {});
        const std::string text = wire::encodeScript(script);
        const std::span bytes(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
        line.ask(wire::PartPut{{}, wire::sha256(text), base64Of(bytes)});
        wire::OpenClass open;
        open.title = "Bread: a \"morning\" class";
        open.parts = {wire::sha256(text)};
        opening = line.ask(open);
    }
    void lead(CommandKind command) { line.ask(wire::Lead{{}, command, place->lease, place->serial}); }

    SystemClock clock;
    link::Line line;
    lead::HandoutOffer offer{line};
    RequestId opening;
    std::optional<wire::PlaceNow> place;
};

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

} // namespace

class TestJoinHandout : public QObject
{
    Q_OBJECT
private:
    QTemporaryDir m_folder;
    SystemClock m_clock;
    std::unique_ptr<RelayHere> m_relay;
    std::unique_ptr<Leader> m_leader;
    std::unique_ptr<JoinRoom> m_room;
    std::unique_ptr<JoinControl> m_home;
    QString m_downloads;

    [[nodiscard]] HandoutHere::State state() const { return m_home->model().handout().state(); }
    [[nodiscard]] ClassView inClass() const { return std::get<ClassView>(m_home->model().view(&m_home->follow())); }
    [[nodiscard]] WaitView over() const { return std::get<WaitView>(m_home->model().view(&m_home->follow())); }

private slots:
    void init()
    {
        static int number = 0;
        m_downloads = m_folder.filePath(QString("downloads-%1").arg(++number));
        QVERIFY(QDir().mkpath(m_downloads));
        m_relay = std::make_unique<RelayHere>(ops::Tls::off);
        const GroupId group = m_relay->addGroup("Lakeside voices").id;
        m_leader = std::make_unique<Leader>(*m_relay, group);
        QTRY_COMPARE_WITH_TIMEOUT(m_leader->line.state(), link::LineState::in, kSoon);
        m_room = std::make_unique<JoinRoom>();
        JoinSetup setup{&m_clock, m_folder.filePath(QString("home-%1").arg(number)),
                        sound::DeviceChoice::fileOf({}, sound::Pace::byHand), true, sound::DeviceChoice::fileOf({})};
        setup.handoutFolder = m_downloads;
        m_home = std::make_unique<JoinControl>(setup, *m_room);
        const link::Entry entry = m_relay->redeeming(group, store::Role::participant);
        m_home->startNew();
        emit m_room->submitRequested(
            {QString::fromStdString(wire::format(wire::JoinLink{entry.host, entry.port, {}, entry.token, entry.pin})),
             {},
             "Ruth"});
        QTRY_COMPARE_WITH_TIMEOUT(m_home->model().screen(), Screen::agreements, kSoon);
        while (m_home->model().screen() == Screen::agreements)
            emit m_room->choiceRequested(0);
        emit m_room->submitRequested({{}, {}});
        emit m_room->choiceRequested(2); // just listening
        QCOMPARE(m_home->model().screen(), Screen::inClass);
    }
    void cleanup()
    {
        m_home.reset();
        m_room.reset();
        m_leader.reset();
        m_relay.reset();
    }

    void beforeTheClassItIsSavedOnOnePressAndDuringItThereIsNoControlForIt()
    {
        QCOMPARE(inClass().action, NoticeAction::none); // there is none yet
        m_leader->openClass();
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::offered, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(inClass().action == NoticeAction::handout, kSoon);
        QVERIFY(QDir(m_downloads).isEmpty()); // nothing comes unasked
        emit m_room->noticeRequested(NoticeAction::handout);
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::saved, kSoon);
        const QString path = m_home->model().handout().path();
        QCOMPARE(path, QDir(m_downloads).filePath("Bread a morning class - handout.pdf"));
        QVERIFY(contentOf(path).startsWith("%PDF-"));
        QCOMPARE(inClass().handout, QString("Open the handout"));
        QVERIFY(inClass().notice.words.contains("Bread a morning class - handout.pdf"));
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->place.has_value(), kSoon);
        m_leader->lead(CommandKind::start);
        QTRY_VERIFY_WITH_TIMEOUT(m_home->follow().place() && m_home->follow().place()->phase == Phase::running, kSoon);
        QCOMPARE(inClass().action, NoticeAction::none);
        QVERIFY(!inClass().notice.words.contains("handout"));
    }

    void afterTheClassItIsThereStillAndAfterARestart()
    {
        m_leader->openClass();
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::offered, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->place.has_value(), kSoon);
        m_leader->lead(CommandKind::end);
        QTRY_COMPARE_WITH_TIMEOUT(m_home->model().screen(), Screen::over, kSoon);
        QCOMPARE(over().handout, QString("Handout"));
        m_relay->stop();
        QTRY_COMPARE_WITH_TIMEOUT(m_home->line().state(), link::LineState::lost, kSoon);
        QVERIFY(over().handout.isEmpty()); // nothing that could not be had
        m_relay->start();
        QTRY_COMPARE_WITH_TIMEOUT(m_home->line().state(), link::LineState::in, kSoon);
        QCOMPARE(over().handout, QString("Handout"));
        emit m_room->handoutRequested();
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::saved, kSoon);
        QVERIFY(contentOf(m_home->model().handout().path()).startsWith("%PDF-"));
        QVERIFY(over().words.contains("Bread a morning class - handout.pdf"));
        QCOMPARE(over().handout, QString("Open the handout"));
    }

    void aFolderThatIsGoneIsSaidInWordsAndAnotherPressTriesAgain()
    {
        m_leader->openClass();
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::offered, kSoon);
        QVERIFY(QDir(m_downloads).mkdir("Bread a morning class - handout.pdf")); // in the way
        emit m_room->noticeRequested(NoticeAction::handout);
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::failed, kSoon);
        QVERIFY(m_home->model().handout().words().contains("could not be saved"));
        QVERIFY(QDir(m_downloads).rmdir("Bread a morning class - handout.pdf"));
        emit m_room->noticeRequested(NoticeAction::handout);
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::saved, kSoon);
    }

    void theNextClassHasItsOwn()
    {
        m_leader->openClass();
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::offered, kSoon);
        emit m_room->noticeRequested(NoticeAction::handout);
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::saved, kSoon);
        QTRY_VERIFY_WITH_TIMEOUT(m_leader->place.has_value(), kSoon);
        m_leader->lead(CommandKind::end);
        QTRY_COMPARE_WITH_TIMEOUT(m_home->model().screen(), Screen::over, kSoon);
        m_leader->place.reset();
        m_leader->openClass();
        QTRY_VERIFY_WITH_TIMEOUT(state() != HandoutHere::State::saved, kSoon);
        QTRY_COMPARE_WITH_TIMEOUT(state(), HandoutHere::State::offered, kSoon);
    }
};

QTEST_MAIN(TestJoinHandout)
#include "test_join_handout.moc"
