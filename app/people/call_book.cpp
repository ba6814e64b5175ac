#include "app/people/call_book.h"

#include "app/people/ago.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh
{

namespace
{

constexpr std::size_t kMostShown = 3;

QString say(const char* words)
{
    return QCoreApplication::translate("vh::CallBook", words);
}

CallList::Row rowOf(const wire::Call& call, const std::string& own, Instant now)
{
    CallList::Row row;
    row.call = call.call;
    const QString name = QString::fromStdString(call.name);
    const QString ago = agoWords(now - call.at);
    if (call.takenBy.empty()) {
        row.words = say("%1 needs help, %2").arg(name, now - call.at < Millis{1000} ? ago : say("%1 ago").arg(ago));
    } else if (call.takenBy == own) {
        row.hand = CallList::Hand::mine;
        row.words = say("You have %1's call").arg(name);
    } else {
        row.hand = CallList::Hand::another;
        row.words = say("%1 has %2's call").arg(QString::fromStdString(call.takenBy), name);
    }
    QStringList detail;
    if (!call.where.empty())
        detail << QString::fromStdString(call.where);
    if (!call.ring.empty())
        detail << say("to ring: %1").arg(QString::fromStdString(call.ring));
    row.detail = detail.join(QStringLiteral(" \u00B7 "));
    return row;
}

} // namespace

void CallBook::take(const wire::Calls& message)
{
    for (const wire::Call& call : message.calls) {
        if (call.done)
            m_calls.erase(call.call);
        else
            m_calls[call.call] = call;
    }
}

CallList::State CallBook::state(const std::string& own, Instant relayNow) const
{
    CallList::State state;
    for (const auto& [id, call] : m_calls)
        state.rows.push_back(rowOf(call, own, relayNow));
    std::stable_sort(state.rows.begin(), state.rows.end(),
                     [](const CallList::Row& a, const CallList::Row& b) { return a.hand < b.hand; });
    if (state.rows.size() > kMostShown) {
        state.more = say("and %1 more").arg(state.rows.size() - kMostShown);
        state.rows.resize(kMostShown);
    }
    return state;
}

} // namespace vh
