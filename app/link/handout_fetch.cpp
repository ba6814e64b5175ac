#include "app/link/handout_fetch.h"

#include "common/wire/login_text.h"

#include <algorithm>
#include <utility>

namespace vh::link
{

HandoutFetch::HandoutFetch(Line& line, ClassFollow& follow, QObject* parent) : QObject(parent), m_follow(follow)
{
    connect(&line, &Line::received, this, &HandoutFetch::take);
    connect(&follow, &ClassFollow::changed, this, &HandoutFetch::look);
    connect(&follow, &ClassFollow::withheld, this, [this](const wire::Hash& part) {
        if (m_fetching && std::find(m_offered->parts.begin(), m_offered->parts.end(), part) != m_offered->parts.end()) {
            end();
            emit failed();
        }
    });
}

void HandoutFetch::take(const wire::ToClient& message)
{
    if (const auto* welcome = std::get_if<wire::Welcome>(&message))
        offer(welcome->handout);
    else if (const auto* handout = std::get_if<wire::HandoutNow>(&message))
        offer(*handout);
    else if (const auto* open = std::get_if<wire::ClassOpen>(&message);
             open && m_offered && m_offered->classId != open->classId)
        offer(std::nullopt);
}

void HandoutFetch::offer(std::optional<wire::HandoutNow> handout)
{
    if (handout && (handout->parts.empty() || handout->bytes > wire::kHandoutBytes))
        handout.reset();
    const bool same = handout.has_value() == m_offered.has_value() && (!handout || handout->hash == m_offered->hash);
    if (same)
        return;
    const bool wanted = m_fetching;
    if (wanted)
        end();
    m_offered = std::move(handout);
    emit offeredChanged();
    if (wanted && m_offered)
        fetch(); // the newer one is what the person wants
    else if (wanted)
        emit failed();
}

void HandoutFetch::fetch()
{
    if (!m_offered || std::exchange(m_fetching, true))
        return;
    m_follow.alsoFetch(m_offered->parts);
    look();
}

void HandoutFetch::end()
{
    m_fetching = false;
    m_follow.alsoFetch({});
}

void HandoutFetch::look()
{
    m_follow.setHeldBack(m_follow.place() && m_follow.open() && m_follow.place()->phase != Phase::notStarted &&
                         m_follow.place()->phase != Phase::ended);
    if (!m_fetching)
        return;
    QByteArray pdf;
    for (const wire::Hash& hash : m_offered->parts) {
        const auto part = m_follow.part(hash);
        if (!part)
            return;
        pdf += *part;
        if (pdf.size() > static_cast<qsizetype>(wire::kHandoutBytes))
            break;
    }
    const wire::HandoutNow offered = *m_offered;
    end();
    const bool right = pdf.size() == static_cast<qsizetype>(offered.bytes) && pdf.startsWith("%PDF-") &&
                       wire::sha256({pdf.constData(), static_cast<std::size_t>(pdf.size())}) == offered.hash;
    if (right)
        emit fetched(pdf);
    else
        emit failed();
}

} // namespace vh::link
