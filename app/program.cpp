#include "app/program.h"

#include "app/look/kept_look.h"

#include <QApplication>
#include <QCloseEvent>
#include <QDir>
#include <QSysInfo>

#include <algorithm>

namespace vh
{

namespace
{
constexpr std::chrono::seconds kNoAnswerAfter{5};
} // namespace

Program::Program(ProgramSetup setup, QWidget* parent)
    : QStackedWidget(parent), m_setup(std::move(setup)), m_memberships(m_setup.folder),
      m_keys(link::makeKeyBox(m_setup.folder)), m_first(new FirstRoom(this)), m_ask(new join::AskPage(this)),
      m_wait(new join::WaitPage(this)),
      m_library({m_setup.classes,
                 m_setup.ownClasses.isEmpty() ? QDir(m_setup.folder).filePath("classes") : m_setup.ownClasses,
                 m_setup.cache.isEmpty() ? QString() : QDir(m_setup.cache).filePath("classes.index")}),
      m_pace(m_setup.folder)
{
    setWindowTitle(tr("Voicehall"));
    addWidget(m_first);
    addWidget(m_ask);
    addWidget(m_wait);
    connect(m_wait, &join::WaitPage::buttonRequested, this, &Program::toFirst);
    m_noAnswer.setSingleShot(true);
    m_noAnswer.setInterval(kNoAnswerAfter);
    connect(&m_noAnswer, &QTimer::timeout, this, [this] {
        if (m_line && !m_room)
            sayOnTheWay(tr("%1 does not answer. Is this computer on the network? Voicehall keeps trying.")
                            .arg(QString::fromStdString(m_line->entry().host)));
    });
    connect(m_first, &FirstRoom::joinRequested, this, [this] { join({}, {}); });
    connect(m_first, &FirstRoom::leadRequested, this, [this] { askForLink(tr("Lead a class"), {}, {}, {}); });
    connect(m_first, &FirstRoom::helpRequested, this, [this] { askForLink(tr("Help at the desk"), {}, {}, {}); });
    connect(m_first, &FirstRoom::writeRequested, this, &Program::write);
    connect(m_first, &FirstRoom::wordsSizeRequested, this, [this] {
        const look::Look& now = look::Look::current();
        wear(look::Look(now.ground(), static_cast<look::TextSize>((static_cast<int>(now.textSize()) + 1) % 3)));
    });
    connect(m_first, &FirstRoom::groundRequested, this, [this] {
        const look::Look& now = look::Look::current();
        const bool dark = now.ground() == look::Ground::dark;
        wear(look::Look(dark ? look::Ground::light : look::Ground::dark, now.textSize()));
    });
    connect(m_first, &FirstRoom::knownRequested, this, [this](int which) {
        if (which >= 0 && which < static_cast<int>(m_memberships.all().size()))
            enter(link::Membership(m_memberships.all()[static_cast<std::size_t>(which)]));
    });
    connect(m_ask, &join::AskPage::submitRequested, this,
            [this](const QStringList& fields) { redeem(fields.value(0), fields.value(1)); });
    connect(m_ask, &join::AskPage::backRequested, this, &Program::toFirst);
    toFirst();
}

Program::~Program()
{
    leaveRoom();
}

void Program::wear(const look::Look& look)
{
    if (look.applyTo(*qApp))
        look::keepLook(m_setup.folder, look);
}

void Program::toFirst()
{
    leaveRoom();
    m_memberships = link::Memberships(m_setup.folder); // a room may have added one
    m_first->setState(firstViewOf(m_memberships.all()));
    setCurrentWidget(m_first);
}

void Program::join(const QString& link, const QString& name)
{
    leaveRoom();
    m_joinRoom = std::make_unique<join::JoinRoom>();
    m_join = std::make_unique<join::JoinControl>(
        join::JoinSetup{m_setup.clock, m_setup.folder, m_setup.sound, m_setup.plain, m_setup.loudspeaker}, *m_joinRoom);
    connect(m_join.get(), &join::JoinControl::left, this, &Program::toFirst, Qt::QueuedConnection);
    connect(m_join.get(), &join::JoinControl::otherRoomNeeded, this, &Program::enter, Qt::QueuedConnection);
    m_join->startNew(link, name);
    showRoom(m_joinRoom.get());
}

void Program::enter(const link::Membership& membership)
{
    if (membership.role == Role::participant) {
        join({}, {});
        m_join->startKnown(membership);
        return;
    }
    const auto keys = m_keys->read(membership.key);
    if (!keys)
        return askForLink(tr("Come in once more"), {}, QString::fromStdString(membership.name),
                          tr("This computer has lost its key to the group. Please ask for a new link."));
    link::Entry entry = link::entryOf(membership, *keys);
    entry.plain = m_setup.plain;
    openWorkLine(entry);
}

void Program::askForLink(const QString& heading, const QString& link, const QString& name, const QString& notice)
{
    leaveRoom();
    m_heading = heading;
    join::AskView view;
    view.heading = heading;
    view.words = tr("You were given a link that is good once, within seven days.");
    view.fields = {{tr("Your link"), link, tr("voicehall://…")}, {tr("Your name"), name, {}}};
    view.choices = {{tr("Go on"), false}};
    view.notice = notice;
    view.canGoBack = true;
    m_ask->setState(view);
    setCurrentWidget(m_ask);
}

void Program::redeem(const QString& link, const QString& name)
{
    const auto parsed = wire::parseJoinLink(link.toStdString());
    const auto shown = cleanLine(name.toStdString(), wire::kNameLength);
    if (!parsed || !parsed->token)
        return askForLink(m_heading, link, name,
                          parsed ? tr("This is not a one-time link. Please ask for one.")
                                 : QString::fromStdString(parsed.error().message));
    if (!shown)
        return askForLink(m_heading, link, name, tr("Please write your name."));
    link::Entry entry;
    entry.how = link::Entry::How::redeem;
    entry.host = parsed->host;
    entry.port = parsed->port;
    entry.pin = parsed->pin;
    entry.token = *parsed->token;
    entry.name = *shown;
    entry.device = QSysInfo::machineHostName().toStdString();
    entry.keys = wire::makeKeyPair();
    entry.plain = m_setup.plain;
    if (!m_keys->write(entry.keys))
        return askForLink(m_heading, link, name, tr("This computer cannot keep a key. Is its disk full?"));
    openWorkLine(entry);
}

void Program::openWorkLine(const link::Entry& entry)
{
    leaveRoom();
    m_line = std::make_unique<link::Line>(*m_setup.clock);
    connect(m_line.get(), &link::Line::received, this, [this](const wire::ToClient& message) {
        if (const auto* welcome = std::get_if<wire::Welcome>(&message); welcome && !m_room)
            workLineIsIn(*welcome);
    });
    connect(m_line.get(), &link::Line::stateChanged, this, [this](link::LineState state) {
        if (state == link::LineState::ended && !m_room) {
            const QString why = m_line->ending();
            const QString name = QString::fromStdString(m_line->entry().name);
            QMetaObject::invokeMethod(
                this, [this, why, name] { askForLink(m_heading.isEmpty() ? tr("Come in") : m_heading, {}, name, why); },
                Qt::QueuedConnection);
        }
    });
    // The rooms exist before the line says anything, so that they miss nothing.
    m_ears = std::make_unique<sound::Ears>();
    m_lead = std::make_unique<lead::LeadControl>(*m_line, *m_setup.clock, *m_ears);
    m_lead->setSound(m_setup.sound);
    m_lead->setLoudspeaker(m_setup.loudspeaker);
    connect(m_lead.get(), &lead::LeadControl::classLed, &m_pace, &write::OwnPaceBook::learn);
    m_desk = std::make_unique<help::DeskControl>(*m_line, m_setup.folder);
    m_desk->setLoudspeaker(m_setup.loudspeaker);
    connect(m_lead.get(), &lead::LeadControl::leaveRequested, this, &Program::toFirst, Qt::QueuedConnection);
    connect(m_desk.get(), &help::DeskControl::leaveRequested, this, &Program::toFirst, Qt::QueuedConnection);
    sayOnTheWay(tr("Going to %1.").arg(QString::fromStdString(entry.host)));
    setCurrentWidget(m_wait);
    m_noAnswer.start();
    m_line->open(entry);
}

void Program::sayOnTheWay(const QString& words)
{
    m_wait->setState({tr("One moment"), words, {}, tr("Stop")});
}

void Program::workLineIsIn(const wire::Welcome& welcome)
{
    const link::Entry& entry = m_line->entry();
    const link::Membership membership{entry.host,    entry.port,        entry.pin,
                                      welcome.group, welcome.groupName, welcome.person,
                                      welcome.name,  welcome.role,      entry.keys.publicKey};
    const bool kept = m_memberships.use(membership);
    if (welcome.role == Role::participant) { // a participant's link: their room is another one
        QMetaObject::invokeMethod(
            this, [this, membership] { enter(membership); }, Qt::QueuedConnection);
        return;
    }
    m_noAnswer.stop();
    if (welcome.role == Role::moderator) {
        m_lead.reset();
        m_ears.reset();
        showRoom(&m_desk->room());
        if (!kept)
            m_desk->say(link::notKeptWords());
    } else {
        m_desk.reset();
        if (welcome.role == Role::leader)
            m_days = std::make_unique<LeadDays>(
                LeadDays::Setup{m_setup.clock, m_setup.folder, welcome.group, &m_library, m_lead.get()});
        showRoom(&m_lead->room());
        if (!kept)
            m_lead->say(link::notKeptWords());
    }
}

void Program::write()
{
    leaveRoom();
    std::vector<write::WriteGroup> groups;
    for (const link::Membership& each : m_memberships.all())
        if (const auto same = [&](const write::WriteGroup& group) { return group.id == each.group; };
            each.role == Role::leader && std::none_of(groups.begin(), groups.end(), same))
            groups.push_back({each.group, QString::fromStdString(each.groupName)});
    m_ears = std::make_unique<sound::Ears>();
    m_write = std::make_unique<write::WriteControl>(write::WriteSetup{
        m_setup.clock, m_setup.folder, &m_library, std::move(groups), &m_pace, m_ears.get(), m_setup.sound});
    connect(m_write.get(), &write::WriteControl::leaveRequested, this, &Program::toFirst, Qt::QueuedConnection);
    showRoom(&m_write->room());
}

void Program::showRoom(QWidget* room)
{
    m_room = room;
    addWidget(room);
    setCurrentWidget(room);
    room->setFocus();
}

void Program::leaveRoom()
{
    m_noAnswer.stop();
    if (m_line)
        m_line->close();
    if (m_room)
        removeWidget(m_room);
    m_room = nullptr;
    m_days.reset();
    m_lead.reset();
    m_desk.reset();
    m_write.reset();
    m_ears.reset();
    m_join.reset();
    m_joinRoom.reset();
    m_line.reset();
}

void Program::closeEvent(QCloseEvent* event)
{
    leaveRoom();
    event->accept();
}

} // namespace vh
