#pragma once
// Changing the order of a class: steps and sections added, moved, copied, split, removed. A class in between may be
// none that people could be given (a section without steps): that is said elsewhere, nothing is refused for it. Pure;
// any thread.
#include "common/script/script.h"

#include <optional>

namespace vh::write
{

/// What is being looked at. Indices from 0; step -1: the section as a whole; section -1: the class as a whole.
struct Spot {
    int section = -1;
    int step = -1;
    friend bool operator==(const Spot&, const Spot&) = default;
};

enum class Structure : std::uint8_t { addStep, addSection, copy, moveUp, moveDown, split, remove };

struct Edited {
    ClassScript script;
    Spot spot; ///< of what was added, moved or split off; after a removal of what is near it
};
/// `caret` is where a split parts the step's text, in bytes. Nothing where there is nothing to do: moving up what is
/// first, splitting at an end.
std::optional<Edited> edited(const ClassScript& script, Spot spot, Structure what, std::size_t caret = 0);

/// Null where the spot is no step, or no section, of this class.
const Section* sectionAt(const ClassScript& script, Spot spot);
const Step* stepAt(const ClassScript& script, Spot spot);
Step* stepAt(ClassScript& script, Spot spot);
/// The nearest spot that the class has.
Spot nearest(const ClassScript& script, Spot spot);
/// Steps in order, across sections; nothing beyond the ends. From a section or the class: its first step.
std::optional<Spot> stepAfter(const ClassScript& script, Spot spot);
std::optional<Spot> stepBefore(const ClassScript& script, Spot spot);

} // namespace vh::write
