#include "tests/whole/relay_process.h"

#include <QRegularExpression>

namespace vh::whole
{

RelayProcess::RelayProcess()
{
    m_config.data = m_folder.filePath("relay").toStdString();
    m_config.port = 0;
    m_config.ops = false;
}

RelayProcess::~RelayProcess()
{
    kill();
}

bool RelayProcess::start()
{
    m_process.setProcessChannelMode(QProcess::MergedChannels);
    m_process.start(VH_BINARY_DIR "/bin/voicehall-relay", {"--data", QString::fromStdString(m_config.data.string()),
                                                           "--port", QString::number(m_config.port)});
    QByteArray said;
    while (m_process.waitForReadyRead(20'000)) {
        said += m_process.readAll();
        if (said.contains("ready\n")) {
            const auto port = QRegularExpression("port (\\d+)").match(QString::fromUtf8(said));
            m_config.port = static_cast<std::uint16_t>(port.captured(1).toUInt());
            return m_config.port != 0;
        }
    }
    qWarning("the relay said: %s", said.constData());
    return false;
}

void RelayProcess::kill()
{
    m_process.kill();
    m_process.waitForFinished();
}

bool RelayProcess::stop()
{
    m_process.terminate();
    return m_process.waitForFinished(10'000) && m_process.exitStatus() == QProcess::NormalExit &&
           m_process.exitCode() == 0;
}

} // namespace vh::whole
