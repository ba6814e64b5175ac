#pragma once
// What this helper has done, so that the last of it can be taken back. Value; any one thread.
#include "app/help/desk_words.h"

#include <deque>

namespace vh::help
{

class DeskActs
{
public:
    void did(std::uint64_t item) { add({item, {}}); }
    void rested(PersonId person) { add({0, person}); }
    /// The relay did not take it.
    void didNot(std::uint64_t item);

    struct Act {
        std::uint64_t item = 0; ///< 0: it was about a person
        PersonId person;
    };
    /// The last one that is still as it was left, or on its way; gone from here. Nothing: there is none.
    std::optional<Act> takeLast(const DeskWords& words);

private:
    void add(Act act);
    std::deque<Act> m_acts;
};

} // namespace vh::help
