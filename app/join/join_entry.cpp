// The way in: by a link or a code, or as somebody known; what is kept of it; the four words of the relay's key.
#include "app/join/join_control.h"

#include <QSysInfo>
#include <QThreadPool>

namespace vh::join
{

namespace
{

/// What a person would call this machine.
std::string deviceWords()
{
    const QString name = QSysInfo::machineHostName();
    return name.isEmpty() ? std::string("computer") : name.left(wire::kLabelLength).toStdString();
}

} // namespace

void JoinControl::startNew(const QString& link, const QString& name)
{
    m_model.startAtEntry(link, {}, name);
    render();
}

void JoinControl::startKnown(const link::Membership& membership)
{
    const auto keys = m_keys->read(membership.key);
    if (!keys) {
        m_model.startAtEntry(QString::fromStdString(membership.host), {}, QString::fromStdString(membership.name),
                             tr("This computer has lost its key to the group. Please come in once more by the code."));
        return render();
    }
    link::Entry entry = link::entryOf(membership, *keys);
    entry.plain = m_setup.plain;
    m_model.connecting(tr("Going to %1.").arg(QString::fromStdString(membership.groupName)));
    render();
    m_line.open(entry);
    for (const wire::Agree& each : m_pending.of(membership.person)) // of an earlier day: the first thing that is said
        m_line.askFirst(each);
}

void JoinControl::comeIn(const QString& address, const QString& code, const QString& name)
{
    const auto again = [&](const QString& wrong) {
        m_model.startAtEntry(address, code, name, wrong);
        render();
    };
    const auto parsed = wire::parseJoinLink(address.toStdString());
    if (!parsed)
        return again(QString::fromStdString(parsed.error().message));
    const auto typed = code.isEmpty() ? std::optional(parsed->code) : wire::normaliseCode(code.toStdString());
    if (!typed || (typed->empty() && !parsed->token))
        return again(tr("The code has six signs, such as K7M 4AP. Please look at it once more."));
    const auto shown = cleanLine(name.toStdString(), wire::kNameLength);
    if (!shown)
        return again(tr("Please write your name."));
    link::Entry entry;
    entry.how = parsed->token ? link::Entry::How::redeem : link::Entry::How::knock;
    entry.host = parsed->host;
    entry.port = parsed->port;
    entry.pin = parsed->pin;
    entry.code = *typed;
    if (parsed->token)
        entry.token = *parsed->token;
    entry.name = *shown;
    entry.device = deviceWords();
    entry.keys = wire::makeKeyPair();
    entry.plain = m_setup.plain;
    if (!m_keys->write(entry.keys))
        return again(tr("This computer cannot keep a key. Is its disk full?"));
    m_model.connecting(tr("Looking for %1.").arg(QString::fromStdString(entry.host)));
    render();
    m_line.open(entry);
}

void JoinControl::isIn(const wire::Welcome& welcome)
{
    if (m_line.isUncompared()) // nothing private is said, and nothing kept, before somebody has compared the words
        return m_model.askForSameWords();
    if (!std::exchange(m_membershipKept, true)) {
        const link::Entry& entry = m_line.entry();
        const link::Membership membership{entry.host,    entry.port,        entry.pin,
                                          welcome.group, welcome.groupName, welcome.person,
                                          welcome.name,  welcome.role,      entry.keys.publicKey};
        if (!m_memberships.use(membership))
            m_model.say(link::notKeptWords());
        if (welcome.role != Role::participant) {
            m_line.close();
            emit otherRoomNeeded(membership);
            return;
        }
    }
    if (m_epoch && *m_epoch != welcome.epoch)
        m_model.meter().forget(); // the hall judges afresh, and so do we
    m_epoch = welcome.epoch;
    showDevices();
    const auto spot = m_usuals.find(welcome.person, device());
    wire::Welcome known = welcome; // with what this person answered and the relay has not taken yet
    for (const wire::Agree& each : m_pending.of(welcome.person)) {
        std::erase_if(known.agreements, [&](const auto& value) { return value.kind == each.kind; });
        known.agreements.push_back({each.kind, each.value});
    }
    m_model.board().putAwayBefore(m_answersRead.of(welcome.person));
    m_model.welcome(known, spot.has_value());
    if (const auto hello = m_model.helloToSay())
        m_line.tell(wire::Greet{*hello});
    if (const auto today = m_model.today())
        m_line.tell(*today); // back after a lost line
    else
        useSpot();
}

/// The words come from the key that this line has seen, never from what the relay says of itself.
void JoinControl::computeKeyWords()
{
    if (!m_line.seenPin() || m_line.entry().pin || m_wordsOf == m_line.seenPin())
        return;
    m_wordsOf = m_line.seenPin();
    QThreadPool::globalInstance()->start([pin = *m_wordsOf, self = QPointer(this)] {
        const auto words = wire::fourWords(pin);
        QMetaObject::invokeMethod(
            qApp,
            [self, words] {
                if (!self)
                    return;
                QStringList shown;
                for (const std::string& word : words)
                    shown.append(QString::fromStdString(word));
                self->m_model.keyWords(shown);
                self->render();
            },
            Qt::QueuedConnection);
    });
}

} // namespace vh::join
