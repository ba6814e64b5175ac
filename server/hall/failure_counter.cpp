#include "server/hall/failure_counter.h"

#include <algorithm>
#include <arpa/inet.h>

namespace vh::hall
{

bool FailureCounter::isClosed(const std::string& key, Instant now) const
{
    const auto found = m_counts.find(key);
    if (found == m_counts.end())
        return false;
    const Count& count = found->second;
    const int failures = now - count.since < kWindow ? count.failures : 0;
    return count.pending >= kMostPending || (failures > 0 && failures + count.pending >= kMostFailures);
}

FailureCounter::Count& FailureCounter::countOf(const std::string& key, Instant now)
{
    if (m_counts.size() >= m_mostKeys && !m_counts.contains(key)) {
        const auto oldest = std::min_element(m_counts.begin(), m_counts.end(), [](const auto& a, const auto& b) {
            return a.second.since < b.second.since;
        });
        m_counts.erase(oldest);
    }
    Count& count = m_counts[key];
    if (now - count.since >= kWindow) {
        count.failures = 0;
        count.since = now;
    }
    return count;
}

void FailureCounter::failed(const std::string& key, Instant now)
{
    ++countOf(key, now).failures;
}

void FailureCounter::looksInto(const std::string& key, Instant now)
{
    ++countOf(key, now).pending;
}

void FailureCounter::wasRight(const std::string& key)
{
    const auto found = m_counts.find(key);
    if (found == m_counts.end())
        return;
    found->second.pending = std::max(0, found->second.pending - 1);
    if (found->second.pending == 0 && found->second.failures == 0)
        m_counts.erase(found);
}

void FailureCounter::wasWrong(const std::string& key, Instant now)
{
    Count& count = countOf(key, now);
    count.pending = std::max(0, count.pending - 1);
    ++count.failures;
}

bool isOneHousehold(const std::string& counted)
{
    return counted != "local" && !counted.starts_with("127.") && !counted.starts_with("::ffff:127.") &&
           counted != "::/64"; // of ::1
}

std::string countedAddress(const std::string& address)
{
    in6_addr bytes{};
    if (inet_pton(AF_INET6, address.c_str(), &bytes) != 1)
        return address;
    if (IN6_IS_ADDR_V4MAPPED(&bytes))
        return address;
    std::fill(bytes.s6_addr + 8, bytes.s6_addr + 16, std::uint8_t{0});
    char text[INET6_ADDRSTRLEN] = {};
    inet_ntop(AF_INET6, &bytes, text, sizeof text);
    return std::string(text) + "/64";
}

} // namespace vh::hall
