#include "common/wire/codec.h"

namespace vh::wire
{

namespace
{

/// Deep enough for the deepest message; a hostile one gets no further.
constexpr std::size_t kDepth = 6;

Result<json::object> parseObject(std::string_view text)
{
    json::parse_options options;
    options.max_depth = kDepth;
    json::error_code error;
    json::value value = json::parse({text.data(), text.size()}, error, {}, options);
    if (error)
        return fail("malformed", "not JSON: " + error.message());
    if (!value.is_object())
        return fail("malformed", "a message must be a JSON object");
    return std::move(value.get_object());
}

/// Cut between two code points: it goes back to whoever sent it.
std::string beginningOf(std::string_view name)
{
    constexpr std::size_t kMost = 60;
    std::size_t end = 0;
    for (std::size_t points = 0; end < name.size(); ++end)
        if ((static_cast<unsigned char>(name[end]) & 0xC0U) != 0x80U && ++points > kMost)
            break;
    return std::string(name.substr(0, end));
}

template <class Variant, std::size_t I = 0>
Result<Variant> decodeNamed(std::string_view name, const json::object& object)
{
    if constexpr (I == std::variant_size_v<Variant>) {
        return fail("unsupported", "no message of this name is known here", beginningOf(name));
    } else {
        using Message = std::variant_alternative_t<I, Variant>;
        if (name != Message::kName)
            return decodeNamed<Variant, I + 1>(name, object);
        Message message;
        FieldReader reader(object);
        visitFields(message, reader);
        if (reader.error())
            return tl::unexpected<Error>(*reader.error());
        return Variant(std::move(message));
    }
}

template <class Variant>
Result<Variant> decode(std::string_view text)
{
    const auto object = parseObject(text);
    if (!object)
        return tl::unexpected<Error>(object.error());
    const json::value* type = object->if_contains("type");
    if (!type || !type->is_string())
        return fail("malformed", "'type' is missing", "type");
    return decodeNamed<Variant>(std::string_view(type->get_string()), *object);
}

} // namespace

Result<ToRelay> decodeToRelay(std::string_view text)
{
    return decode<ToRelay>(text);
}

Result<ToClient> decodeToClient(std::string_view text)
{
    return decode<ToClient>(text);
}

} // namespace vh::wire
