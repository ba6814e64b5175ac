#pragma once
// One description of each message's fields serves writing, reading and their limits: a message is a plain struct with
//     template <class Visitor> void fields(Visitor& visit) { visit("text", text, atMost(500)); }
// FieldWriter makes JSON of it; FieldReader fills it from JSON and remembers the first thing that is wrong, with its
// path. Unknown fields are skipped (newer peers may send them); missing ones are errors unless optional.
#include "common/base/clock.h"
#include "common/base/id.h"
#include "common/base/result.h"
#include "common/base/text.h"

#include <array>
#include <boost/json.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace vh::wire
{

namespace json = boost::json;

/// The most that a text (code points) or a list (items) may hold; numbers are bounded by their type.
struct Limit {
    std::size_t most = 200;
    bool mayMiss = false; ///< a list that is not there is an empty one, and an empty one is not sent
};
constexpr Limit atMost(std::size_t most)
{
    return Limit{most};
}
constexpr Limit noneOrAtMost(std::size_t most)
{
    return Limit{most, true};
}

/// Names of an enumeration's values on the wire, in order. Specialised in names.h.
template <class E>
struct WireNames;

template <std::size_t N>
using Bytes = std::array<std::uint8_t, N>;

/// Messages describe themselves by a member fields(visit); values from elsewhere by a free fieldsOf(value, visit).
template <class T, class Visitor>
void visitFields(T& value, Visitor& visit)
{
    if constexpr (requires { value.fields(visit); })
        value.fields(visit);
    else
        fieldsOf(value, visit);
}

template <class T>
inline constexpr bool isId = false;
template <class Tag>
inline constexpr bool isId<Id<Tag>> = true;
template <class T>
inline constexpr bool isBytes = false;
template <std::size_t N>
inline constexpr bool isBytes<Bytes<N>> = true;
template <class T>
inline constexpr bool isOptional = false;
template <class T>
inline constexpr bool isOptional<std::optional<T>> = true;
template <class T>
inline constexpr bool isVector = false;
template <class T>
inline constexpr bool isVector<std::vector<T>> = true;

class FieldWriter
{
public:
    explicit FieldWriter(json::object& object) : m_object(object) {}

    template <class T>
    void operator()(std::string_view name, const T& value, Limit limit = {})
    {
        if constexpr (isVector<T>) {
            if (!limit.mayMiss || !value.empty())
                m_object[name] = toJson(value);
        } else if constexpr (isOptional<T>) {
            if (value)
                m_object[name] = toJson(*value);
        } else {
            m_object[name] = toJson(value);
        }
    }

private:
    template <class T>
    static json::value toJson(const T& value)
    {
        if constexpr (std::is_same_v<T, bool> || std::is_floating_point_v<T> || std::is_same_v<T, std::string>) {
            return json::value(value);
        } else if constexpr (std::is_enum_v<T>) {
            return json::value(WireNames<T>::kNames[static_cast<std::size_t>(value)]);
        } else if constexpr (std::is_unsigned_v<T>) {
            return json::value(static_cast<std::uint64_t>(value));
        } else if constexpr (std::is_integral_v<T>) {
            return json::value(static_cast<std::int64_t>(value));
        } else if constexpr (std::is_same_v<T, Instant>) {
            return json::value(static_cast<std::int64_t>(value.time_since_epoch().count()));
        } else if constexpr (std::is_same_v<T, Millis>) {
            return json::value(static_cast<std::int64_t>(value.count()));
        } else if constexpr (isId<T>) {
            return json::value(value.hex());
        } else if constexpr (isBytes<T>) {
            return json::value(hexOf(value));
        } else if constexpr (isVector<T>) {
            json::array array;
            array.reserve(value.size());
            for (const auto& item : value)
                array.push_back(toJson(item));
            return array;
        } else {
            json::object object;
            FieldWriter inner(object);
            visitFields(const_cast<T&>(value), inner); // one description serves both directions; the writer only reads
            return object;
        }
    }

    json::object& m_object;
};

class FieldReader
{
public:
    explicit FieldReader(const json::object& object, std::string path = {}) : m_object(object), m_path(std::move(path))
    {
    }

    template <class T>
    void operator()(std::string_view name, T& value, Limit limit = {})
    {
        if (m_error)
            return;
        const json::value* found = m_object.if_contains(name);
        if constexpr (isOptional<T>) {
            if (!found || found->is_null())
                return;
            fromJson(*found, value.emplace(), limit, name);
        } else {
            if constexpr (isVector<T>)
                if (limit.mayMiss && (!found || found->is_null()))
                    return value.clear();
            if (!found)
                return wrong(name, "is missing");
            fromJson(*found, value, limit, name);
        }
    }

    [[nodiscard]] const std::optional<Error>& error() const { return m_error; }

private:
    void wrong(std::string_view name, const std::string& what)
    {
        if (!m_error)
            m_error = Error{"malformed", "'" + m_path + std::string(name) + "' " + what, m_path + std::string(name)};
    }

    template <class T>
    void fromJson(const json::value& from, T& to, Limit limit, std::string_view name)
    {
        if constexpr (std::is_same_v<T, bool>) {
            from.is_bool() ? void(to = from.get_bool()) : wrong(name, "must be true or false");
        } else if constexpr (std::is_enum_v<T>) {
            readEnum(from, to, name);
        } else if constexpr (std::is_floating_point_v<T>) {
            // A number that T cannot hold is none: infinities cannot be written again.
            const double number = from.is_number() ? from.to_number<double>() : std::nan("");
            if (std::abs(number) <= static_cast<double>(std::numeric_limits<T>::max()))
                to = static_cast<T>(number);
            else
                wrong(name, "must be a number in range");
        } else if constexpr (std::is_integral_v<T>) {
            readInteger(from, to, name);
        } else if constexpr (std::is_same_v<T, std::string>) {
            readText(from, to, limit, name);
        } else if constexpr (std::is_same_v<T, Instant>) {
            std::int64_t milliseconds = 0;
            readInteger(from, milliseconds, name);
            to = Instant{Millis{milliseconds}};
        } else if constexpr (std::is_same_v<T, Millis>) {
            std::int64_t milliseconds = 0;
            readInteger(from, milliseconds, name);
            to = Millis{milliseconds};
        } else if constexpr (isId<T>) {
            const auto id = from.is_string() ? T::fromHex(std::string_view(from.get_string())) : std::nullopt;
            id ? void(to = *id) : wrong(name, "must be 32 hexadecimal digits");
        } else if constexpr (isBytes<T>) {
            const auto bytes = from.is_string() ? bytesOfHex(std::string_view(from.get_string())) : std::nullopt;
            if (!bytes || bytes->size() != to.size())
                return wrong(name, "must be " + std::to_string(to.size() * 2) + " hexadecimal digits");
            std::copy(bytes->begin(), bytes->end(), to.begin());
        } else if constexpr (isVector<T>) {
            readList(from, to, limit, name);
        } else {
            if (!from.is_object())
                return wrong(name, "must be an object");
            FieldReader inner(from.get_object(), m_path + std::string(name) + ".");
            visitFields(to, inner);
            if (inner.error() && !m_error)
                m_error = inner.error();
        }
    }

    template <class T>
    void readEnum(const json::value& from, T& to, std::string_view name)
    {
        const auto& names = WireNames<T>::kNames;
        if (from.is_string())
            for (std::size_t i = 0; i < names.size(); ++i)
                if (names[i] == std::string_view(from.get_string())) {
                    to = static_cast<T>(i);
                    return;
                }
        std::string all;
        for (const auto& each : names)
            all += (all.empty() ? "" : ", ") + std::string(each);
        wrong(name, "must be one of " + all);
    }

    template <class T>
    void readInteger(const json::value& from, T& to, std::string_view name)
    {
        // Whole numbers that other languages write as 3.0 are whole numbers too.
        if (from.is_int64() && std::in_range<T>(from.get_int64()))
            to = static_cast<T>(from.get_int64());
        else if (from.is_uint64() && std::in_range<T>(from.get_uint64()))
            to = static_cast<T>(from.get_uint64());
        else if (from.is_double() && from.get_double() == std::floor(from.get_double()) &&
                 std::abs(from.get_double()) < 9e15 && std::in_range<T>(static_cast<std::int64_t>(from.get_double())))
            to = static_cast<T>(static_cast<std::int64_t>(from.get_double()));
        else
            wrong(name, "must be a whole number in range");
    }

    void readText(const json::value& from, std::string& to, Limit limit, std::string_view name)
    {
        if (!from.is_string())
            return wrong(name, "must be text");
        const std::string_view text(from.get_string());
        if (codePointCount(text) > limit.most)
            return wrong(name, "is longer than " + std::to_string(limit.most) + " characters");
        to = text;
    }

    template <class T>
    void readList(const json::value& from, std::vector<T>& to, Limit limit, std::string_view name)
    {
        if (!from.is_array())
            return wrong(name, "must be a list");
        const json::array& array = from.get_array();
        if (array.size() > limit.most)
            return wrong(name, "has more than " + std::to_string(limit.most) + " items");
        to.clear();
        to.reserve(array.size());
        for (std::size_t i = 0; i < array.size() && !m_error; ++i)
            fromJson(array[i], to.emplace_back(), Limit{}, std::string(name) + "[" + std::to_string(i) + "]");
    }

    const json::object& m_object;
    std::string m_path;
    std::optional<Error> m_error;
};

} // namespace vh::wire
