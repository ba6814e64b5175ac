#pragma once
// The class to lead, before it is opened: which files there are, which one is chosen, and either what is in it or every
// mistake of the file. Value; reads files, shows nothing. GUI thread.
#include "common/script/script.h"
#include "common/script/script_error.h"

#include <QString>
#include <QStringList>

#include <memory>
#include <vector>

namespace vh::lead
{

struct ClassFile {
    QString path;
    QString words; ///< the title, or the file's name where it cannot be read
    friend bool operator==(const ClassFile&, const ClassFile&) = default;
};

struct ScriptMistake {
    QString where;   ///< "line 12"
    QString message; ///< what is wrong
    QString remedy;  ///< what would be right
    friend bool operator==(const ScriptMistake&, const ScriptMistake&) = default;
};

/// What the room shows of the choice.
struct ChoiceView {
    std::vector<ClassFile> files;
    int chosen = -1;      ///< index into files
    QString title;        ///< empty: nothing readable is chosen
    QString about;        ///< "20 minutes planned, 34 steps"
    QStringList sections; ///< "Across the water: 3 min", in order
    QStringList minutes;  ///< of each section
    std::vector<ScriptMistake> mistakes;
    bool opening = false; ///< the relay is being asked
    friend bool operator==(const ChoiceView&, const ChoiceView&) = default;
};

class ClassChoice
{
public:
    /// Every *.yaml in it, by title. A folder that is not there offers nothing.
    void offerFolder(const QString& folder);
    /// Reads it; adds it to the files if it is a new one.
    void choose(const QString& path);

    [[nodiscard]] const ChoiceView& view() const { return m_view; }
    /// Null while nothing readable is chosen.
    [[nodiscard]] std::shared_ptr<const ClassScript> script() const { return m_script; }
    /// Where its pictures lie.
    [[nodiscard]] QString folder() const;

private:
    void tellOf(const ClassScript& script);

    ChoiceView m_view;
    std::shared_ptr<const ClassScript> m_script;
};

/// Reads one file, of at most the script reader's limit.
tl::expected<ClassScript, std::vector<ScriptError>> readScriptFile(const QString& path);

} // namespace vh::lead
