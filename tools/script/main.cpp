// voicehall-script: looks through class scripts from the command line, so that a library of classes can be checked by a
// machine. Exit status: 0 nothing to say, 1 findings, 2 a file that is no class or cannot be read.
#include "common/script/reader.h"
#include "common/script/review.h"
#include "common/script/spoken_pace.h"

#include <CLI/CLI.hpp>
#include <boost/json.hpp>

#include <fstream>
#include <iostream>
#include <sstream>

namespace
{

namespace json = boost::json;
using namespace vh;

struct Looked {
    std::string file;
    std::vector<ScriptError> errors; ///< it is no class
    ClassScript script;
    Review review;
};

Looked look(const std::string& path)
{
    Looked looked{path, {}, {}, {}};
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    if (!file) {
        looked.errors.push_back(
            {path, 1, 1, "The file cannot be read.", "Is it there, and may you read it?", "unreadable"});
        return looked;
    }
    auto script = readClassScript(bytes.str(), path, plannedAsSpoken);
    if (!script) {
        looked.errors = script.error();
        return looked;
    }
    looked.script = std::move(*script);
    looked.review = review(looked.script, rulesFor(looked.script.language));
    return looked;
}

/// "section 3 (Over the garden fence), step 2, round 1".
std::string placeOf(const ClassScript& script, const Finding& finding)
{
    if (!finding.section)
        return "the class";
    std::string place =
        "section " + std::to_string(*finding.section + 1) + " (" + script.sections[*finding.section].title + ")";
    if (finding.step)
        place += ", step " + std::to_string(*finding.step + 1);
    if (finding.round)
        place += ", round " + std::to_string(*finding.round + 1);
    return place;
}

std::string quoted(const ClassScript& script, const Finding& finding)
{
    if (!finding.section || !finding.step || finding.begin == finding.end)
        return {};
    return script.sections[*finding.section].steps[*finding.step].text.substr(finding.begin,
                                                                              finding.end - finding.begin);
}

void print(const Looked& looked)
{
    for (const ScriptError& error : looked.errors)
        std::cout << looked.file << ':' << error.line << ':' << error.column << ": " << error.message << ' '
                  << error.remedy << " [" << error.code << "]\n";
    for (const Finding& finding : looked.review.findings) {
        const std::string words = quoted(looked.script, finding);
        std::cout << looked.file << ": " << placeOf(looked.script, finding) << ": " << finding.why << " ["
                  << nameOf(finding.kind) << "]\n";
        if (!words.empty())
            std::cout << "    " << words << '\n';
    }
}

json::object asJson(const Looked& looked)
{
    json::array errors;
    for (const ScriptError& error : looked.errors)
        errors.push_back(json::object{{"line", error.line},
                                      {"column", error.column},
                                      {"code", error.code},
                                      {"message", error.message},
                                      {"remedy", error.remedy}});
    json::array findings;
    for (const Finding& finding : looked.review.findings) {
        json::object each{
            {"code", nameOf(finding.kind)}, {"why", finding.why}, {"canBeMended", finding.mend.has_value()}};
        if (finding.section)
            each["section"] = *finding.section + 1;
        if (finding.step)
            each["step"] = *finding.step + 1;
        if (finding.round)
            each["round"] = *finding.round + 1;
        if (finding.begin != finding.end)
            each["text"] = quoted(looked.script, finding);
        findings.push_back(std::move(each));
    }
    json::array off;
    for (const FindingKind kind : looked.review.off)
        off.push_back(json::value(nameOf(kind)));
    return {{"file", looked.file}, {"errors", errors}, {"findings", findings}, {"rulesOff", off}};
}

} // namespace

int main(int argc, char** argv)
{
    CLI::App options{"Class scripts of Voicehall."};
    options.require_subcommand(1);
    CLI::App* const command = options.add_subcommand("review", "Says what these classes still lack.");
    std::vector<std::string> files;
    bool inJson = false;
    command->add_option("FILE", files, "Class scripts")->required();
    command->add_flag("--json", inJson, "One JSON array, one object a file");
    CLI11_PARSE(options, argc, argv);

    json::array all;
    int status = 0;
    for (const std::string& file : files) {
        const Looked looked = look(file);
        status = std::max(status, !looked.errors.empty() ? 2 : !looked.review.findings.empty() ? 1 : 0);
        if (inJson)
            all.push_back(asJson(looked));
        else
            print(looked);
    }
    if (inJson)
        std::cout << json::serialize(all) << '\n';
    return status;
}
