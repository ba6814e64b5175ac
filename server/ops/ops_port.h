#pragma once
// The operator's own port, on loopback: GET /healthz and GET /metrics (Prometheus text format 0.0.4). One request at a
// time on a thread of its own; a slow asker is cut off after two seconds and never keeps a home waiting.
#include "common/base/result.h"

#include <atomic>
#include <functional>
#include <mutex>
#include <string>
#include <thread>

namespace vh::ops
{

struct OpsAnswers {
    std::function<bool()> isWell;         ///< called on the port's thread
    std::function<std::string()> metrics; ///< likewise
};

class OpsPort
{
public:
    static Result<std::unique_ptr<OpsPort>> open(std::uint16_t port, OpsAnswers answers);
    ~OpsPort();
    OpsPort(const OpsPort&) = delete;
    OpsPort& operator=(const OpsPort&) = delete;

    [[nodiscard]] std::uint16_t port() const { return m_port; }

private:
    OpsPort(int descriptor, std::uint16_t port, OpsAnswers answers);
    void serve();
    void setPeer(int peer);

    int m_descriptor;
    std::uint16_t m_port;
    OpsAnswers m_answers;
    std::atomic<bool> m_stopping{false};
    std::mutex m_peerMutex;
    int m_peer = -1; ///< being served; -1: nobody
    std::thread m_thread;
};

} // namespace vh::ops
