#include "common/script/day_parts.h"

#include "common/lexicon/back_lines.h"
#include "common/lexicon/measures.h"
#include "common/script/step_build.h"

#include <algorithm>
#include <array>

namespace vh::day
{

namespace
{

using namespace build;
using Text = std::string_view;

constexpr std::array<Text, 8> kWelcomes{"Hello and welcome. How good that you are here.",
                                        "Come in, sit down, you are just in time.",
                                        "A warm hello to every kitchen, sofa and garden chair.",
                                        "A new day, and the same good voices.",
                                        "Welcome, all of you. The chairs are set in a round.",
                                        "Hello from here to wherever you are.",
                                        "Here we are again, and I am glad of it.",
                                        "Welcome. Put the phone aside, and the kettle on low."};

constexpr std::array<Text, 8> kPostures{"Both feet on the ground, back tall, shoulders easy.",
                                        "Sit towards the front of your chair. Let your neck grow long.",
                                        "Lay your hands in your lap, palms up, and breathe out slowly.",
                                        "Lean back for one breath. Then come up tall again.",
                                        "Let your jaw hang a little. Nobody is looking.",
                                        "Feel the floor under both feet. Let the breath come by itself.",
                                        "Breathe in as if you smelled fresh bread, and let it out again.",
                                        "Turn your head a little to each side, only as far as is easy."};

constexpr std::array<Text, 9> kMovements{"Roll your shoulders, slowly. Whoever is sore only thinks it.",
                                         "Open your hands wide, and close them. Take your time.",
                                         "Lift your shoulders, and let them fall. Gently, three times.",
                                         "Yawn with a wide mouth, with or without a sound.",
                                         "Puff out your cheeks, and let the air go.",
                                         "Smile as wide as you can, then make a small round mouth.",
                                         "Stretch both arms forward, as if to a warm stove.",
                                         "Draw a small circle with your chin, no larger than a coin.",
                                         "Sway a little from side to side, like grass in the wind."};

constexpr std::array<Text, 7> kHums{"Hum along. M<mm>",
                                    "Hum as if it tasted good. M<mm>",
                                    "Hum low and easy. M<mm>",
                                    "Hum towards the window. M<mm>",
                                    "Hum, lips just closed. M<mm>",
                                    "Hum, and feel it in your nose. M<mm>",
                                    "Hum as if you agreed. M<mm>"};
constexpr std::array<Text, 6> kSighs{"Breathe out, and let the voice come along. H<oo>",
                                     "Sigh as after a long walk. H<ah>",
                                     "Blow warm air on cold hands. H<ah>",
                                     "Sigh as one sits down at last. H<oh>",
                                     "Let the breath begin, and the voice join in. H<oo>",
                                     "Sigh from the top down. H<ah>"};

constexpr std::array<Text, 9> kVowels{"<Ah>", "<Oh>", "<Ee>", "M<ah>", "<Aw>", "L<oh>", "M<oo>", "N<ee>", "M<aw>"};
constexpr std::array<Text, 5> kVowelNotes{
    "Steady from the first moment to the last; the throat stays soft.",
    "Begin it gently, and keep it as wide as it began.", "Show with your hand how even it is.",
    "Wide open, as if the far wall were listening.", "Listen to its end: it should be as full as its beginning."};

struct Pair {
    Text one;
    Text other;
};
constexpr std::array<Pair, 9> kGlides{{{"Glide from low to high. W<oo>", "Glide from high to low. W<oo>"},
                                       {"Up like a lift. W<ee>", "Down like a lift. W<ee>"},
                                       {"Up the hill. W<ah>", "Down the hill. W<ah>"},
                                       {"Like a wave that comes in. W<oh>", "Like a wave that goes out. W<oh>"},
                                       {"A question goes up. L<oh>", "An answer comes down. L<oh>"},
                                       {"The sun comes up. W<ah>", "The sun goes down. W<ah>"},
                                       {"Up as smoke goes. H<oo>", "Down as leaves fall. H<oo>"},
                                       {"From your shoes to your hat. W<oo>", "From your hat to your shoes. W<oo>"},
                                       {"Draw up a full bucket. L<oo>", "Let it down again. L<oo>"}}};

constexpr std::array<Pair, 9> kCounts{
    {{"One, two, three, four, f<i>ve, six, seven, eight, n<i>ne, ten.",
      "Ten, n<i>ne, eight, seven, six, f<i>ve, four, three, two, one."},
     {"Two, f<ou>r, six, eight, ten, tw<e>lve.", "Tw<e>lve, ten, eight, six, f<ou>r, two."},
     {"Ten, twenty, th<ir>ty, forty, fifty, sixty, seventy, eighty, n<i>nety, one hundred.",
      "One hundred, n<i>nety, eighty, seventy, sixty, fifty, forty, th<ir>ty, twenty, ten."},
     {"M<o>nday, Tuesday, Wednesday, Thursday, Friday, Saturday, S<u>nday.",
      "S<u>nday, Saturday, Friday, Thursday, Wednesday, Tuesday, M<o>nday."},
     {"F<i>ve, ten, fifteen, twenty, twenty-five, th<ir>ty.", "Th<ir>ty, twenty-five, twenty, fifteen, ten, f<i>ve."},
     {"Thr<ee>, six, n<i>ne, twelve, fift<ee>n, eighteen.", "Eighteen, fift<ee>n, twelve, n<i>ne, six, thr<ee>."},
     {"Eleven, twelve, thirt<ee>n, fourteen, fift<ee>n, sixteen.",
      "Sixteen, fift<ee>n, fourteen, thirt<ee>n, twelve, eleven."},
     {"One and two, thr<ee> and four, f<i>ve and six, seven and eight.",
      "Eight and seven, six and f<i>ve, four and thr<ee>, two and one."},
     {"One hundred, two hundred, thr<ee> hundred, f<ou>r hundred, five hundred.",
      "Five hundred, f<ou>r hundred, thr<ee> hundred, two hundred, one hundred."}}};

constexpr std::array<Text, 4> kBackBegins{"Sounds from the back of the tongue, large and slow.",
                                          "The back of the tongue goes up, and lets go. Large and slow.",
                                          "Now the back of the tongue has something to do.",
                                          "Each sound with a firm start, from the back of the tongue."};

constexpr std::array<Text, 7> kGoodbyes{"Thank you, all of you. Until next t<i>me!",
                                        "Well spoken. Goodb<ye> for now!",
                                        "That was good to hear. See you s<oo>n!",
                                        "Thank you for every s<ou>nd!",
                                        "Wave to the others. Goodb<ye>!",
                                        "Take good c<a>re. See you s<oo>n!",
                                        "A good day to you <a>ll!"};
constexpr std::array<Text, 6> kLastWords{"Take this voice along to your next phone call.",
                                         "Say hello to somebody with this voice today.",
                                         "Read one line of the paper aloud with this voice.",
                                         "Use this voice when you next ask for something.",
                                         "Tell somebody at home one line from today, in this voice.",
                                         "Sing one line today, where nobody or everybody hears it."};

template <class Bank>
const auto& of(const Bank& bank, std::uint64_t day, std::size_t which)
{
    return bank[(day + which * 3) % bank.size()];
}

/// A theme's words with the most sounds of the back of the tongue; empty where they are too few.
std::string backWords(const std::vector<std::string>& themeWords)
{
    std::vector<std::pair<int, std::string>> words;
    for (const std::string& word : themeWords)
        if (const int count = lexicon::measure(word, lexicon::english()).backOfTongue; count > 0)
            words.emplace_back(count, word);
    std::ranges::stable_sort(words, std::greater{}, &std::pair<int, std::string>::first);
    int sounds = 0;
    std::string line;
    for (std::size_t i = 0; i < std::min<std::size_t>(words.size(), 4); ++i) {
        line += (line.empty() ? "" : ", ") + words[i].second;
        sounds += words[i].first;
    }
    if (sounds < 3)
        return {};
    if (line.front() >= 'a' && line.front() <= 'z')
        line.front() = static_cast<char>(line.front() - 'a' + 'A');
    return line + '.';
}

Step backLine(std::string text)
{
    Step step;
    step.text = std::move(text);
    const Millis length = toSay(step);
    step.rounds = {{false, {listen(length), ready(), withMe(length)}}, {true, {ready(), yours(length)}}};
    return step;
}

} // namespace

Step welcome(std::uint64_t day, const std::string& theme)
{
    return said(std::string(of(kWelcomes, day, 0)) + "\nToday: " + theme + '.', seconds(20),
                "Greet two or three people by name, those who like it.");
}

Step posture(std::uint64_t day, std::size_t which)
{
    return said(std::string(of(kPostures, day, which)), seconds(12));
}

Step movement(std::uint64_t day, std::size_t which)
{
    return said(std::string(of(kMovements, day, which)), seconds(16));
}

Step lastWord(std::uint64_t day, std::size_t which)
{
    Step step = said(std::string(of(kLastWords, day, which)) + "\nIf your throat is sore or hoarse now, let it rest.\n"
                                                               "If it stays so, tell your own clinician.",
                     {});
    step.rounds.front().turns.front().planned = toSay(step) + seconds(3);
    return step;
}

Step backOfTongueBegins(std::uint64_t day)
{
    Step step = said(std::string(of(kBackBegins, day, 0)), {});
    step.rounds.front().turns.front().planned = toSay(step);
    return step;
}

Step hum(std::uint64_t day, std::size_t which)
{
    const Text text = which % 2 == 0 ? of(kHums, day, which / 2) : of(kSighs, day, which / 2);
    Step step = marked(text, {});
    const Round again{false, {ready(), withMe(seconds(5))}};
    step.rounds = first({false, {listen(toSay(step)), ready(), withMe(seconds(5))}}, again, which % 2 == 0 ? 2 : 1);
    return step;
}

Step vowel(std::uint64_t day, std::size_t which, int times)
{
    return marked(of(kVowels, day, which),
                  first({false, {listen(seconds(4)), ready(), yours(seconds(7))}},
                        {true, {listen(seconds(3)), ready(), yours(seconds(7))}}, times),
                  of(kVowelNotes, day, which));
}

Step glide(std::uint64_t day, std::size_t which, int times)
{
    const Pair& pair = of(kGlides, day, which / 2);
    Step step = marked(which % 2 == 0 ? pair.one : pair.other, {},
                       which % 2 == 0 ? "As high as is comfortable, no higher." : "Without a bump, down to the last.");
    step.rounds = first({false, {listen(toSay(step) + seconds(2)), ready(), withMe(seconds(5))}},
                        {false, {listen(seconds(3)), ready(), yours(seconds(5))}}, times);
    return step;
}

Step count(std::uint64_t day, std::size_t which)
{
    const Pair& pair = of(kCounts, day, which / 2);
    Step step = marked(which % 2 == 0 ? pair.one : pair.other, {},
                       which % 2 == 0 ? "Slowly: each one for itself." : "Keep the last one as full as the first.");
    const Millis length = toSay(step);
    step.rounds = {{false, {listen(length), ready(), withMe(length)}}, {true, {ready(), yours(length)}}};
    return step;
}

Step goodbye(std::uint64_t day, std::size_t which)
{
    Step step = marked(of(kGoodbyes, day, which), {});
    const Millis length = toSay(step);
    step.rounds = {{false, {listen(length), ready(), withMe(length)}}, {true, {ready(), yours(length)}}};
    return step;
}

std::vector<Step> backOfTongue(std::uint64_t day, int lines, const std::vector<std::string>& themeWords)
{
    std::vector<Step> steps;
    for (std::string& line : lexicon::backLines(day, lines))
        steps.push_back(backLine(std::move(line)));
    if (std::string words = backWords(themeWords); !words.empty())
        steps.push_back(backLine(std::move(words)));
    return steps;
}

} // namespace vh::day
