#pragma once
// The real relay as a process of its own, so that it can be killed. Keeps its port and its folder over restarts.
#include "server/ops/config.h"

#include <QProcess>
#include <QTemporaryDir>

namespace vh::whole
{

class RelayProcess
{
public:
    RelayProcess();
    ~RelayProcess();

    /// Waits until it says that it is ready.
    [[nodiscard]] bool start();
    /// SIGKILL: no goodbye, nothing flushed.
    void kill();
    /// SIGTERM; true when it ended by itself with 0.
    [[nodiscard]] bool stop();

    [[nodiscard]] std::uint16_t port() const { return m_config.port; }
    /// For stage::makeGroup and its kin.
    [[nodiscard]] const ops::Config& config() const { return m_config; }

private:
    QTemporaryDir m_folder;
    ops::Config m_config;
    QProcess m_process;
};

} // namespace vh::whole
