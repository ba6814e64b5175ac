#include "common/sound/packet_store.h"

namespace vh
{

bool PacketStore::put(std::int64_t at, const SoundPacket& packet)
{
    if (m_count == kSlots) {
        if (at < m_at[0])
            return false;
        pop();
    }
    std::size_t place = m_count;
    while (place > 0 && m_at[place - 1] >= at)
        --place;
    if (place < m_count && m_at[place] == at)
        return false;
    const std::uint8_t slot = m_slot[m_count];
    for (std::size_t i = m_count; i > place; --i) {
        m_at[i] = m_at[i - 1];
        m_slot[i] = m_slot[i - 1];
    }
    m_at[place] = at;
    m_slot[place] = slot;
    ++m_count;
    (*m_packets)[slot].set(packet.head, packet.payload());
    return true;
}

void PacketStore::pop()
{
    if (m_count == 0)
        return;
    const std::uint8_t freed = m_slot[0];
    std::copy(m_at.begin() + 1, m_at.begin() + static_cast<std::ptrdiff_t>(m_count), m_at.begin());
    std::copy(m_slot.begin() + 1, m_slot.begin() + static_cast<std::ptrdiff_t>(m_count), m_slot.begin());
    --m_count;
    m_slot[m_count] = freed;
}

void PacketStore::clear()
{
    m_count = 0; // the slots' numbers stay a permutation
}

} // namespace vh
