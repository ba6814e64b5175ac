#include "common/script/reader.h"

#include "common/script/nearest.h"
#include "common/script/rounds.h"
#include "common/script/valid.h"

#include <algorithm>
#include <array>

namespace vh
{

std::vector<ScriptError> Complaints::take()
{
    std::ranges::stable_sort(m_errors, {}, [](const ScriptError& error) {
        return std::pair(error.code == "too-many-errors", SourceSpot{error.line, error.column});
    });
    return std::move(m_errors);
}

namespace
{

constexpr std::array<std::string_view, 5> kClassKeys{"title", "theme", "language", "minutes", "sections"};
constexpr std::array<std::string_view, 5> kSectionKeys{"kind", "title", "rounds", "seconds", "steps"};
constexpr std::array<std::string_view, 6> kStepKeys{"text", "picture", "note", "rounds", "seconds", "dearness"};
constexpr std::array<std::string_view, 2> kPictureKeys{"file", "description"};

using Specs = std::optional<std::vector<RoundSpec>>;

class Reader
{
public:
    Reader(Pace pace, Complaints& complaints) : m_pace(pace), m_complaints(complaints) {}

    ClassScript readClass(const YamlNode& root)
    {
        Fields fields(root, "a class", kClassKeys, m_complaints);
        ClassScript script;
        script.title = fields.neededText("title", limits::kMaxTitle, LineBreaks::remove);
        script.theme = fields.neededText("theme", limits::kMaxTitle, LineBreaks::remove);
        script.language = m_language = readLanguage(fields);
        if (fields.need("minutes", "Add how long the class is planned to take: minutes: 20") != nullptr)
            script.plannedMinutes = fields.number("minutes", 1, limits::kMaxMinutes).value_or(0);
        if (fields.need("sections", "Add \"sections:\" and below it the sections, each beginning with \"- \".") !=
            nullptr)
            if (const YamlNode* sections = fields.list("sections", limits::kMaxSections))
                for (const YamlNode& node : sections->items)
                    script.sections.push_back(readSection(node));
        return script;
    }

private:
    std::string readLanguage(Fields& fields)
    {
        std::string tag = fields.neededText("language", limits::kMaxText, LineBreaks::remove);
        if (!tag.empty() && !isLanguageTag(tag))
            m_complaints.add("language", fields.find("language")->at, quoted(tag) + " is not a language tag.",
                             "Write a tag such as en, en-GB or pt-BR.");
        return tag;
    }

    std::optional<SectionKind> readKind(Fields& fields)
    {
        static const auto kNames = [] {
            std::array<std::string_view, static_cast<std::size_t>(SectionKind::closing) + 1> names;
            for (std::size_t i = 0; i < names.size(); ++i)
                names[i] = nameOf(static_cast<SectionKind>(i));
            return names;
        }();
        const std::string name = fields.neededText("kind", limits::kMaxText, LineBreaks::remove);
        if (name.empty())
            return std::nullopt;
        const auto kind = sectionKindOf(name);
        if (!kind)
            m_complaints.add("unknown-name", fields.find("kind")->at, quoted(name) + " is not a kind of section.",
                             nameRemedy(name, kNames));
        return kind;
    }

    Section readSection(const YamlNode& node)
    {
        Fields fields(node, "a section", kSectionKeys, m_complaints);
        Section section;
        const auto kind = readKind(fields);
        section.kind = kind.value_or(SectionKind::opening);
        const bool pause = kind == SectionKind::pause;
        section.title = fields.neededText("title", limits::kMaxTitle, LineBreaks::remove);
        const Specs inherited = readRoundSpecs(fields, pause, m_complaints);
        if (pause && fields.find("steps") == nullptr && inherited) {
            Step step;
            step.rounds = roundsFor(*inherited, {}, timing(), node.at, m_turnsLeft, m_complaints);
            section.steps.push_back(std::move(step));
            return section;
        }
        if (fields.need("steps", "Add \"steps:\" and below it the steps, each beginning with \"- \".") != nullptr)
            if (const YamlNode* steps = fields.list("steps", limits::kMaxStepsPerSection))
                for (const YamlNode& step : steps->items)
                    section.steps.push_back(readStep(step, kind, inherited));
        return section;
    }

