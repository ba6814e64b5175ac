#pragma once
// The real voicehall-relay as a process of its own, on free ports and a folder of the test's. Thread: the test's.
#include "server/net/tls_context.h"
#include "server/ops/config.h"
#include "tests/server/hall/test_line.h"

#include <QProcess>
#include <QTemporaryDir>

namespace vh::testing
{

class RelayProcess
{
public:
    /// Options beside --data and those of ports, which are always "any free one".
    explicit RelayProcess(QString data, QStringList options = {});
    ~RelayProcess();

    /// True once it says that it is ready; false when it ended instead (see said()).
    bool start();
    /// SIGTERM; the exit code, or nothing when it does not end within ten seconds or did so by a signal.
    std::optional<int> stop();
    /// SIGKILL.
    void kill();
    /// False once it has ended, by itself or otherwise; known when events have been seen to.
    [[nodiscard]] bool isUp() const { return m_process.state() != QProcess::NotRunning; }
    /// In the environment of the next starts; an empty value takes it out.
    void setVariable(const QString& name, const QString& value);
    /// Without starting a relay: one command of the operator's, and its output.
    QByteArray command(const QStringList& arguments);

    /// Of this relay, as stage::makeGroup and its kin want it.
    [[nodiscard]] ops::Config config() const;
    [[nodiscard]] std::uint16_t port() const { return m_port; }
    [[nodiscard]] std::uint16_t opsPort() const { return m_opsPort; }
    /// After the first start: the next ones take the same port, as after a crash.
    void keepPort() { m_kept = m_port; }
    [[nodiscard]] QByteArray said() const { return m_said; }

    /// A line to its TCP port.
    [[nodiscard]] net::ClientOptions lineOptions(std::shared_ptr<const net::TlsContext> tls = {}) const;

private:
    QString m_data;
    QStringList m_options;
    QProcess m_process;
    QByteArray m_said;
    std::uint16_t m_port = 0;
    std::uint16_t m_opsPort = 0;
    std::uint16_t m_kept = 0;
};

/// Status line, headers and body of one HTTP request on loopback.
QByteArray httpGet(std::uint16_t port, const QByteArray& path, const QByteArray& method = "GET");
/// Runs a program to its end; its standard output. Empty and a warning when it fails.
QByteArray run(const QString& program, const QStringList& arguments);
std::uint16_t freePort();

} // namespace vh::testing
