#include "app/write/class_document.h"

#include "app/write/texts_in.h"
#include "common/lexicon/measures.h"
#include "common/script/shapes.h"

#include <algorithm>

namespace vh::write
{

namespace
{

constexpr int kUndoLimit = 400;
constexpr int kMostMends = 200;
constexpr int kTyping = 1; // id of commands that may be merged

std::size_t bytesBefore(const QString& text, int units)
{
    return static_cast<std::size_t>(QStringView(text).left(units).toUtf8().size());
}

/// Where what was chosen stands after sections have come or gone.
Spot afterMending(Spot spot, const Remark& remark, std::size_t before, std::size_t after)
{
    const bool atFront =
        remark.finding && remark.finding->mend && remark.finding->mend->kind == Mend::Kind::addCautions;
    if (before != after && spot.section >= 0 && (atFront ? 0 : remark.spot.section) <= spot.section)
        spot.section += static_cast<int>(after) - static_cast<int>(before);
    return spot;
}

bool endsWord(std::string_view text, const TextChange& change)
{
    return change.added > 0 &&
           std::string_view(" \n.,;:!?").find(text[change.at + change.added - 1]) != std::string_view::npos;
}

} // namespace

class ClassDocument::Change : public QUndoCommand
{
public:
    Change(ClassDocument& document, State before, State after, const QString& what, Typed typed)
        : QUndoCommand(what), m_document(document), m_before(std::move(before)), m_after(std::move(after)),
          m_typed(std::move(typed))
    {
    }
    void undo() override { m_document.put(m_before); }
    void redo() override { m_document.put(m_after); }
    [[nodiscard]] int id() const override { return m_typed.field.isEmpty() ? -1 : kTyping; }

