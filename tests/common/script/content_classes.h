#pragma once
// The classes that ship, for the tests that look at them: where they are, and a walk over their steps. One thread.
#include "common/script/script.h"

#include <QString>

#include <functional>
#include <string>
#include <vector>

namespace vh::content
{

inline constexpr const char* kClasses = VH_SOURCE_DIR "/content/classes";

QByteArray bytesOf(const QString& path);

/// Paths of all class scripts, sorted.
QStringList paths();
/// For a test's _data: one row for each class, in a column "path".
void eachClass();
/// What cannot be read comes without sections, its mistakes in the log.
ClassScript scriptAt(const QString& path);

bool isEnglish(const ClassScript& script);
bool isSpokenByPeople(const Turn& turn);
/// Whether people say anything in this step.
bool isSpoken(const Step& step);
/// An exercise of the voice, between which people need water; talk and warm-up are none.
bool isExercise(SectionKind kind);

/// `place` reads "section 3, step 2", for the message of a failing check.
void forEachStep(const ClassScript& script,
                 const std::function<void(const Section&, const Step&, const std::string& place)>& check);

/// The parts of a text between full stops, question and exclamation marks: small letters, one space between words.
std::vector<std::string> sentencesOf(const std::string& text);

} // namespace vh::content
