#pragma once
// Who has joined what on this installation: one membership for each person, group and role. A shared home computer has
// several. Kept in memberships.json in the profile's folder; the private key lies in a KeyBox. GUI thread. A file that
// cannot be read is set aside (".damaged"), never overwritten.
#include "common/base/role.h"
#include "common/wire/join_link.h"
#include "common/wire/login_text.h"

#include <QString>

#include <memory>
#include <optional>
#include <vector>

namespace vh::link
{

struct Membership {
    std::string host;
    std::uint16_t port = 443;
    std::optional<wire::Hash> pin;
    GroupId group;
    std::string groupName;
    PersonId person;
    std::string name;
    Role role = Role::participant;
    wire::Key key{};
    friend bool operator==(const Membership&, const Membership&) = default;
};

/// Where private keys lie. write() false: the key could not be kept.
class KeyBox
{
public:
    KeyBox() = default;
    KeyBox(const KeyBox&) = delete;
    KeyBox& operator=(const KeyBox&) = delete;
    virtual ~KeyBox() = default;
    [[nodiscard]] virtual std::optional<wire::KeyPair> read(const wire::Key& publicKey) = 0;
    [[nodiscard]] virtual bool write(const wire::KeyPair& keys) = 0;
};
/// The system's keychain where there is one, else files that only this user can read (mode 0600) in `folder`.
std::unique_ptr<KeyBox> makeKeyBox(const QString& folder);
/// Files only.
std::unique_ptr<KeyBox> makeFileKeyBox(const QString& folder);

/// When a membership could not be written down.
QString notKeptWords();

class Memberships
{
public:
    explicit Memberships(QString folder);
    /// Most recently used first.
    [[nodiscard]] const std::vector<Membership>& all() const { return m_all; }
    /// Adds it, or moves it to the front; false when it could not be written.
    bool use(const Membership& membership);
    bool forget(const wire::Key& key);
    [[nodiscard]] const QString& folder() const { return m_folder; }

private:
    void load();
    bool save() const;

    QString m_folder;
    std::vector<Membership> m_all;
};

} // namespace vh::link
