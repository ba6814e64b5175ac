#pragma once
// The group that the relay's bench brings to class: people, each with a device and the level agreed to be seen by the
// leader, one leader, and one helper. Keys come from the person's number, so that two processes agree on them without a
// word. Throws std::runtime_error: a bench that cannot start has nothing to say.
#include "common/base/id.h"
#include "common/wire/login_text.h"

#include <filesystem>

namespace vh::bench
{

/// The leader's number, and the helper's; homes count from 0.
inline constexpr std::size_t kLeaderNumber = 1'000'000;
inline constexpr std::size_t kHelperNumber = 1'000'001;
wire::KeyPair keysOf(std::size_t number);

/// A folder that goes when this does.
class Folder
{
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

private:
    std::filesystem::path m_path;
};

/// A relay's data folder, made once and copied for every relay: each of them opens a class of its own.
class Seed
{
public:
    explicit Seed(std::size_t homes);
    void copyTo(const std::filesystem::path& folder) const;
    [[nodiscard]] GroupId group() const { return m_group; }

private:
    Folder m_folder;
    GroupId m_group;
};

} // namespace vh::bench