    bool mergeWith(const QUndoCommand* other) override
    {
        const auto& next = static_cast<const Change&>(*other);
        const TextChange mine = m_typed.change;
        const TextChange more = next.m_typed.change;
        if (next.m_typed.field != m_typed.field || !(next.m_before.spot == m_before.spot) || m_typed.wordEnds)
            return false;
        const bool typesOn = more.removed == 0 && more.at == mine.at + mine.added && mine.added > 0;
        const bool deletesOn =
            more.added == 0 && mine.added == 0 && (more.at + more.removed == mine.at || more.at == mine.at);
        if (!typesOn && !deletesOn)
            return false;
        m_after = next.m_after;
        m_typed = next.m_typed;
        if (typesOn)
            m_typed.change = {mine.at, mine.removed, mine.added + more.added};
        return true;
    }

private:
    ClassDocument& m_document;
    State m_before;
    State m_after;
    Typed m_typed;
};

ClassDocument::ClassDocument(Rules rules, QObject* parent)
    : QObject(parent), m_rulesFor(rules ? std::move(rules) : Rules(rulesFor)), m_script(std::make_shared<ClassScript>())
{
    m_undo.setUndoLimit(kUndoLimit);
    lookThrough();
}

void ClassDocument::begin(const ClassScript& script, Spot spot)
{
    m_language.clear(); // another class, other sentences that were said lately
    m_undo.clear();
    put({std::make_shared<const ClassScript>(script), spot});
}

void ClassDocument::select(Spot spot)
{
    spot = nearest(*m_script, spot);
    if (spot == m_spot)
        return;
    m_spot = spot;
    emit chosen();
}

void ClassDocument::put(const State& state)
{
    m_script = state.script;
    const Spot spot = nearest(*m_script, state.spot);
    const bool elsewhere = !(spot == m_spot);
    m_spot = spot;
    lookThrough();
    emit changed();
    if (elsewhere)
        emit chosen();
}

void ClassDocument::lookThrough()
{
    m_tidy = tidied(*m_script);
    if (m_tidy.language != m_language || m_language.empty()) {
        m_language = m_tidy.language;
        m_rules = m_rulesFor(m_language);
    }
    m_remarks = remarksOf(m_tidy, m_rules);
    m_plan = planOf(m_tidy, m_rules.pace);
    m_toWrite = toWriteOf(m_tidy);
}

void ClassDocument::push(ClassScript script, Spot spot, const QString& what, const Typed& typed)
{
    if (script == *m_script)
        return;
    m_undo.push(new Change(*this, {m_script, m_spot}, {std::make_shared<const ClassScript>(std::move(script)), spot},
                           what, typed));
}

bool ClassDocument::isClass() const
{
    return std::none_of(m_remarks.begin(), m_remarks.end(),
                        [](const Remark& remark) { return remark.kind == Remark::Kind::fault; });
}

std::optional<Spot> ClassDocument::nextToWrite() const
{
    const auto order = [](const Spot& spot) { return std::pair(spot.section, spot.step); };
    for (const Spot& spot : m_toWrite)
        if (order(spot) > order(m_spot))
            return spot;
    return m_toWrite.empty() ? std::nullopt : std::optional(m_toWrite.front());
}

QString ClassDocument::text() const
{
    const Step* here = step();
    return here && !isToWrite(*here) ? QString::fromStdString(here->text) : QString();
}

// --- typing ----------------------------------------------------------------------------------------------------------

void ClassDocument::typeInto(const std::function<std::string&(ClassScript&)>& field, const QString& value,
                             const QString& what)
{
    ClassScript script = *m_script;
    std::string& text = field(script);
    const std::string after = value.toStdString();
    const TextChange change = changeBetween(text, after, after.size());
    text = after;
    push(std::move(script), m_spot, what, {what, change, endsWord(after, change)});
}

void ClassDocument::typeLine(std::string ClassScript::*field, const QString& value, const QString& what)
{
    typeInto([field](ClassScript& script) -> std::string& { return script.*field; }, value, what);
}

void ClassDocument::setTitle(const QString& title)
{
    typeLine(&ClassScript::title, title, tr("the title"));
}

void ClassDocument::setTheme(const QString& theme)
{
    typeLine(&ClassScript::theme, theme, tr("the theme"));
}

void ClassDocument::setLanguage(const QString& language)
{
    typeLine(&ClassScript::language, language, tr("the language"));
}

void ClassDocument::setSectionTitle(const QString& title)
{
    if (section())
        typeInto(
            [this](ClassScript& script) -> std::string& {
                return script.sections[static_cast<std::size_t>(m_spot.section)].title;
            },
            title, tr("the title of a part"));
}

void ClassDocument::setNote(const QString& note)
{
    if (step())
        typeInto([this](ClassScript& script) -> std::string& { return stepAt(script, m_spot)->note; }, note,
                 tr("the note"));
}

void ClassDocument::setDescription(const QString& description)
{
    if (step() && step()->picture)
        typeInto([this](ClassScript& script) -> std::string& { return stepAt(script, m_spot)->picture->description; },
                 description, tr("the description"));
}

void ClassDocument::setText(const QString& text, int caret)
{
    if (!step() || text == this->text())
        return;
    ClassScript script = *m_script;
    Step& here = *stepAt(script, m_spot);
    const std::string before = this->text().toStdString();
    std::string after = text.toStdString();
    const TextChange change = changeBetween(before, after, bytesBefore(text, caret));
    here.stretches = followed(here.stretches, change, after);
    const Typed typed{tr("the text"), change, endsWord(after, change)};
    const bool blank = text.trimmed().isEmpty() && section()->kind != SectionKind::pause;
    here.text = blank ? std::string(kToWrite) : std::move(after);
    push(std::move(script), m_spot, typed.field, typed);
}

int ClassDocument::takeTexts(const QString& copied)
{
    if (!step())
        return 0;
    const auto texts = textsIn(copied.toStdString(), section()->kind);
    auto after = texts.size() > 1 ? withTexts(*m_script, m_spot, texts) : std::nullopt;
    if (after) {
        push(std::move(after->script), after->spot, tr("texts from elsewhere"));
        return static_cast<int>(texts.size());
    }
    const QString text = copied.trimmed();
    setText(text, static_cast<int>(text.size()));
    return text.isEmpty() ? 0 : 1;
}

// --- everything else -------------------------------------------------------------------------------------------------

void ClassDocument::setMinutes(int minutes)
{
    ClassScript script = *m_script;
    script.plannedMinutes = minutes;
    push(std::move(script), m_spot, tr("the minutes"));
}

void ClassDocument::setSectionKind(SectionKind kind)
{
    if (!section())
        return;
    ClassScript script = *m_script;
    script.sections[static_cast<std::size_t>(m_spot.section)].kind = kind;
    push(std::move(script), m_spot, tr("the kind of a part"));
}

void ClassDocument::setRounds(const std::vector<Round>& rounds, const QString& what)
{
    if (!step() || rounds.empty())
        return;
    ClassScript script = *m_script;
    stepAt(script, m_spot)->rounds = rounds;
    push(std::move(script), m_spot, what);
}

void ClassDocument::setDearness(std::optional<int> dearness)
{
    if (!step())
        return;
    ClassScript script = *m_script;
    stepAt(script, m_spot)->optionalDearness = dearness;
    push(std::move(script), m_spot, tr("what may be left out"));
}

void ClassDocument::setPicture(const std::optional<Picture>& picture)
{
    if (!step())
        return;
    ClassScript script = *m_script;
    stepAt(script, m_spot)->picture = picture;
    push(std::move(script), m_spot, tr("the picture"));
}

bool ClassDocument::restructure(Structure what, int caret)
{
    auto after = edited(*m_script, m_spot, what, bytesBefore(text(), caret));
    if (!after)
        return false;
    const auto words = [what] {
        switch (what) {
        case Structure::addStep:
            return tr("a new step");
        case Structure::addSection:
            return tr("a new part");
        case Structure::copy:
            return tr("the copy");
        case Structure::moveUp:
        case Structure::moveDown:
            return tr("the move");
        case Structure::split:
            return tr("the split");
        case Structure::remove:
            return tr("the removal");
        }
        return QString();
    };
    push(std::move(after->script), after->spot, words());
    return true;
}

void ClassDocument::toggleMark(int begin, int end)
{
    if (!step() || isToWrite(*step()))
        return;
    ClassScript script = *m_script;
    Step& here = *stepAt(script, m_spot);
    const QString all = text();
    here.stretches =
        toggled({here.text, here.stretches}, bytesBefore(all, begin), bytesBefore(all, end), m_rules.words);
    push(std::move(script), m_spot, tr("the mark"));
}

int ClassDocument::markAll()
{
    ClassScript script = m_tidy;
    int marked = 0;
    for (const Remark& remark : m_remarks)
        if (remark.finding && remark.finding->mend && remark.finding->mend->kind == Mend::Kind::markVowels) {
            script = withMend(std::move(script), *remark.finding);
            ++marked;
        }
    if (marked > 0)
        push(std::move(script), m_spot, tr("the marks"));
    return marked;
}

bool ClassDocument::mend(std::size_t remark)
{
    if (remark >= m_remarks.size() || !m_remarks[remark].canMend())
        return false;
    const Remark which = m_remarks[remark];
    push(mended(m_tidy, which), which.spot, tr("the mending"));
    return true;
}

int ClassDocument::mendAll()
{
    const auto before = static_cast<int>(m_remarks.size());
    ClassScript script = m_tidy;
    Spot spot = m_spot;
    auto remarks = m_remarks;
    for (int i = 0; i < kMostMends; ++i) {
        const auto next = std::find_if(remarks.begin(), remarks.end(), [&](const Remark& remark) {
            return remark.canMend() && !(mended(script, remark) == script);
        });
        if (next == remarks.end())
            break;
        const std::size_t sections = script.sections.size();
        script = mended(script, *next);
        spot = afterMending(spot, *next, sections, script.sections.size());
        remarks = remarksOf(script, m_rules); // a mend may move what others are about
    }
    const int after = static_cast<int>(remarks.size());
    push(std::move(script), spot, tr("the mending"));
    return std::max(0, before - after);
}

} // namespace vh::write
