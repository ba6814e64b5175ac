#include "app/lead/guest.h"

#include <QCoreApplication>

#include <utility>

namespace vh::lead
{

namespace
{

QString words(const char* text)
{
    return QCoreApplication::translate("vh::lead::Guest", text);
}

QString nameOf(const std::string& name)
{
    return name.empty() ? words("This person") : QString::fromStdString(name);
}

} // namespace

void Guest::welcome(const wire::Welcome& welcome)
{
    m_speaking = {};
    m_standing = Standing::nobody; // a question of hers falls with her line
    if (welcome.speaking)
        take(*welcome.speaking);
}

void Guest::take(const wire::Speaking& speaking)
{
    if (m_speaking.seq != 0 && speaking.seq <= m_speaking.seq)
        return; // the one for all, which says less
    m_speaking = speaking;
    if (speaking.on) {
        m_standing = Standing::heard;
        m_name = nameOf(speaking.name);
    } else if (m_standing == Standing::heard) {
        m_standing = Standing::nobody;
    }
}

QString Guest::take(const wire::InviteOver& over)
{
    m_standing = Standing::nobody;
    const QString name = nameOf(over.name);
    switch (over.why) {
    case wire::InviteEnd::notNow:
        return words("%1 would rather not just now.").arg(name);
    case wire::InviteEnd::ended:
        return words("%1 has ended it and is heard no longer.").arg(name);
    case wire::InviteEnd::lineLost:
        return words("%1's line is lost, so nobody hears them just now.").arg(name);
    }
    return {};
}

std::optional<wire::InviteToSpeak> Guest::invite(PersonId person, const QString& name)
{
    if (m_standing != Standing::nobody)
        return {};
    m_standing = Standing::asked;
    m_person = person;
    m_name = name;
    return wire::InviteToSpeak{{}, person};
}

QString Guest::inviteAnswered(PersonId person, const Error* error)
{
    if (!error)
        return {};
    if (m_standing == Standing::asked && m_person == person)
        m_standing = Standing::nobody;
    if (error->code == "not-here")
        return words("%1 is not here just now, so nobody was asked.").arg(m_name);
    return QString::fromStdString(error->message);
}

bool Guest::end()
{
    return std::exchange(m_standing, Standing::nobody) != Standing::nobody;
}

HeardByAll Guest::heard(int seat, PersonId person) const
{
    switch (m_standing) {
    case Standing::nobody:
        break;
    case Standing::asked:
        return person == m_person ? HeardByAll::asked : HeardByAll::no;
    case Standing::heard:
        if (m_speaking.seat ? static_cast<int>(*m_speaking.seat) == seat : person == m_person)
            return HeardByAll::yes;
    }
    return HeardByAll::no;
}

GuestState Guest::state(bool covered) const
{
    GuestState state;
    const QString name = covered ? words("somebody") : m_name;
    const QString shown = covered ? words("Somebody") : m_name;
    switch (m_standing) {
    case Standing::nobody:
        break;
    case Standing::asked:
        state.words = {words("Asked: waiting for %1").arg(name), words("Waiting for %1").arg(name), words("Waiting")};
        state.press = words("Take back");
        break;
    case Standing::heard:
        state.words = {words("%1 is heard by all").arg(shown), words("%1 is heard").arg(shown), words("Heard by all")};
        state.press = words("Not any more");
        state.heard = true;
        break;
    }
    return state;
}

} // namespace vh::lead
