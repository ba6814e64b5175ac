// A class script from the network: a script that keeps what script.h promises, or an error.
#include "common/live/place.h"
#include "common/wire/script_json.h"

#include <cstdlib>

using namespace vh;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const auto script = wire::decodeScript({reinterpret_cast<const char*>(data), size});
    if (!script)
        return 0;
    const auto again = wire::decodeScript(wire::encodeScript(*script));
    if (!again || !(*again == *script) || !turnAt(*script, Place{}))
        std::abort();
    return 0;
}