    Step readStep(const YamlNode& node, std::optional<SectionKind> kind, const Specs& inherited)
    {
        Fields fields(node, "a step", kStepKeys, m_complaints);
        const bool pause = kind == SectionKind::pause;
        const std::size_t before = m_complaints.count();
        Step step;
        MarkedText marked = readText(fields, pause || !kind);
        const bool textIsRead = m_complaints.count() == before;
        step.note = fields.text("note", limits::kMaxNote, LineBreaks::keep);
        if (const YamlNode* picture = fields.find("picture"))
            step.picture = readPicture(*picture);
        step.optionalDearness = fields.number("dearness", limits::kMinDearness, limits::kMaxDearness);
        Specs own = readRoundSpecs(fields, pause, m_complaints);
        const Specs& specs = own ? own : inherited;
        if (!specs && fields.isMap())
            m_complaints.add("no-turns", node.at,
                             "Nothing says how this step goes: it has no rounds, nor has its section.",
                             "Add \"rounds:\" to the step or to the section, or \"seconds:\".");
        if (specs && textIsRead)
            step.rounds = roundsFor(*specs, marked, timing(), node.at, m_turnsLeft, m_complaints);
        step.text = std::move(marked.text);
        step.stretches = std::move(marked.stretches);
        return step;
    }

    MarkedText readText(Fields& fields, bool mayBeEmpty)
    {
        // Room for the marks themselves; the text without them is measured below.
        constexpr std::size_t kMost = 2 * (limits::kMaxText + limits::kMaxStretches);
        const std::string raw = mayBeEmpty ? fields.text("text", kMost, LineBreaks::keep)
                                           : fields.neededText("text", kMost, LineBreaks::keep);
        auto marked = readMarks(raw);
        if (!marked) {
            m_complaints.add("bad-mark", fields.find("text")->at,
                             marked.error().message + " Just before: " + quoted(marked.error().where),
                             "Mark a vowel as in r<ow>ing; write \\<, \\> or \\\\ for the characters themselves.");
            return {};
        }
        if (codePointCount(marked->text) > limits::kMaxText) {
            m_complaints.add("too-long", fields.find("text")->at,
                             "\"text\" has more than " + std::to_string(limits::kMaxText) + " characters.",
                             "Divide it into several steps.");
            return {};
        }
        return *std::move(marked);
    }

    std::optional<Picture> readPicture(const YamlNode& node)
    {
        Fields fields(node, "a picture", kPictureKeys, m_complaints);
        Picture picture;
        picture.file = fields.neededText("file", limits::kMaxText, LineBreaks::remove);
        if (!picture.file.empty())
            if (const auto fault = pictureFileFault(picture.file))
                m_complaints.add("picture-path", fields.find("file")->at, *fault,
                                 "Give a .svg, .png or .jpg file beside the class or in a folder below it: "
                                 "pictures/gate.svg");
        picture.description = fields.neededText("description", limits::kMaxDescription, LineBreaks::remove);
        return picture;
    }

    [[nodiscard]] Timing timing() const { return {m_pace, m_language}; }

    Pace m_pace;
    Complaints& m_complaints;
    std::string m_language;
    std::optional<std::size_t> m_turnsLeft = limits::kMaxTurns;
};

} // namespace

tl::expected<ClassScript, std::vector<ScriptError>> readClassScript(std::string_view yaml, std::string_view fileName,
                                                                    Pace pace)
{
    Complaints complaints{std::string(fileName)};
    const auto root = parseYaml(yaml, complaints);
    if (root) {
        ClassScript script = Reader(pace, complaints).readClass(*root);
        if (complaints.none()) {
            const auto fault = faultOf(script); // what only the whole can show: the totals
            if (!fault)
                return script;
            complaints.add(fault->code, root->at, "The class has " + fault->message + ".", "Make two classes of it.");
        }
    }
    return tl::unexpected(complaints.take());
}

} // namespace vh
