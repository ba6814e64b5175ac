#pragma once
// A visitor that fills any message with random values, so that every field of every message takes part in the tests.
#include "common/wire/codec.h"

#include <random>

namespace vh::wire
{

class Filler
{
public:
    explicit Filler(std::mt19937& random) : m_random(random) {}

    template <class T>
    void operator()(std::string_view, T& value, Limit limit = {})
    {
        fill(value, limit);
    }

private:
    template <class T>
    void fill(T& value, Limit limit)
    {
        if constexpr (isOptional<T>) {
            if (m_random() % 2)
                fill(value.emplace(), limit);
        } else if constexpr (std::is_same_v<T, bool>) {
            value = m_random() % 2;
        } else if constexpr (std::is_enum_v<T>) {
            value = static_cast<T>(m_random() % WireNames<T>::kNames.size());
        } else if constexpr (std::is_floating_point_v<T>) {
            value = static_cast<T>(static_cast<int>(m_random() % 400) - 200) / 8;
        } else if constexpr (std::is_integral_v<T>) {
            value = static_cast<T>(m_random());
        } else if constexpr (std::is_same_v<T, std::string>) {
            static constexpr std::string_view kPieces[]{"a", "Zoë", "\"", "\\", "\n", "木", "🙂", "</b>", " "};
            for (std::size_t i = m_random() % std::min<std::size_t>(limit.most / 4 + 1, 30); i > 0; --i)
                value += kPieces[m_random() % std::size(kPieces)];
        } else if constexpr (std::is_same_v<T, Instant>) {
            value = Instant{Millis{static_cast<std::int64_t>(m_random())}};
        } else if constexpr (std::is_same_v<T, Millis>) {
            value = Millis{static_cast<std::int64_t>(m_random() % 100000)};
        } else if constexpr (isId<T>) {
            value = T::random();
        } else if constexpr (isBytes<T>) {
            for (auto& byte : value)
                byte = static_cast<std::uint8_t>(m_random());
        } else if constexpr (isVector<T>) {
            value.resize(m_random() % std::min<std::size_t>(limit.most + 1, 4));
            for (auto& item : value)
                fill(item, Limit{});
        } else {
            visitFields(value, *this);
        }
    }

    std::mt19937& m_random;
};

} // namespace vh::wire
