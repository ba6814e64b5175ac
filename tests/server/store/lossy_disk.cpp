#include "tests/server/store/lossy_disk.h"

#include <algorithm>
#include <cstring>

namespace vh::store
{

namespace
{
constexpr std::size_t kSector = 512;

/// A change in the pieces a drive writes: cut at sector borders.
void cutIntoSectors(const LossyDisk::Change& change, std::vector<LossyDisk::Change>& pieces)
{
    if (change.isTruncation) {
        pieces.push_back(change);
        return;
    }
    for (std::size_t done = 0; done < change.bytes.size();) {
        const std::size_t offset = change.offset + done;
        const std::size_t size = std::min(kSector - offset % kSector, change.bytes.size() - done);
        const auto first = change.bytes.begin() + static_cast<std::ptrdiff_t>(done);
        pieces.push_back({offset, {first, first + static_cast<std::ptrdiff_t>(size)}, false});
        done += size;
    }
}

} // namespace

void LossyDisk::cutPowerAt(std::uint64_t operation)
{
    const std::scoped_lock lock(m_mutex);
    m_operationsLeft = operation;
}

bool LossyDisk::hasPower() const
{
    const std::scoped_lock lock(m_mutex);
    return m_power;
}

void LossyDisk::refuseSyncs(bool refuse)
{
    const std::scoped_lock lock(m_mutex);
    m_refusesSyncs = refuse;
}

void LossyDisk::restart()
{
    const std::scoped_lock lock(m_mutex);
    const auto survival = static_cast<Survival>(upTo(3)); // one for all files: they share the drive's cache
    for (auto file = m_files.begin(); file != m_files.end();) {
        if (!file->second->nameOnPlatter && upTo(1) == 0) {
            file = m_files.erase(file);
            continue;
        }
        file->second->nameOnPlatter = true;
        settle(*file->second, survival);
        ++file;
    }
    for (const auto& [name, file] : m_deleted)
        if (upTo(1) == 0 && m_files.try_emplace(name, file).second)
            settle(*file, survival);
    m_deleted.clear();
    m_operationsLeft = 0;
    m_power = true;
}

void LossyDisk::settle(File& file, Survival survival)
{
    std::vector<Change> pieces;
    for (const Change& change : file.pending)
        cutIntoSectors(change, pieces);
    const std::size_t all = pieces.size();
    if (survival == Survival::none)
        pieces.clear();
    else if (survival == Survival::prefix)
        pieces.resize(upTo(all));
    else
        std::erase_if(pieces, [this](const Change&) { return upTo(1) == 0; });
    if (survival == Survival::anyInAnyOrder)
        std::shuffle(pieces.begin(), pieces.end(), m_random);
    m_sectorsLost += all - pieces.size();

    // The last one was being written when the power went.
    if (!pieces.empty() && !pieces.back().isTruncation) {
        pieces.back().bytes.resize(upTo(pieces.back().bytes.size()));
        ++m_sectorsTorn;
    }
    for (const Change& piece : pieces)
        apply(file.onPlatter, piece);
    file.pending.clear();
    file.now = file.onPlatter;
}

void LossyDisk::apply(Bytes& content, const Change& change) const
{
    if (change.isTruncation) {
        content.resize(std::min(content.size(), change.offset));
        return;
    }
    content.resize(std::max(content.size(), change.offset + change.bytes.size()));
    std::copy(change.bytes.begin(), change.bytes.end(), content.begin() + static_cast<std::ptrdiff_t>(change.offset));
}

bool LossyDisk::spendOperation()
{
    if (m_operationsLeft > 0 && --m_operationsLeft == 0)
        m_power = false;
    return m_power;
}

LossyDisk::FilePtr LossyDisk::open(const std::string& name, bool create)
{
    const std::scoped_lock lock(m_mutex);
    if (!m_power)
        return nullptr;
    const auto known = m_files.find(name);
    if (known != m_files.end())
        return known->second;
    if (!create)
        return nullptr;
    return m_files.emplace(name, std::make_shared<File>()).first->second;
}

bool LossyDisk::exists(const std::string& name) const
{
    const std::scoped_lock lock(m_mutex);
    return m_files.contains(name);
}

LossyDisk::Done LossyDisk::remove(const std::string& name, bool syncFolder)
{
    const std::scoped_lock lock(m_mutex);
    if (!m_power)
        return Done::noPower;
    const auto known = m_files.find(name);
    if (known != m_files.end() && known->second->nameOnPlatter)
        m_deleted.insert_or_assign(name, known->second);
    m_files.erase(name);
    if (!spendOperation())
        return Done::noPower;
    if (syncFolder && !m_ignoresSyncs)
        m_deleted.erase(name);
    return Done::yes;
}

LossyDisk::Done LossyDisk::write(File& file, std::size_t offset, const void* data, std::size_t size)
{
    const std::scoped_lock lock(m_mutex);
    if (!m_power)
        return Done::noPower;
    const auto* bytes = static_cast<const std::uint8_t*>(data);
    file.pending.push_back({offset, {bytes, bytes + size}, false});
    apply(file.now, file.pending.back());
    return spendOperation() ? Done::yes : Done::noPower;
}

LossyDisk::Done LossyDisk::truncate(File& file, std::size_t size)
{
    const std::scoped_lock lock(m_mutex);
    if (!m_power)
        return Done::noPower;
    file.pending.push_back({size, {}, true});
    apply(file.now, file.pending.back());
    return spendOperation() ? Done::yes : Done::noPower;
}

LossyDisk::Done LossyDisk::sync(File& file)
{
    const std::scoped_lock lock(m_mutex);
    if (!m_power || !spendOperation())
        return Done::noPower;
    if (m_refusesSyncs)
        return Done::refused;
    if (m_ignoresSyncs)
        return Done::yes;
    for (const Change& change : file.pending)
        apply(file.onPlatter, change);
    file.pending.clear();
    if (!file.nameOnPlatter)
        m_deleted.clear(); // the folder is synced with its new file, and so is every deletion in it
    file.nameOnPlatter = true;
    return Done::yes;
}

LossyDisk::Done LossyDisk::read(const File& file, std::size_t offset, void* data, std::size_t size,
                                std::size_t& got) const
{
    const std::scoped_lock lock(m_mutex);
    if (!m_power)
        return Done::noPower;
    got = offset < file.now.size() ? std::min(size, file.now.size() - offset) : 0;
    if (got > 0)
        std::memcpy(data, file.now.data() + offset, got);
    return Done::yes;
}

LossyDisk::Done LossyDisk::size(const File& file, std::size_t& size) const
{
    const std::scoped_lock lock(m_mutex);
    size = file.now.size();
    return m_power ? Done::yes : Done::noPower;
}

} // namespace vh::store
