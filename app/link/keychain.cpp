// Private keys in the system's keychain (Secret Service, KWallet and their like by qtkeychain). Where there is no
// keychain, or it refuses, files that only this user can read.
#include "app/link/identity.h"
#include "common/base/text.h"

#include <QEventLoop>
#include <QTimer>
#include <qt6keychain/keychain.h>

namespace vh::link
{

namespace
{

constexpr char kService[] = "Voicehall";
/// A keychain that asks the person for a password may take its time; one that hangs may not.
constexpr int kPatienceMs = 60'000;

bool finish(QKeychain::Job& job)
{
    QEventLoop loop;
    job.setAutoDelete(false);
    QObject::connect(&job, &QKeychain::Job::finished, &loop, &QEventLoop::quit);
    QTimer::singleShot(kPatienceMs, &loop, &QEventLoop::quit);
    job.start();
    loop.exec();
    return job.error() == QKeychain::NoError;
}

class KeychainBox final : public KeyBox
{
public:
    explicit KeychainBox(const QString& folder) : m_files(makeFileKeyBox(folder)) {}

    std::optional<wire::KeyPair> read(const wire::Key& publicKey) override
    {
        if (auto keys = m_files->read(publicKey))
            return keys;
        QKeychain::ReadPasswordJob job(kService);
        job.setKey(QString::fromStdString(hexOf(publicKey)));
        if (!finish(job))
            return std::nullopt;
        wire::KeyPair keys;
        const auto bytes = bytesOfHex(job.textData().toStdString());
        if (!bytes || bytes->size() != keys.secretKey.size())
            return std::nullopt;
        std::copy(bytes->begin(), bytes->end(), keys.secretKey.begin());
        keys.publicKey = publicKey;
        return keys;
    }

    bool write(const wire::KeyPair& keys) override
    {
        QKeychain::WritePasswordJob job(kService);
        job.setKey(QString::fromStdString(hexOf(keys.publicKey)));
        job.setTextData(QString::fromStdString(hexOf(keys.secretKey)));
        return finish(job) || m_files->write(keys);
    }

private:
    std::unique_ptr<KeyBox> m_files;
};

} // namespace

std::unique_ptr<KeyBox> makeKeyBox(const QString& folder)
{
    // Without a session bus there is no keychain to ask on this kind of system.
    if (qEnvironmentVariableIsEmpty("DBUS_SESSION_BUS_ADDRESS"))
        return makeFileKeyBox(folder);
    return std::make_unique<KeychainBox>(folder);
}

} // namespace vh::link
