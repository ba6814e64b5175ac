#pragma once
// A disk in memory that loses what was not synced when the power goes. Every file is kept twice: as programs see it,
// and as it is known to lie on the platter; between the two is the list of changes since the last sync. At a power cut
// those changes survive as a drive may leave them: none, a prefix, or any of their 512-byte sectors in any order, each
// whole or torn. A sync, and only a sync, moves them over. Names behave alike: a new file may vanish until it is
// synced, a deleted one come back until its folder was, which SQLite's Unix VFS sees to at the first sync of a new
// file. The model: SQLite, "Atomic Commit In SQLite", section 2, https://www.sqlite.org/atomiccommit.html. Thread: any,
// all under one lock.
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <random>
#include <string>
#include <vector>

namespace vh::store
{

class LossyDisk
{
public:
    using Bytes = std::vector<std::uint8_t>;
    struct Change {
        std::size_t offset = 0;
        Bytes bytes;
        bool isTruncation = false; ///< to `offset` bytes
    };
    struct File {
        Bytes now;
        Bytes onPlatter;
        std::vector<Change> pending;
        bool nameOnPlatter = false;
    };
    using FilePtr = std::shared_ptr<File>;
    enum class Done : std::uint8_t { yes, noPower, refused };

    explicit LossyDisk(std::uint64_t seed) : m_random(seed) {}

    /// The power goes in the middle of the n-th change, sync or deletion from now (1: the next). Everything fails then.
    void cutPowerAt(std::uint64_t operation);
    [[nodiscard]] bool hasPower() const;
    /// Power again, after a cut or at once: files now hold what survived. Nobody may have one open.
    void restart();

    /// A drive that says "synced" and does nothing: for the test of the test.
    void ignoreSyncs() { m_ignoresSyncs = true; }
    /// The next syncs fail, as on a drive that reports a write error.
    void refuseSyncs(bool refuse);

    [[nodiscard]] std::uint64_t sectorsLost() const { return m_sectorsLost; }
    [[nodiscard]] std::uint64_t sectorsTorn() const { return m_sectorsTorn; }

    /// For the VFS. A file that is not there: made when `create`, else null.
    FilePtr open(const std::string& name, bool create);
    bool exists(const std::string& name) const;
    Done remove(const std::string& name, bool syncFolder);
    Done write(File& file, std::size_t offset, const void* data, std::size_t size);
    Done truncate(File& file, std::size_t size);
    Done sync(File& file);
    /// Fewer bytes than asked for when the file ends before.
    Done read(const File& file, std::size_t offset, void* data, std::size_t size, std::size_t& got) const;
    Done size(const File& file, std::size_t& size) const;

private:
    enum class Survival : std::uint8_t { none, prefix, anyInOrder, anyInAnyOrder };
    bool spendOperation(); ///< false: the power goes now
    void settle(File& file, Survival survival);
    void apply(Bytes& content, const Change& change) const;
    std::size_t upTo(std::size_t most) { return std::uniform_int_distribution<std::size_t>(0, most)(m_random); }

    mutable std::mutex m_mutex;
    std::mt19937_64 m_random;
    std::map<std::string, FilePtr> m_files;
    std::map<std::string, FilePtr> m_deleted; ///< not yet on the platter
    std::uint64_t m_operationsLeft = 0;       ///< 0: no cut is planned
    bool m_power = true;
    bool m_ignoresSyncs = false;
    bool m_refusesSyncs = false;
    std::uint64_t m_sectorsLost = 0;
    std::uint64_t m_sectorsTorn = 0;
};

} // namespace vh::store
