// Four words that two people can compare by voice. The 256 words are common, short, and differ in their first letters.
#include "common/base/sodium_ready.h"
#include "common/wire/join_link.h"

#include <stdexcept>

namespace vh::wire
{

namespace
{

constexpr std::array<std::string_view, 256> kWords{
    "acorn",    "actor",   "almond",  "amber",   "anchor",  "angle",    "apple",    "apron",    "arrow",    "autumn",
    "badge",    "bakery",  "bamboo",  "banana",  "barrel",  "basket",   "beach",    "beaver",   "bell",     "bench",
    "bicycle",  "bird",    "blanket", "blossom", "boat",    "bonnet",   "bottle",   "bowl",     "branch",   "brick",
    "bridge",   "brush",   "bucket",  "butter",  "button",  "cabin",    "cactus",   "cake",     "camel",    "candle",
    "canoe",    "carpet",  "carrot",  "castle",  "cave",    "cedar",    "cellar",   "chair",    "chalk",    "cherry",
    "chess",    "chimney", "cinema",  "circle",  "clay",    "cliff",    "clock",    "cloud",    "clover",   "coat",
    "cobweb",   "coffee",  "comet",   "copper",  "coral",   "cottage",  "cotton",   "crane",    "cricket",  "crown",
    "cup",      "curtain", "daisy",   "dance",   "desert",  "desk",     "diamond",  "dinner",   "dolphin",  "donkey",
    "door",     "dragon",  "drawer",  "drum",    "duck",    "eagle",    "earth",    "easel",    "echo",     "elbow",
    "elm",      "engine",  "fabric",  "falcon",  "farmer",  "feather",  "fence",    "fern",     "ferry",    "fiddle",
    "field",    "finger",  "flag",    "flute",   "forest",  "fork",     "fountain", "fox",      "frost",    "garden",
    "garlic",   "gate",    "ginger",  "glass",   "glove",   "goat",     "gold",     "goose",    "grape",    "grass",
    "guitar",   "hammer",  "harbour", "harp",    "hat",     "hazel",    "hedge",    "heron",    "hill",     "honey",
    "horse",    "house",   "ice",     "igloo",   "ink",     "island",   "ivory",    "jacket",   "jam",      "jar",
    "jewel",    "juice",   "jungle",  "kettle",  "key",     "kitchen",  "kite",     "kitten",   "knot",     "ladder",
    "lake",     "lamp",    "lantern", "lemon",   "letter",  "lily",     "lion",     "lizard",   "lobster",  "magnet",
    "map",      "maple",   "marble",  "market",  "meadow",  "melon",    "mirror",   "mitten",   "monkey",   "moon",
    "mountain", "mouse",   "museum",  "napkin",  "needle",  "nest",     "noon",     "notebook", "nutmeg",   "oak",
    "ocean",    "olive",   "onion",   "orange",  "orchard", "otter",    "oven",     "owl",      "paddle",   "palace",
    "panda",    "paper",   "parrot",  "peach",   "pearl",   "pebble",   "pencil",   "pepper",   "piano",    "picnic",
    "pigeon",   "pillow",  "pine",    "planet",  "plum",    "pocket",   "pony",     "poppy",    "potato",   "pumpkin",
    "puzzle",   "quarry",  "queen",   "quilt",   "rabbit",  "radio",    "rain",     "raven",    "ribbon",   "river",
    "robin",    "rocket",  "roof",    "rope",    "rose",    "saddle",   "sailor",   "salt",     "sand",     "school",
    "shell",    "silver",  "snow",    "spoon",   "spring",  "squirrel", "star",     "stone",    "summer",   "swan",
    "table",    "teapot",  "tiger",   "tomato",  "tower",   "train",    "tulip",    "turtle",   "umbrella", "valley",
    "velvet",   "violin",  "wagon",   "walnut",  "water",   "willow"};

} // namespace

std::string_view keyWord(std::uint8_t number)
{
    return kWords[number];
}

std::array<std::string, 4> fourWords(const Hash& pin)
{
    readySodium();
    static constexpr unsigned char kSalt[crypto_pwhash_SALTBYTES] = {'v', 'o', 'i', 'c', 'e', 'h', 'a', 'l',
                                                                     'l', ' ', 'w', 'o', 'r', 'd', 's', '1'};
    std::array<std::uint8_t, 16> stretched{};
    if (crypto_pwhash(stretched.data(), stretched.size(), reinterpret_cast<const char*>(pin.data()), pin.size(), kSalt,
                      crypto_pwhash_OPSLIMIT_INTERACTIVE, crypto_pwhash_MEMLIMIT_INTERACTIVE,
                      crypto_pwhash_ALG_ARGON2ID13) != 0)
        throw std::runtime_error("not enough memory for the four words of the relay's key");
    std::array<std::string, 4> words;
    for (std::size_t i = 0; i < words.size(); ++i)
        words[i] = keyWord(stretched[i]);
    return words;
}

} // namespace vh::wire
