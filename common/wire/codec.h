#pragma once
// Text messages to and from JSON. Pure; any thread. A message of an unknown type gives Error "unsupported" (where = the
// type) and is no reason to close a line; anything else that cannot be read gives "malformed" and is.
#include "common/wire/to_client.h"

namespace vh::wire
{

template <class Message>
std::string encode(const Message& message)
{
    json::object object;
    object["type"] = Message::kName;
    FieldWriter writer(object);
    visitFields(const_cast<Message&>(message), writer); // the writer only reads
    return json::serialize(object);
}

Result<ToRelay> decodeToRelay(std::string_view text);
Result<ToClient> decodeToClient(std::string_view text);

} // namespace vh::wire
