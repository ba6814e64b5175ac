#include "bad_inputs.h"

#include <stdexcept>

namespace
{

std::string with(const std::string& old, const std::string& fresh)
{
    std::string text = smallClass();
    const auto at = text.find(old);
    if (at == std::string::npos)
        throw std::logic_error("the small class has no " + old);
    return text.replace(at, old.size(), fresh);
}

} // namespace

std::string smallClass()
{
    return "title: Small class\n"                        // 1
           "theme: Boats\n"                              // 2
           "language: en\n"                              // 3
           "minutes: 1\n"                                // 4
           "sections:\n"                                 // 5
           "  - kind: phrases\n"                         // 6
           "    title: Two boats\n"                      // 7
           "    steps:\n"                                // 8
           "      - text: R<ow> the boat\n"              // 9
           "        rounds:\n"                           // 10
           "          - turns: [listen, ready, yours]\n" // 11
           "            moreVoice: no\n";                // 12
}

std::vector<BadInput> badInputs()
{
    return {
        {"an empty file", "", {{1, 1, "empty-file"}}},
        {"only a comment", "# nothing\n", {{1, 1, "empty-file"}}},
        {"a list in place of a class", "- a\n", {{1, 1, "wrong-type"}}},
        {"a word in place of a class", "hello", {{1, 1, "wrong-type"}}},
        {"a second document", smallClass() + "---\ntitle: b\n", {{14, 1, "second-document"}}},
        {"bad UTF-8", with("Boats", "Bo\xFFts"), {{2, 10, "not-utf8"}}},
        {"a NUL byte", with("Boats", std::string("Bo\0ts", 5)), {{2, 10, "control-character"}}},
        {"an end-of-transmission byte", with("Boats", "Bo\x04ts"), {{2, 10, "control-character"}}},
        {"columns are code points", with("Boats", "B\xC3\xB6\xC3\xB6ts\x07"), {{2, 13, "control-character"}}},
        {"a lone carriage return", with("Boats", "Bo\rats"), {{2, 10, "control-character"}}},
        {"a control character by escape", with("Boats", "\"Bo\\x07ts\""), {{2, 8, "bad-text"}}},
        {"a hidden direction mark", with("Boats", "Bo\xE2\x80\xAEts"), {{2, 8, "bad-text"}}},
        {"a line break in a title", with("Boats", "\"Bo\\nats\""), {{2, 8, "bad-text"}}},
        {"a colon in plain text", with("R<ow> the boat", "Now: the boat"), {{9, 18, "syntax"}}},
        {"a quote never closed", with("Boats", "\"Boats"), {{2, 8, "syntax"}}},
        {"a bracket never closed", with("[listen, ready, yours]", "[listen, ready"), {{12, 22, "syntax"}}},
        {"a tab as indentation", with("    title: Two", "\ttitle: Two"), {{7, 1, "syntax"}}},
        {"an anchor", with("Boats", "&b Boats"), {{2, 8, "anchor"}}},
        {"an anchor and its alias",
         with("Boats", "&b Boats\n\"title\": *b"),
         {{2, 8, "anchor"}, {3, 1, "duplicate-key"}, {3, 10, "anchor"}}},
        {"a tag", with("Boats", "!!str Boats"), {{2, 8, "tag"}}},
        {"an unknown key", with("theme", "theem"), {{1, 1, "missing-key"}, {2, 1, "unknown-key"}}},
        {"a key twice", with("language: en", "language: en\ntheme: Ships"), {{4, 1, "duplicate-key"}}},
        {"a list as key", with("theme: Boats", "theme: Boats\n[a]: b"), {{3, 1, "wrong-type"}}},
        {"a key without value", with("Boats", ""), {{2, 1, "missing-key"}}},
        {"an empty text", with("Boats", "\"  \""), {{2, 8, "empty-text"}}},
        {"a list as title", with("Boats", "[Boats]"), {{2, 8, "wrong-type"}}},
        {"a long title", with("Boats", std::string(121, 'b')), {{2, 8, "too-long"}}},
        {"no language tag", with("language: en", "language: English please"), {{3, 11, "language"}}},
        {"minutes in words", with("minutes: 1", "minutes: one"), {{4, 10, "not-a-number"}}},
        {"half minutes", with("minutes: 1", "minutes: 1.5"), {{4, 10, "not-a-number"}}},
        {"too many minutes", with("minutes: 1", "minutes: 121"), {{4, 10, "out-of-range"}}},
        {"minutes beyond any integer", with("minutes: 1", "minutes: 99999999999999"), {{4, 10, "out-of-range"}}},
        {"sections without entries",
         with("sections:\n  - kind", "sections: []\nother:\n  - kind"),
         {{5, 1, "empty-list"}, {6, 1, "unknown-key"}}},
        {"an unknown kind of section", with("kind: phrases", "kind: phrase"), {{6, 11, "unknown-name"}}},
        {"a section without kind", with("kind: phrases\n    title", "title"), {{6, 5, "missing-key"}}},
        {"steps as mapping",
         with("- text: R<ow> the boat", "{text: oh}\nx:"),
         {{9, 7, "wrong-type"}, {10, 1, "unknown-key"}}},
        {"a step that is a word",
         with("- text: R<ow> the boat\n        rounds", "- boat\n      - text: oh\n        rounds"),
         {{9, 9, "wrong-type"}}},
        {"a step without text", with("text: R<ow> the boat", "note: Row"), {{9, 9, "missing-key"}}},
        {"a mark never closed", with("R<ow>", "R<ow"), {{9, 15, "bad-mark"}}},
        {"a mark closed twice", with("R<ow>", "R<ow>>"), {{9, 15, "bad-mark"}}},
        {"an empty mark", with("R<ow>", "R<>"), {{9, 15, "bad-mark"}}},
        {"a mark over two words", with("R<ow> the", "R<ow the>"), {{9, 15, "bad-mark"}}},
        {"a lone backslash", with("R<ow>", "R\\ow"), {{9, 15, "bad-mark"}}},
        {"a turn misspelt", with("yours", "your"), {{11, 36, "unknown-name"}}},
        {"a turn as mapping", with("yours]", "{yours: 6}]"), {{11, 36, "wrong-type"}}},
        {"seconds in words", with("yours]", "yours six]"), {{11, 36, "not-a-number"}}},
        {"seconds too fine", with("yours]", "yours 1.0625]"), {{11, 36, "not-a-number"}}},
        {"too short a turn", with("yours]", "yours 0.4]"), {{11, 36, "out-of-range"}}},
        {"too long a turn", with("yours]", "yours 601]"), {{11, 36, "out-of-range"}}},
        {"a round without turns", with("[listen, ready, yours]", "[]"), {{11, 13, "empty-list"}}},
        {"a round that lacks turns",
         with("turns: [listen, ready, yours]\n            moreVoice", "moreVoice"),
         {{11, 13, "missing-key"}}},
        {"neither yes nor no", with("moreVoice: no", "moreVoice: maybe"), {{12, 24, "wrong-type"}}},
        {"times of nought", with("moreVoice: no", "times: 0"), {{12, 20, "out-of-range"}}},
        {"more rounds than a step may have",
         with("moreVoice: no", "times: 20\n          - turns: [listen]\n            times: 20"),
         {{13, 13, "too-many"}}},
        {"no rounds anywhere",
         with("rounds:\n          - turns: [listen, ready, yours]\n            moreVoice: no", "note: n"),
         {{9, 9, "no-turns"}}},
        {"rounds and seconds", with("rounds:", "seconds: 5\n        rounds:"), {{10, 18, "rounds-and-seconds"}}},
        {"seconds out of range", with("steps:", "seconds: 0\n    steps:"), {{8, 14, "out-of-range"}}},
        {"no vowels to reckon from", with("R<ow> the boat", "Mmm"), {{9, 9, "seconds-needed"}}},
        {"dearness out of range", with("rounds:", "dearness: 10\n        rounds:"), {{10, 19, "out-of-range"}}},
        {"a picture without description",
         with("rounds:", "picture: {file: a.svg}\n        rounds:"),
         {{10, 18, "missing-key"}}},
        {"a picture as a word", with("rounds:", "picture: a.svg\n        rounds:"), {{10, 18, "wrong-type"}}},
        {"a picture outside the folder",
         with("rounds:", "picture: {file: ../a.svg, description: d}\n        rounds:"),
         {{10, 25, "picture-path"}}},
        {"a pause that asks", with("kind: phrases", "kind: pause"), {{11, 29, "pause-asks"}, {11, 36, "pause-asks"}}},
        {"all at once",
         "title: [1]\nthem: b\nlanguage: 7\nminutes: soon\nsections:\n  - kind: song\n    steps: none\n",
         {{1, 1, "missing-key"},
          {1, 8, "wrong-type"},
          {2, 1, "unknown-key"},
          {3, 11, "language"},
          {4, 10, "not-a-number"},
          {6, 5, "missing-key"},
          {6, 11, "unknown-name"},
          {7, 12, "wrong-type"}}},
    };
}
