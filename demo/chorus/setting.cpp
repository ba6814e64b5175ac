#include "demo/chorus/setting.h"

#include "common/wire/login_text.h"
#include "common/wire/script_json.h"

namespace vh::chorus
{

std::shared_ptr<const ClassScript> ScriptShelf::put(const wire::Hash& hash, std::string_view bytes)
{
    if (wire::sha256(bytes) != hash)
        return nullptr;
    std::weak_ptr<const ClassScript>& slot = m_scripts[hash];
    if (auto known = slot.lock())
        return known;
    auto script = wire::decodeScript(bytes);
    if (!script)
        return nullptr;
    auto fresh = std::make_shared<const ClassScript>(std::move(*script));
    slot = fresh;
    return fresh;
}

} // namespace vh::chorus
