#include "tests/stage/relay_process.h"

#include "common/wire/limits.h"

#include <QElapsedTimer>
#include <QTcpServer>
#include <QTcpSocket>
#include <QtTest>

namespace vh::testing
{

namespace
{

constexpr int kPatienceMs = 20'000;
const QString kProgram = QStringLiteral(VH_BINARY_DIR "/bin/voicehall-relay");

std::uint16_t portAfter(const QByteArray& text, const QByteArray& words)
{
    const auto at = text.indexOf(words);
    const auto port = at < 0 ? -1 : text.indexOf("port ", at);
    return port < 0 ? std::uint16_t{0} : text.mid(port + 5, text.indexOf('\n', port) - port - 5).toUShort();
}

} // namespace

RelayProcess::RelayProcess(QString data, QStringList options) : m_data(std::move(data)), m_options(std::move(options))
{
    m_process.setProcessChannelMode(QProcess::MergedChannels);
}

RelayProcess::~RelayProcess()
{
    kill();
}

bool RelayProcess::start()
{
    m_said.clear();
    m_process.start(kProgram,
                    QStringList{"--data", m_data, "--port", QString::number(m_kept), "--ops-port", "0"} + m_options);
    while (!m_said.contains("ready\n")) {
        if (m_process.state() == QProcess::NotRunning || !m_process.waitForReadyRead(kPatienceMs)) {
            m_said += m_process.readAll();
            return m_said.contains("ready\n");
        }
        m_said += m_process.readAll();
    }
    m_port = portAfter(m_said, "listening on");
    m_opsPort = portAfter(m_said, "health and metrics");
    return true;
}

std::optional<int> RelayProcess::stop()
{
    m_process.terminate();
    if (!m_process.waitForFinished(10'000) || m_process.exitStatus() != QProcess::NormalExit)
        return std::nullopt;
    m_said += m_process.readAll();
    return m_process.exitCode();
}

void RelayProcess::kill()
{
    if (m_process.state() == QProcess::NotRunning)
        return;
    m_process.kill();
    m_process.waitForFinished(kPatienceMs);
}

void RelayProcess::setVariable(const QString& name, const QString& value)
{
    auto environment = m_process.processEnvironment();
    if (environment.isEmpty())
        environment = QProcessEnvironment::systemEnvironment();
    if (value.isEmpty())
        environment.remove(name);
    else
        environment.insert(name, value);
    m_process.setProcessEnvironment(environment);
}

QByteArray RelayProcess::command(const QStringList& arguments)
{
    return run(kProgram, QStringList{"--data", m_data} + m_options + arguments);
}

ops::Config RelayProcess::config() const
{
    ops::Config config;
    config.data = m_data.toStdString();
    config.port = m_port;
    return config;
}

net::ClientOptions RelayProcess::lineOptions(std::shared_ptr<const net::TlsContext> tls) const
{
    net::ClientOptions options;
    options.port = m_port;
    options.rules = {wire::kPath, wire::kSubprotocol};
    options.tls = std::move(tls);
    return options;
}

QByteArray httpGet(std::uint16_t port, const QByteArray& path, const QByteArray& method)
{
    QTcpSocket socket;
    socket.connectToHost(QStringLiteral("127.0.0.1"), port);
    if (!socket.waitForConnected(kPatienceMs))
        return {};
    socket.write(method + " " + path + " HTTP/1.1\r\nHost: localhost\r\n\r\n");
    while (socket.state() == QTcpSocket::ConnectedState && socket.waitForReadyRead(kPatienceMs)) {
    }
    return socket.readAll();
}

QByteArray run(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    if (!process.waitForFinished(kPatienceMs) || process.exitCode() != 0) {
        qWarning() << program << arguments << process.readAllStandardError();
        return {};
    }
    return process.readAllStandardOutput();
}

std::uint16_t freePort()
{
    QTcpServer server;
    server.listen(QHostAddress::LocalHost, 0);
    return server.serverPort();
}

} // namespace vh::testing
