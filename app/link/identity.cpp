#include "app/link/identity.h"

#include "common/base/text.h"
#include "common/wire/fields.h"
#include "common/wire/names.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QSaveFile>

#include <algorithm>

namespace vh::link
{

// Found by name look-up from wire::visitFields.
static void fieldsOf(Membership& membership, auto& visit)
{
    visit("host", membership.host), visit("port", membership.port), visit("pin", membership.pin);
    visit("group", membership.group), visit("groupName", membership.groupName), visit("person", membership.person);
    visit("name", membership.name), visit("role", membership.role), visit("key", membership.key);
}

namespace
{

constexpr char kFile[] = "memberships.json";

struct MembershipFile {
    std::vector<Membership> all;
    void fields(auto& visit) { visit("memberships", all, wire::atMost(200)); }
};

class FileKeyBox final : public KeyBox
{
public:
    explicit FileKeyBox(QString folder) : m_folder(std::move(folder)) {}

    std::optional<wire::KeyPair> read(const wire::Key& publicKey) override
    {
        QFile file(pathOf(publicKey));
        if (!file.open(QIODevice::ReadOnly))
            return std::nullopt;
        const auto bytes = bytesOfHex(file.readAll().trimmed().toStdString());
        wire::KeyPair keys;
        if (!bytes || bytes->size() != keys.secretKey.size())
            return std::nullopt;
        std::copy(bytes->begin(), bytes->end(), keys.secretKey.begin());
        keys.publicKey = publicKey;
        return keys;
    }

    bool write(const wire::KeyPair& keys) override
    {
        QDir().mkpath(m_folder);
        QSaveFile file(pathOf(keys.publicKey));
        if (!file.open(QIODevice::WriteOnly) || !file.setPermissions(QFile::ReadOwner | QFile::WriteOwner))
            return false;
        const std::string hex = hexOf(keys.secretKey);
        return file.write(hex.data(), static_cast<qint64>(hex.size())) == static_cast<qint64>(hex.size()) &&
               file.commit();
    }

private:
    [[nodiscard]] QString pathOf(const wire::Key& key) const
    {
        return QDir(m_folder).filePath("key-" + QString::fromStdString(hexOf(key)));
    }

    QString m_folder;
};

} // namespace

std::unique_ptr<KeyBox> makeFileKeyBox(const QString& folder)
{
    return std::make_unique<FileKeyBox>(folder);
}

QString notKeptWords()
{
    return QCoreApplication::translate("vh::link",
                                       "This computer could not write down that you belong to this group. Is "
                                       "its disk full? Next time you would need a new link or the code.");
}

Memberships::Memberships(QString folder) : m_folder(std::move(folder))
{
    load();
}

void Memberships::load()
{
    QFile file(QDir(m_folder).filePath(kFile));
    if (!file.open(QIODevice::ReadOnly))
        return;
    const std::string text = file.readAll().toStdString();
    wire::json::error_code error;
    const wire::json::value value = wire::json::parse(text, error);
    if (!error && value.is_object()) {
        MembershipFile read;
        wire::FieldReader reader(value.get_object());
        wire::visitFields(read, reader);
        if (!reader.error()) {
            m_all = std::move(read.all);
            return;
        }
    }
    file.close();
    QFile::remove(file.fileName() + ".damaged");
    QFile::rename(file.fileName(), file.fileName() + ".damaged");
}

bool Memberships::use(const Membership& membership)
{
    std::erase_if(m_all,
                  [&](const Membership& each) { return each.key == membership.key && each.role == membership.role; });
    m_all.insert(m_all.begin(), membership);
    return save();
}

bool Memberships::forget(const wire::Key& key)
{
    std::erase_if(m_all, [&](const Membership& each) { return each.key == key; });
    return save();
}

bool Memberships::save() const
{
    QDir().mkpath(m_folder);
    MembershipFile written{m_all};
    wire::json::object object;
    wire::FieldWriter writer(object);
    wire::visitFields(written, writer);
    const std::string text = wire::json::serialize(object);
    QSaveFile file(QDir(m_folder).filePath(kFile));
    return file.open(QIODevice::WriteOnly) && file.setPermissions(QFile::ReadOwner | QFile::WriteOwner) &&
           file.write(text.data(), static_cast<qint64>(text.size())) == static_cast<qint64>(text.size()) &&
           file.commit();
}

} // namespace vh::link
