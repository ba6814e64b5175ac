#pragma once
// Big-endian integers to and from bytes, and a reader that says once when the bytes ran out. Pure.
#include <concepts>
#include <cstdint>
#include <span>
#include <string>

namespace vh::wire
{

template <std::unsigned_integral T>
void putBigEndian(std::string& to, T value)
{
    for (int shift = static_cast<int>(sizeof(T)) * 8 - 8; shift >= 0; shift -= 8)
        to += static_cast<char>((value >> shift) & 0xFF);
}

class ByteReader
{
public:
    explicit ByteReader(std::span<const std::uint8_t> bytes) : m_bytes(bytes) {}

    /// 0 when the bytes have run out; see ok().
    template <std::unsigned_integral T>
    T take()
    {
        if (m_bytes.size() < sizeof(T)) {
            m_ok = false;
            m_bytes = {};
            return 0;
        }
        T value = 0;
        for (std::size_t i = 0; i < sizeof(T); ++i)
            value = static_cast<T>((static_cast<std::uint64_t>(value) << 8) | m_bytes[i]);
        m_bytes = m_bytes.subspan(sizeof(T));
        return value;
    }
    [[nodiscard]] std::span<const std::uint8_t> rest() const { return m_bytes; }
    /// Every take() so far was served.
    [[nodiscard]] bool ok() const { return m_ok; }
    [[nodiscard]] bool atEnd() const { return m_ok && m_bytes.empty(); }

private:
    std::span<const std::uint8_t> m_bytes;
    bool m_ok = true;
};

} // namespace vh::wire
