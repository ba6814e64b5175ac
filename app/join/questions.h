#pragma once
// What a person is asked to agree to: each separately, in plain words, in this order; and the cautions that are said at
// joining. Words for screens. GUI thread.
#include "common/live/agreements.h"

#include <QStringList>

#include <vector>

namespace vh::join
{

struct Answer {
    const char* value; ///< as on the wire
    const char* words; ///< on its button; translated by words()
    const char* brief; ///< in the list of what was agreed to
};

/// Only agreements that mean something today: what Voicehall cannot do yet is not asked.
struct Question {
    AgreementKind kind;
    const char* heading;
    const char* words;
    const char* brief; ///< in the list: "Who may see my level"
    std::vector<Answer> answers;
};
const std::vector<Question>& questions();
/// The words of a question or an answer in the language of the program.
QString words(const char* source);

QStringList cautions();
/// In one line, for the class screen.
QString shortCaution();
/// The same for a water pause.
QString pauseCaution();

} // namespace vh::join
