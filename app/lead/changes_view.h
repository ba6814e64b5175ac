#pragma once
// What the leader may change in mid-class, as her screen shows it: the list of steps to jump to, what to leave out so
// that the class ends on time, and the text of one step to be corrected. One sheet at a time, over the hall. Plain
// values: made by ClassChanges, shown by ChangesSheet.
#include "common/live/place.h"

#include <QString>

#include <vector>

namespace vh::lead
{

struct StepRow {
    enum class When { past, now, coming, leftOut };
    StepAt at;
    QString section; ///< its title, at the first step of each; else empty
    QString words;
    QString beside; ///< "0:45", "now", "left out"
    When when = When::coming;
    friend bool operator==(const StepRow&, const StepRow&) = default;
};

struct TrimView {
    QString headline;
    std::vector<StepRow> rows; ///< proposed to be left out; `section` at each of them
    QString already;           ///< of steps that come and are left out already; empty: none
    QString agree;             ///< words of the button; empty: there is nothing to agree to
    friend bool operator==(const TrimView&, const TrimView&) = default;
};

struct TextView {
    StepAt at;
    QString where; ///< the section, and which of its steps
    QString text;  ///< as the class has it, vowels to be held between < and >
    QString fault; ///< why it did not go; empty: nothing to say
    bool sending = false;
    bool fromFile = false; ///< the file that the class was opened from is here
    friend bool operator==(const TextView&, const TextView&) = default;
};

struct ChangesView {
    enum class Sheet { none, steps, trim, text };
    Sheet sheet = Sheet::none;
    int opened = 0; ///< counts: another number, another opening
    StepAt wanted;  ///< steps: which one to point at when it opens
    std::vector<StepRow> steps;
    TrimView trim;
    TextView text;
    bool mayCorrect = false;
    friend bool operator==(const ChangesView&, const ChangesView&) = default;
};

/// What she asks for.
struct ChangeRequest {
    enum class Kind {
        showSteps,   ///< or closes them
        showSection, ///< the steps, from the first one of section at.section
        showTrim,
        showText, ///< of the step `at`; of the present one where none is said
        close,
        moreTime,
        jump,     ///< to `at`
        agree,    ///< to what is proposed to be left out
        putBack,  ///< all that come are in again
        correct,  ///< the step of the text that is shown becomes `text`
        takeFile, ///< the whole class as its file now is
    };
    Kind kind = Kind::close;
    std::optional<StepAt> at{};
    QString text{};
};

} // namespace vh::lead
