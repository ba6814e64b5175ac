#include "app/people/call_book.h"

#include "app/people/ago.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>

#include <algorithm>

namespace vh
{

namespace
{

constexpr std::size_t kMostShown = 3;
constexpr Millis kOfToday{12 * 3'600'000}; ///< what was said of a contact since then needs no date

QString say(const char* words)
{
    return QCoreApplication::translate("vh::CallBook", words);
}

QString fromStd(const std::string& text)
{
    return QString::fromStdString(text);
}

QDateTime local(Instant at)
{
    return QDateTime::fromMSecsSinceEpoch(at.time_since_epoch().count());
}

QString agoOf(Instant at, Instant now)
{
    return now - at < Millis{1000} ? say("now") : say("%1 ago").arg(agoWords(now - at));
}

/// When the person last said where they are, unless it was today.
QString saidWords(const wire::ContactShown& contact, Instant now)
{
    if (!contact.at || now - *contact.at < kOfToday)
        return {};
    return say("as of %1").arg(QLocale().toString(local(*contact.at).date(), QLocale::ShortFormat));
}

} // namespace

bool CallBook::take(const wire::ToClient& message)
{
    if (const auto* calls = std::get_if<wire::Calls>(&message))
        take(*calls);
    else if (const auto* lost = std::get_if<wire::LostLines>(&message))
        take(*lost);
    else if (const auto* contact = std::get_if<wire::ContactShown>(&message))
        take(*contact);
    else
        return false;
    return true;
}

void CallBook::take(const wire::Calls& message)
{
    if (message.whole)
        m_calls.clear();
    for (const wire::Call& call : message.calls) {
        if (call.done)
            m_calls.erase(call.call);
        else
            m_calls[call.call] = call;
    }
    dropContacts();
}

void CallBook::take(const wire::LostLines& message)
{
    m_lost = message.lines;
    dropContacts();
}

void CallBook::take(const wire::ContactShown& contact)
{
    m_contacts[contact.person] = contact;
}

void CallBook::clear()
{
    m_calls.clear();
    m_lost.clear();
    m_contacts.clear();
    m_askedFor.clear();
}

/// Nothing is kept of them once there is no reason any more.
void CallBook::dropContacts()
{
    std::erase_if(m_contacts, [this](const auto& each) {
        const PersonId& person = each.first;
        const bool calls = std::any_of(m_calls.begin(), m_calls.end(), [&](const auto& call) {
            return call.second.person == person && (!call.second.taker || call.second.taker == m_own);
        });
        const bool lost = std::any_of(m_lost.begin(), m_lost.end(), [&](const wire::LostLine& line) {
            return line.person == person && line.seer == m_own && line.mayRing;
        });
        return each.second.because == wire::Because::call ? !calls : !lost;
    });
}

QString CallBook::contactWords(const PersonId& person, Instant now) const
{
    const auto found = m_contacts.find(person);
    if (found == m_contacts.end())
        return {};
    const wire::ContactShown& contact = found->second;
    QStringList detail;
    if (!contact.where.empty())
        detail << fromStd(contact.where);
    if (!contact.ring.empty())
        detail << say("to ring: %1").arg(fromStd(contact.ring));
    if (detail.isEmpty())
        return say("Where this is, and whom to ring, was never said.");
    if (const QString said = saidWords(contact, now); !said.isEmpty())
        detail << said;
    return detail.join(QStringLiteral(" \u00B7 "));
}

CallList::Row CallBook::rowOf(const wire::Call& call, Instant now) const
{
    CallList::Row row;
    row.call = call.call;
    const QString name = fromStd(call.name);
    if (!call.taker) {
        row.words = say("%1 needs help, %2").arg(name, agoOf(call.at, now));
    } else if (call.taker == m_own) {
        row.hand = CallList::Hand::mine;
        row.words = say("You have %1's call").arg(name);
        row.detail = contactWords(call.person, now);
    } else {
        row.hand = CallList::Hand::another;
        row.words = say("%1 has %2's call").arg(fromStd(call.takenBy), name);
    }
    return row;
}

CallList::State CallBook::state(Instant relayNow) const
{
    CallList::State state;
    for (const auto& [id, call] : m_calls)
        state.rows.push_back(rowOf(call, relayNow));
    std::stable_sort(state.rows.begin(), state.rows.end(),
                     [](const CallList::Row& a, const CallList::Row& b) { return a.hand < b.hand; });
    if (state.rows.size() > kMostShown) {
        state.more = say("and %1 more").arg(state.rows.size() - kMostShown);
        state.rows.resize(kMostShown);
    }
    return state;
}

LostList::State CallBook::lost(Instant relayNow) const
{
    LostList::State state;
    for (const wire::LostLine& line : m_lost) {
        LostList::Row row;
        row.person = line.person;
        row.mine = line.seer == m_own;
        const QString name = fromStd(line.name);
        if (line.seer && !row.mine)
            row.words = say("%1 sees to %2's lost line").arg(fromStd(line.seenBy), name);
        else if (line.back)
            row.words = say("%1 is here again").arg(name);
        else
            row.words = say("%1: line lost %2").arg(name, agoOf(line.since, relayNow));
        if (row.mine && line.mayRing)
            row.detail = contactWords(line.person, relayNow);
        if (line.mayRing && !line.seer && !line.back)
            row.press = LostList::Press::look;
        state.rows.push_back(row);
    }
    // What is in hand here stays in sight; then those where something can be done.
    std::stable_sort(state.rows.begin(), state.rows.end(), [](const LostList::Row& a, const LostList::Row& b) {
        const auto rank = [](const LostList::Row& row) {
            return row.mine ? 0 : row.press == LostList::Press::look ? 1 : 2;
        };
        return rank(a) < rank(b);
    });
    if (state.rows.size() > kMostShown) {
        state.more = say("and %1 more").arg(state.rows.size() - kMostShown);
        state.rows.resize(kMostShown);
    }
    return state;
}

const wire::Call* CallBook::fills(Instant now) const
{
    for (const auto& [id, call] : m_calls)
        if (fillsTheScreen(call.at, call.taker.has_value(), now) && !m_aside.contains(id))
            return &call;
    return nullptr;
}

std::optional<CallScreen::State> CallBook::filled(Instant now) const
{
    const wire::Call* call = fills(now);
    if (!call)
        return std::nullopt;
    CallScreen::State state;
    state.call = call->call;
    state.heading = say("%1 needs help").arg(fromStd(call->name));
    state.since = say("Since %1, for %2. Nobody has taken the call yet.")
                      .arg(QLocale().toString(local(call->at).time(), QLocale::ShortFormat), agoWords(now - call->at));
    const auto found = m_contacts.find(call->person);
    if (found == m_contacts.end())
        return state;
    const wire::ContactShown& contact = found->second;
    const QString unknown = say("never said");
    state.where = contact.where.empty() ? unknown : fromStd(contact.where);
    state.ring = contact.ring.empty() ? unknown : fromStd(contact.ring);
    state.said = saidWords(contact, now);
    return state;
}

std::optional<wire::ContactAsk> CallBook::contactToAsk(Instant now)
{
    const wire::Call* call = fills(now);
    if (!call || m_contacts.contains(call->person) || !m_askedFor.insert(call->call).second)
        return std::nullopt;
    return wire::ContactAsk{{}, call->person, wire::Because::call};
}

bool CallBook::rings(RingsFor who, Instant now)
{
    bool any = false;
    for (const auto& [id, call] : m_calls) {
        if (call.taker || m_aside.contains(id))
            continue;
        const std::int64_t due = ringsBy(who, call.at, now);
        std::int64_t& rung = m_rung[id];
        any = any || due > rung;
        rung = std::max(rung, due);
    }
    return any;
}

} // namespace vh
