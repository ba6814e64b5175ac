// The class script reader: any bytes give either a script without fault, which survives being written and read again,
// or at least one error that stands inside the file.
#include "common/script/plan.h"
#include "common/script/reader.h"
#include "common/script/valid.h"
#include "common/script/writer.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    const auto script = vh::readClassScript(bytes, "fuzz.yaml");
    if (!script) {
        if (script.error().empty())
            std::abort();
        for (const vh::ScriptError& error : script.error())
            if (error.line < 1 || error.column < 1 || error.message.empty() || error.remedy.empty() ||
                error.code.empty())
                std::abort();
        return 0;
    }
    if (vh::faultOf(*script) || vh::planOf(*script).turns.empty())
        std::abort();
    if (vh::readClassScript(vh::writeClassScript(*script), "again.yaml") != script)
        std::abort();
    return 0;
}
