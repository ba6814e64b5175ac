#pragma once
// The class that is being written: its values, one undo for every kind of change (typing goes back word by word), what
// is looked at, and after each change what is to be said about it, its times and what is still to write. Texts come and
// go as QString, places in them in UTF-16 units. Nothing that is typed is refused. GUI thread (QUndoStack).
#include "app/write/marked_text.h"
#include "app/write/remarks.h"
#include "common/script/plan.h"

#include <QString>
#include <QUndoStack>

#include <functional>

namespace vh::write
{

class ClassDocument : public QObject
{
    Q_OBJECT
public:
    using Spot = write::Spot;
    using Rules = std::function<ReviewRules(std::string_view language)>;

    /// Asked for again for another class, and whenever the language changes.
    explicit ClassDocument(Rules rules, QObject* parent = nullptr);

    /// Another class; what was done before is forgotten.
    void begin(const ClassScript& script, Spot spot);
    void select(Spot spot);

    [[nodiscard]] const ClassScript& script() const { return *m_script; }
    /// As it would be saved.
    [[nodiscard]] const ClassScript& tidy() const { return m_tidy; }
    [[nodiscard]] Spot spot() const { return m_spot; }
    /// The chosen section or step; null where there is none.
    [[nodiscard]] const Section* section() const { return sectionAt(*m_script, m_spot); }
    [[nodiscard]] const Step* step() const { return stepAt(*m_script, m_spot); }
    [[nodiscard]] const std::vector<Remark>& remarks() const { return m_remarks; }
    [[nodiscard]] bool isClass() const; ///< no fault: it can be saved
    /// As this leader will go through it.
    [[nodiscard]] const TimingPlan& plan() const { return m_plan; }
    [[nodiscard]] const OwnPace& pace() const { return m_rules.pace; }
    [[nodiscard]] const std::vector<Spot>& toWrite() const { return m_toWrite; }
    /// After the chosen spot, then from the start.
    [[nodiscard]] std::optional<Spot> nextToWrite() const;
    /// Of the step: its text as it is shown, empty while it is still to write.
    [[nodiscard]] QString text() const;
    [[nodiscard]] QUndoStack& undoStack() { return m_undo; }
    [[nodiscard]] const QUndoStack& undoStack() const { return m_undo; }

    void setTitle(const QString& title);
    void setTheme(const QString& theme);
    void setLanguage(const QString& language);
    void setMinutes(int minutes);
    void setSectionTitle(const QString& title);
    void setSectionKind(SectionKind kind);
    /// `caret`: where it stands after the change.
    void setText(const QString& text, int caret);
    /// Copied lines, into the step and what is still to write after it (texts_in.h), as one change. How many texts it
    /// were; 1: the step's own only.
    int takeTexts(const QString& copied);
    void setNote(const QString& note);
    /// Never empty. `what`: the words for undoing it.
    void setRounds(const std::vector<Round>& rounds, const QString& what);
    void setDearness(std::optional<int> dearness);
    void setPicture(const std::optional<Picture>& picture);
    void setDescription(const QString& description);
    /// False where there was nothing to do. `caret`: of a split.
    bool restructure(Structure what, int caret = 0);
    void toggleMark(int begin, int end);
    /// Vowels of every text without a mark, where people say phrases, vowels and glides. How many texts it marked.
    int markAll();
    /// Of remarks().
    bool mend(std::size_t remark);
    /// Everything that can be mended, as one change. How many remarks are gone.
    int mendAll();

signals:
    void changed(); ///< the class
    void chosen();  ///< the spot; also after changes that move it

private:
    class Change;
    /// What is typed goes together while it is one word at one place of one field.
    struct Typed {
        QString field; ///< empty: no typing
        TextChange change;
        bool wordEnds = false;
    };
    struct State {
        std::shared_ptr<const ClassScript> script;
        Spot spot;
    };
    void put(const State& state);
    void push(ClassScript script, Spot spot, const QString& what, const Typed& typed);
    void push(ClassScript script, Spot spot, const QString& what) { push(std::move(script), spot, what, Typed()); }
    void typeLine(std::string ClassScript::*field, const QString& value, const QString& what);
    void typeInto(const std::function<std::string&(ClassScript&)>& field, const QString& value, const QString& what);
    void lookThrough();

    Rules m_rulesFor;
    std::string m_language;
    ReviewRules m_rules;
    std::shared_ptr<const ClassScript> m_script;
    ClassScript m_tidy;
    Spot m_spot;
    TimingPlan m_plan;
    std::vector<Remark> m_remarks;
    std::vector<Spot> m_toWrite;
    QUndoStack m_undo; ///< last: its commands hold this
};

} // namespace vh::write
