#include "common/wire/script_json.h"

#include "common/wire/limits.h"
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
    visit("file", picture.file, wire::atMost(200)), visit("description", picture.description, wire::atMost(500));
}
static void fieldsOf(Turn& turn, auto& visit)
{
    visit("kind", turn.kind), visit("ms", turn.planned);
}
static void fieldsOf(Round& round, auto& visit)
{
    visit("moreVoice", round.moreVoice), visit("turns", round.turns, wire::atMost(16));
}
static void fieldsOf(Step& step, auto& visit)
{
    visit("text", step.text, wire::atMost(2000)), visit("stretches", step.stretches, wire::atMost(200));
    visit("picture", step.picture), visit("note", step.note, wire::atMost(2000));
    visit("rounds", step.rounds, wire::atMost(20)), visit("dearness", step.optionalDearness);
}
static void fieldsOf(Section& section, auto& visit)
{
    visit("kind", section.kind), visit("title", section.title, wire::atMost(wire::kTitleLength));
    visit("steps", section.steps, wire::atMost(200));
}
static void fieldsOf(ClassScript& script, auto& visit)
{
    visit("title", script.title, wire::atMost(wire::kTitleLength));
    visit("theme", script.theme, wire::atMost(wire::kTitleLength));
    visit("language", script.language, wire::atMost(35)), visit("minutes", script.plannedMinutes);
    visit("sections", script.sections, wire::atMost(60));
}

} // namespace vh

namespace vh::wire
{

namespace
{

bool isBorder(std::string_view text, std::uint32_t at)
{
    return at == text.size() || (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) != 0x80);
}

/// Empty when the step holds what script.h promises.
std::string whatIsWrong(const Step& step, SectionKind kind)
{
    if (step.text.empty() && kind != SectionKind::pause)
        return "a step without text";
    std::uint32_t last = 0;
    for (const Stretch& stretch : step.stretches) {
        if (stretch.begin < last || stretch.end <= stretch.begin || !isBorder(step.text, stretch.begin) ||
            !isBorder(step.text, stretch.end))
            return "a stretch mark outside its text";
        last = stretch.end;
    }
    if (step.optionalDearness && (*step.optionalDearness < 1 || *step.optionalDearness > 9))
        return "a dearness outside 1 to 9";
    if (step.rounds.empty())
        return "a step without rounds";
    for (const Round& round : step.rounds) {
        if (round.turns.empty())
            return "a round without turns";
        for (const Turn& turn : round.turns)
            if (turn.planned <= Millis{0} || turn.planned > std::chrono::hours{1})
                return "a turn with an impossible length";
    }
    return {};
}

std::string whatIsWrong(const ClassScript& script)
{
    if (script.sections.empty())
        return "a class without sections";
    if (script.plannedMinutes < 0 || script.plannedMinutes > 240)
        return "impossible planned minutes";
    for (const Section& section : script.sections) {
        if (section.steps.empty())
            return "a section without steps";
        for (const Step& step : section.steps)
            if (std::string wrong = whatIsWrong(step, section.kind); !wrong.empty())
                return wrong;
    }
    return {};
}

} // namespace

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
    if (std::string wrong = whatIsWrong(script); !wrong.empty())
        return fail("malformed", std::move(wrong));
    return script;
}

} // namespace vh::wire
