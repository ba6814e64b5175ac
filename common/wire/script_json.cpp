#include "common/wire/script_json.h"

#include "common/script/limits.h"
#include "common/script/valid.h"
#include "common/wire/names.h"

namespace vh
{

// Found by name look-up from wire::visitFields, hence in the namespace of the values.
static void fieldsOf(Stretch& stretch, auto& visit)
{
    visit("begin", stretch.begin), visit("end", stretch.end);
}
static void fieldsOf(Picture& picture, auto& visit)
{
    visit("file", picture.file, wire::atMost(limits::kMaxPictureFile)),
        visit("description", picture.description, wire::atMost(limits::kMaxDescription));
}
static void fieldsOf(Turn& turn, auto& visit)
{
    visit("kind", turn.kind), visit("ms", turn.planned);
}
static void fieldsOf(Round& round, auto& visit)
{
    visit("moreVoice", round.moreVoice), visit("turns", round.turns, wire::atMost(limits::kMaxTurnsPerRound));
}
static void fieldsOf(Step& step, auto& visit)
{
    visit("text", step.text, wire::atMost(limits::kMaxText)),
        visit("stretches", step.stretches, wire::atMost(limits::kMaxStretches));
    visit("picture", step.picture), visit("note", step.note, wire::atMost(limits::kMaxNote));
    visit("rounds", step.rounds, wire::atMost(limits::kMaxRoundsPerStep)), visit("dearness", step.optionalDearness);
}
static void fieldsOf(Section& section, auto& visit)
{
    visit("kind", section.kind), visit("title", section.title, wire::atMost(limits::kMaxTitle));
    visit("steps", section.steps, wire::atMost(limits::kMaxStepsPerSection));
}
static void fieldsOf(ClassScript& script, auto& visit)
{
    visit("title", script.title, wire::atMost(limits::kMaxTitle));
    visit("theme", script.theme, wire::atMost(limits::kMaxTitle));
    visit("language", script.language, wire::atMost(limits::kMaxLanguage)), visit("minutes", script.plannedMinutes);
    visit("sections", script.sections, wire::atMost(limits::kMaxSections));
}

} // namespace vh

namespace vh::wire
{

std::string encodeScript(const ClassScript& script)
{
    json::object object;
    FieldWriter writer(object);
    visitFields(const_cast<ClassScript&>(script), writer); // the writer only reads
    return json::serialize(object);
}

Result<ClassScript> decodeScript(std::string_view text)
{
    json::parse_options options;
    options.max_depth = 12;
    json::error_code error;
    const json::value value = json::parse({text.data(), text.size()}, error, {}, options);
    if (error || !value.is_object())
        return fail("malformed", "the class script is not a JSON object");
    ClassScript script;
    FieldReader reader(value.get_object());
    visitFields(script, reader);
    if (reader.error())
        return tl::unexpected<Error>(*reader.error());
    if (auto fault = faultOf(script))
        return tl::unexpected<Error>(*fault);
    return script;
}

} // namespace vh::wire
