#include "demo/chorus/first_names.h"

#include "demo/chorus/seeded.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace vh::chorus
{

namespace
{

constexpr std::array<std::string_view, 60> kNames{
    "Amara",  "Bruno",   "Chiyo",   "Dafydd",  "Esra",      "Fionn",  "Greta",   "Hamid",      "Ines",  "Jamal",
    "Kirsi",  "Lakshmi", "Mateo",   "Noor",    "Oluwaseun", "Paloma", "Quentin", "Ruta",       "Sione", "Tadeusz",
    "Ursula", "Vikram",  "Wanjiru", "Xiomara", "Yusuf",     "Zofia",  "Anahera", "Birgit",     "Chen",  "Dolores",
    "Elif",   "Farid",   "Giulia",  "Henrik",  "Iolanda",   "Jarrah", "Kwame",   "Lieselotte", "Minh",  "Nadia",
    "Orla",   "Priya",   "Ramón",   "Sunniva", "Thabo",     "Ulrike", "Vera",    "Walid",      "Yuki",  "Zeynep",
    "Aoife",  "Bogdan",  "Camille", "Dinh",    "Emeka",     "Frida",  "Goran",   "Haruto",     "Ilse",  "Joana"};

} // namespace

std::string firstName(std::uint32_t index, std::uint64_t seed)
{
    // The table as this seed shuffles it (Fisher and Yates).
    std::array<std::string_view, kNames.size()> names = kNames;
    std::uint64_t state = mixed({seed, 0x6E616D65});
    for (std::size_t left = names.size(); left > 1; --left)
        std::swap(names[left - 1], names[nextNumber(state) % left]);
    const std::size_t turn = index / names.size();
    std::string name(names[index % names.size()]);
    return turn == 0 ? name : name + " " + std::to_string(turn + 1);
}

} // namespace vh::chorus
