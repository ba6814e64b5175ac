#include "tests/bench/relay_seed.h"

#include "server/hall/member.h"
#include "server/ops/relay.h"
#include "server/store/store.h"

#include <sodium.h>
#include <stdexcept>

namespace vh::bench
{

wire::KeyPair keysOf(std::size_t number)
{
    const auto seed = wire::sha256("voicehall bench, device " + std::to_string(number));
    wire::KeyPair pair;
    crypto_sign_seed_keypair(pair.publicKey.data(), pair.secretKey.data(), seed.data());
    return pair;
}

Folder::Folder()
{
    auto name = (std::filesystem::temp_directory_path() / "voicehall-bench-XXXXXX").string();
    if (!::mkdtemp(name.data()))
        throw std::runtime_error("no folder for the relay's data");
    m_path = name;
}

Folder::~Folder()
{
    std::error_code error;
    std::filesystem::remove_all(m_path, error);
}

Seed::Seed(std::size_t homes)
{
    ops::Config config;
    config.data = m_folder.path();
    const auto opening = store::Store::open(ops::storeOptions(config, store::StoreOptions::Hold::alone));
    if (!opening.store)
        throw std::runtime_error(opening.message);
    const auto now = SystemClock().now();
    const auto seeded = opening.store->run([&](store::Tables& tables) -> Result<GroupId> {
        const auto group = tables.groups.add("The bench", now).id;
        const auto enrol = [&](const std::string& name, store::Role role, std::size_t number) -> PersonId {
            const auto person = tables.people.add(group, name, role, now).value().id;
            tables.devices.bind(person, keysOf(number).publicKey, "bench", now).value();
            return person;
        };
        for (std::size_t home = 0; home < homes; ++home) {
            store::AgreementRow seen;
            seen.person = enrol("Person " + std::to_string(home), store::Role::participant, home);
            seen.kind = store::AgreementKind::levelVisible;
            seen.value = "leader";
            seen.at = now;
            if (auto added = tables.agreements.add(seen); !added)
                return tl::unexpected<Error>(added.error());
        }
        enrol("Leader", store::Role::leader, kLeaderNumber);
        enrol("Helper", store::Role::helper, kHelperNumber);
        return group;
    });
    m_group = seeded.value();
}

void Seed::copyTo(const std::filesystem::path& folder) const
{
    std::filesystem::copy(m_folder.path(), folder, std::filesystem::copy_options::recursive);
}

} // namespace vh::bench
