#pragma once
// The class to lead, before it is opened: which files there are, which one is chosen, and either what is in it or every
// mistake of the file. Value; reads files, shows nothing. GUI thread.
#include "app/write/class_offers.h"
#include "app/write/script_file.h"

#include <QString>
#include <QStringList>

#include <memory>
#include <vector>

namespace vh::lead
{

struct ClassFile {
    QString path;
    QString words;     ///< the title, or the file's name where it cannot be read
    QString about{};   ///< "Kites · 20 min · held yesterday"; may be empty
    QString heading{}; ///< those under one heading stand together: "Planned for today"
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
    QStringList used;     ///< what of it the group met lately, a line each
    std::vector<ScriptMistake> mistakes;
    bool opening = false; ///< the relay is being asked
    friend bool operator==(const ChoiceView&, const ChoiceView&) = default;
};

class ClassChoice
{
public:
    /// What the library has, in its order; instead of what was offered before. The chosen one stays chosen.
    void offer(const write::ClassOffers& offers);
    /// Every *.yaml in it, by title. A folder that is not there offers nothing.
    void offerFolder(const QString& folder);
    /// Reads it; adds it to the files if it is a new one.
    void choose(const QString& path);

    [[nodiscard]] const ChoiceView& view() const { return m_view; }
    /// Null while nothing readable is chosen.
    [[nodiscard]] std::shared_ptr<const ClassScript> script() const { return m_script; }
    /// Of the chosen one; empty: none.
    [[nodiscard]] QString path() const;
    /// Where its pictures lie.
    [[nodiscard]] QString folder() const;

private:
    void tellOf(const ClassScript& script);

    write::ClassOffers m_offers;
    ChoiceView m_view;
    std::shared_ptr<const ClassScript> m_script;
};

using write::readScriptFile;

} // namespace vh::lead
