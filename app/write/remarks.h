#pragma once
// What is to be said about a class while it is written: what keeps it from being a class at all (the rules of its
// format), and what a review found. One list, in the order of the class. Pure; any thread.
#include "app/write/script_edits.h"
#include "common/script/review.h"

#include <string>
#include <vector>

namespace vh::write
{

struct Remark {
    enum class Kind : std::uint8_t {
        fault, ///< as it is, it can be kept as a draft only
        advice ///< of the review
    };
    Kind kind = Kind::advice;
    std::string code; ///< of valid.h or review.h
    std::string why;  ///< one sentence
    Spot spot;
    std::uint32_t begin = 0; ///< bytes of the step's text; begin == end: all of it
    std::uint32_t end = 0;
    std::optional<Finding> finding; ///< what withMend() mends
    bool ofPicture = false;         ///< about the step's picture
    bool leaveOut = false;          ///< mended by taking out what is at the spot
    [[nodiscard]] bool canMend() const { return leaveOut || (finding && finding->mend); }
    friend bool operator==(const Remark&, const Remark&) = default;
};

/// As it would be saved: without outer space in its texts; an empty text that is no pause's is one still to write.
ClassScript tidied(const ClassScript& script);

/// Of a tidied class. What is still to write is not looked through: it is not there yet.
std::vector<Remark> remarksOf(const ClassScript& tidy, const ReviewRules& rules);

/// The class without what the remark is about; as it is where there is no mend.
ClassScript mended(const ClassScript& tidy, const Remark& remark);

/// Steps that are still to write, in order.
std::vector<Spot> toWriteOf(const ClassScript& script);

} // namespace vh::write
