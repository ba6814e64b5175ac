// Writing classes: how long a look through a class takes, and how well syllables are counted. The classes are those
// that ship; the words those of the dictionary (CMU Pronouncing Dictionary 0.4), every tenth of them held out of the
// learning.
#include "common/lexicon/festival_entries.h"
#include "common/lexicon/letter_training.h"
#include "common/script/reader.h"
#include "common/script/review.h"
#include "common/script/spoken_pace.h"
#include "tests/bench/bench_figure.h"

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace
{

using namespace vh;
using Clock = std::chrono::steady_clock;

std::vector<ClassScript> shipped()
{
    std::vector<ClassScript> classes;
    for (const auto& file : std::filesystem::directory_iterator(VH_SOURCE_DIR "/content/classes")) {
        if (file.path().extension() != ".yaml")
            continue;
        std::ostringstream bytes;
        bytes << std::ifstream(file.path(), std::ios::binary).rdbuf();
        if (auto script = readClassScript(bytes.str(), file.path().string(), plannedAsSpoken))
            classes.push_back(std::move(*script));
    }
    return classes;
}

void reviewing(bench::Figures& figures)
{
    const auto classes = shipped();
    std::vector<double> times;
    for (int i = 0; i < 20; ++i)
        for (const ClassScript& script : classes) {
            const auto start = Clock::now();
            const Review found = review(script, rulesFor(script.language));
            times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
            if (found.off.empty())
                std::printf("# a rule is off in every review\n");
        }
    const auto spread = bench::spreadOf(times);
    std::printf("# %zu classes that ship, 20 times each; %.2f to %.2f ms\n", classes.size(), spread.least, spread.most);
    figures.atMost("review_of_a_class", spread.median, "ms", 20);
}

std::size_t vowelsIn(const std::vector<lexicon::Phone>& phones)
{
    return static_cast<std::size_t>(std::count_if(phones.begin(), phones.end(), lexicon::isVowel));
}

void counting(bench::Figures& figures)
{
    std::ifstream file(VH_FESTIVAL_WORDS);
    const auto entries = lexicon::festivalEntries(file).entries;
    std::vector<lexicon::Spoken> learn;
    std::vector<lexicon::Spoken> heldOut;
    std::size_t known = 0;
    std::size_t number = 0;
    for (const auto& entry : entries) {
        const auto all = lexicon::english().dictionary().of(entry.word);
        known +=
            std::any_of(all.begin(), all.end(), [&](const auto& said) { return said.size() == entry.said.size(); });
        const bool plain = std::all_of(entry.word.begin(), entry.word.end(),
                                       [](char c) { return (c >= 'a' && c <= 'z') || c == '\''; });
        if (plain)
            (number++ % 10 == 3 ? heldOut : learn).push_back({entry.word, lexicon::phonesOf(entry.said)});
    }
    const auto tree = lexicon::learnt(learn, lexicon::Alignment::learnt(learn));
    std::size_t right = 0;
    for (const auto& word : heldOut)
        right += vowelsIn(tree.phonesFor(word.word)) == vowelsIn(word.phones);
    const auto percent = [](std::size_t part, std::size_t all) {
        return 100.0 * static_cast<double>(part) / static_cast<double>(all);
    };
    figures.atLeast("syllables_of_dictionary_words", percent(known, entries.size()), "%", 99);
    figures.atLeast("syllables_of_words_held_out", percent(right, heldOut.size()), "%", 90);
}

} // namespace

int main()
{
    bench::Figures figures;
    reviewing(figures);
    counting(figures);
    return figures.exitCode();
}
