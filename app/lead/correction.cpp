#include "app/lead/correction.h"

#include "common/script/marks.h"
#include "common/script/valid.h"
#include "common/wire/login_text.h"
#include "common/wire/script_json.h"

namespace vh::lead
{

Result<ClassScript> withText(const ClassScript& script, StepAt at, const std::string& marked)
{
    if (!stepAt(script, at))
        return fail("step-unknown", "The class no longer has this step.");
    auto text = readMarks(marked);
    if (!text)
        return tl::unexpected<Error>(text.error());
    ClassScript corrected = script;
    Step& step = corrected.sections[at.section].steps[at.step];
    step.text = std::move(text->text);
    step.stretches = std::move(text->stretches);
    if (auto fault = faultOf(corrected))
        return tl::unexpected<Error>(*fault);
    return corrected;
}

Result<Part> scriptPart(const ClassScript& script)
{
    Part part;
    part.bytes = wire::encodeScript(script);
    part.hash = wire::sha256(part.bytes);
    if (part.bytes.size() > kMostPartBytes)
        return fail("class-too-large", "With this the class has more text than can be sent to the homes.");
    return part;
}

} // namespace vh::lead
