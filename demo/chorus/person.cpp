#include "demo/chorus/person.h"

#include "demo/chorus/seeded.h"

#include <algorithm>

namespace vh::chorus
{

namespace
{

enum Draw : std::uint64_t { kTract = 100, kPitch, kRange, kPace, kBreath, kUnsteady, kTremor, kUsual, kRoom, kThing };

constexpr std::array<std::string_view, 24> kThings{
    "a kettle",  "onions",     "the garden hose", "two apples", "a warm coat", "tomatoes",   "an old bench", "rain",
    "a basket",  "wild geese", "parsley",         "gloves",     "a thermos",   "a big frog", "beans",        "string",
    "a sparrow", "potatoes",   "my good knife",   "the ladder", "sunflowers",  "a wet dog",  "peppermint",   "cousins"};
constexpr std::array<std::string_view, 6> kTalk{
    "There is a bench behind the chapel, and in the evening the sun comes through the trees.",
    "We used to row across on Sundays, my brother and I, and eat our bread on the other side.",
    "I would like to grow something tall, because I cannot bend down so well any more.",
    "My neighbour brings the seeds, and I do the watering when she is away.",
    "In winter you can hear the ice, and then you know it is time to go home.",
    "The best of it is the quiet, and that nobody asks what time it is."};

/// A syllable and a half a word, and a pause after each.
constexpr double kSecondsPerThing = 1.3;
constexpr double kSecondsPerSentence = 6.5;

double between(double low, double high, std::initializer_list<std::uint64_t> numbers)
{
    return low + (high - low) * unit(numbers);
}

voice::VoiceTraits traitsOf(std::uint64_t seed)
{
    voice::VoiceTraits traits;
    const bool woman = unit({seed, kTract}) < 0.45;
    traits.tract = woman ? voice::Tract::woman : voice::Tract::man;
    traits.pitchHz = woman ? between(165, 215, {seed, kPitch}) : between(98, 145, {seed, kPitch});
    traits.pitchRangeSemitones = between(2.5, 6, {seed, kRange});
    traits.syllablesPerSecond = between(2.8, 3.8, {seed, kPace});
    traits.hnrDb = between(9, 19, {seed, kBreath});
    traits.jitterPercent = between(0.4, 1.2, {seed, kUnsteady});
    traits.shimmerPercent = between(2, 6, {seed, kUnsteady, 1});
    traits.creak = unit({seed, kUnsteady, 2}) < 0.3 ? 0.15 : 0;
    if (unit({seed, kTremor}) < 0.35) {
        traits.tremorHz = between(4, 7, {seed, kTremor, 1});
        traits.tremorPitchPercent = between(1, 3, {seed, kTremor, 2});
        traits.tremorLevelDb = between(0.5, 1.5, {seed, kTremor, 3});
    }
    return traits;
}

voice::Room roomOf(Character character, std::uint64_t seed)
{
    voice::Room room;
    room.sizeMetres = {between(3.4, 5.6, {seed, kRoom}), between(3.0, 4.4, {seed, kRoom, 1}), 2.5};
    room.rt60Seconds = between(0.25, 0.5, {seed, kRoom, 2});
    room.distanceMetres = between(0.35, 0.6, {seed, kRoom, 3});
    room.noiseDbfsA = between(-80, -74, {seed, kRoom, 4});
    if (character == Character::farFromMicrophone) {
        room.distanceMetres = 2.2;
        room.rt60Seconds = 0.5;
    }
    return room;
}

/// The last stretched word of a text, with its stretch.
SpokenLine heldPart(const Step& step)
{
    if (step.stretches.empty())
        return {step.text, {}};
    const Stretch last = step.stretches.back();
    const std::size_t before = step.text.find_last_of(" \n", last.begin);
    const std::size_t begin = before == std::string::npos ? 0 : before + 1;
    const std::size_t end = std::min(step.text.find_first_of(" \n", last.end), step.text.size());
    const auto shift = static_cast<std::uint32_t>(begin);
    return {step.text.substr(begin, end - begin), {{last.begin - shift, last.end - shift}}};
}

/// So many of `parts` as fit, beginning anywhere.
template <std::size_t N>
std::string some(const std::array<std::string_view, N>& parts, double count, std::string_view between,
                 std::uint64_t seed)
{
    std::string text;
    const std::uint64_t first = mixed({seed, kThing});
    for (std::uint64_t i = 0; i < static_cast<std::uint64_t>(std::max(1.0, count)); ++i) {
        text += text.empty() ? "" : between;
        text += parts[(first + 7 * i) % N];
    }
    return text;
}

} // namespace

Person personOf(Character character, std::uint64_t seed)
{
    Person person;
    person.traits = traitsOf(seed);
    person.usualDbfsA = between(-46, -42, {seed, kUsual});
    person.room = roomOf(character, seed);
    person.gainRiding = character == Character::gainRiding;
    if (character == Character::couple)
        person.other = traitsOf(mixed({seed, kThing, 1}));
    if (character == Character::noisyRoom) {
        // Well above the voice at the microphone: a heater that blows. Who speaks there can neither be praised nor
        // called silent.
        person.room.distanceMetres = 0.45;
        person.laterNoise = voice::NoiseKind::white;
        person.laterNoiseDbfsA = person.usualDbfsA + 13;
    }
    return person;
}

SpokenLine lineFor(SectionKind section, const Step& step, Millis length, std::uint64_t seed)
{
    const double seconds = static_cast<double>(length.count()) / 1000;
    switch (section) {
    case SectionKind::sustainedVowel: {
        SpokenLine line = heldPart(step);
        line.melody = line.stretches.empty() ? voice::Melody::speech : voice::Melody::level;
        return line;
    }
    case SectionKind::pitchGlide: {
        SpokenLine line = heldPart(step);
        const bool down = step.text.find("high to low") != std::string::npos;
        line.melody = down ? voice::Melody::falling : voice::Melody::rising;
        return line;
    }
    case SectionKind::categoryNaming:
        return {some(kThings, seconds / kSecondsPerThing, ", ", seed), {}};
    case SectionKind::openTalk:
        return {some(kTalk, seconds / kSecondsPerSentence, " ", seed), {}};
    default:
        return {step.text, step.stretches};
    }
}

SpokenLine checkLine()
{
    return {"The water is smooth this morning. A boat goes out to the middle, and two ducks go along with it. "
            "By noon the wind will be up.",
            {}};
}

} // namespace vh::chorus
