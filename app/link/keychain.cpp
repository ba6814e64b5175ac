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
/// Opening a keychain may ask the person for a password; one that hangs must not hold the program up.
constexpr std::chrono::seconds kPatience{10};

/// Whether the keychain has done it, in time; `use` sees the job when it went well. A job that is late lives on by
/// itself until it is done (then it deletes itself) and touches nothing of ours.
template <class Job, class Use>
bool finish(Job* job, Use use)
{
    bool done = false;
    QEventLoop loop;
    QObject::connect(job, &QKeychain::Job::finished, &loop, [&] {
        done = job->error() == QKeychain::NoError;
        if (done)
            use(*job);
        loop.quit();
    });
    QTimer::singleShot(kPatience, &loop, &QEventLoop::quit);
    job->start();
    loop.exec(QEventLoop::ExcludeUserInputEvents); // nobody presses on while the keychain is asked
    return done;
}

class KeychainBox final : public KeyBox
{
public:
    explicit KeychainBox(const QString& folder) : m_files(makeFileKeyBox(folder)) {}

    std::optional<wire::KeyPair> read(const wire::Key& publicKey) override
    {
        if (auto keys = m_files->read(publicKey))
            return keys;
        auto* job = new QKeychain::ReadPasswordJob(kService); // deletes itself
        job->setKey(QString::fromStdString(hexOf(publicKey)));
        std::string hex;
        if (!finish(job, [&](const QKeychain::ReadPasswordJob& read) { hex = read.textData().toStdString(); }))
            return std::nullopt;
        wire::KeyPair keys;
        const auto bytes = bytesOfHex(hex);
        if (!bytes || bytes->size() != keys.secretKey.size())
            return std::nullopt;
        std::copy(bytes->begin(), bytes->end(), keys.secretKey.begin());
        keys.publicKey = publicKey;
        return keys;
    }

    bool write(const wire::KeyPair& keys) override
    {
        auto* job = new QKeychain::WritePasswordJob(kService); // deletes itself
        job->setKey(QString::fromStdString(hexOf(keys.publicKey)));
        job->setTextData(QString::fromStdString(hexOf(keys.secretKey)));
        return finish(job, [](const auto&) {}) || m_files->write(keys);
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
