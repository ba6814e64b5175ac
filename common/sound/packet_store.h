#pragma once
// What has come and is not yet played, in the order in which it is spoken. A fixed number of slots; when they are full
// the oldest goes, because a home that is that far behind drops it anyway. Positions are samples since the player's
// base. Thread: the playback thread. Allocates at construction only.
#include "common/sound/packet_queue.h"

namespace vh
{

class PacketStore
{
public:
    static constexpr std::size_t kSlots = 48; ///< nearly a second

    struct Entry {
        std::int64_t at = 0;
        const SoundPacket* packet = nullptr;
    };

    /// False for one that is there already, or is older than all of a full store.
    bool put(std::int64_t at, const SoundPacket& packet);
    [[nodiscard]] bool empty() const { return m_count == 0; }
    [[nodiscard]] Entry front() const { return {m_at[0], &(*m_packets)[m_slot[0]]}; }
    void pop();
    void clear();
    /// Of the newest there is.
    [[nodiscard]] std::int64_t newest() const { return m_at[m_count - 1]; }

private:
    std::unique_ptr<std::array<SoundPacket, kSlots>> m_packets = std::make_unique<std::array<SoundPacket, kSlots>>();
    // Sorted by position; a slot's number beside it. Behind m_count stand the free slots.
    std::array<std::int64_t, kSlots> m_at{};
    std::array<std::uint8_t, kSlots> m_slot = allSlots();
    std::size_t m_count = 0;

    static std::array<std::uint8_t, kSlots> allSlots()
    {
        std::array<std::uint8_t, kSlots> numbers{};
        for (std::size_t i = 0; i < kSlots; ++i)
            numbers[i] = static_cast<std::uint8_t>(i);
        return numbers;
    }
};

} // namespace vh
