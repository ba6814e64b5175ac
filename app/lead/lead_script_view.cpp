// LeadModel's part that reads the script: the column under the lens, the rail, the clock, the group's window, how it
// went.
#include "app/lead/lead_model.h"
#include "app/lead/lead_words.h"

#include <QCoreApplication>

namespace vh::lead
{

namespace
{

constexpr int kSmallestLine = 24;
constexpr int kLargestLine = 60;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::lead::LeadModel", text);
}

/// The step before, across sections; nothing before the first.
std::optional<Place> previousStep(const ClassScript& script, const Place& place, const LeftOut& leftOut)
{
    const auto before = previousTurn(script, stepStart(place), leftOut);
    return before ? std::optional(stepStart(*before)) : std::nullopt;
}

/// One line of what comes or was: with the section's title where it is another section.
QString neighbour(const ClassScript& script, const std::optional<Place>& there, const Place& here)
{
    const auto at = there ? turnAt(script, *there) : std::nullopt;
    if (!at)
        return {};
    const QString line = lineOf(*at->section, *at->step);
    const QString title = QString::fromStdString(at->section->title);
    return there->section == here.section || title.isEmpty() || title == line
               ? line
               : QStringLiteral("%1 \u00B7 %2").arg(title, line);
}

/// How much of the turn has gone, in planned time: one that was given more goes by more slowly.
Millis plannedSpent(const ClassScript& script, const ClassState& state, Instant now)
{
    const auto at = turnAt(script, state.place);
    const Millis spent = turnSpent(state, now);
    return at && state.turnLength > at->turn->planned ? spent * at->turn->planned.count() / state.turnLength.count()
                                                      : spent;
}

CueBadge::State cueOf(const wire::PlaceNow& place, const TurnAt& at)
{
    switch (place.phase) {
    case Phase::notStarted:
        return {std::nullopt, false, words("Welcome")};
    case Phase::waiting:
        return {std::nullopt, false, words("We wait a moment")};
    case Phase::calmPause:
        return {std::nullopt, false, words("A calm pause")};
    case Phase::ended:
        return {std::nullopt, false, words("Until next time")};
    case Phase::running:
        break;
    }
    if (at.section->kind == SectionKind::pause)
        return {std::nullopt, false, words("Water pause")};
    return {at.turn->kind, at.round->moreVoice && at.turn->kind != TurnKind::listen, {}};
}

} // namespace

ClassState LeadModel::mirrored() const
{
    ClassState state;
    state.phase = m_place->phase;
    state.place = m_place->place;
    state.turnStartedAt = m_place->turnStartedAt;
    state.turnSpent = m_place->turnSpent;
    state.turnLength = m_place->turnLength;
    state.leftOut = m_place->leftOut;
    state.startedAt = m_startedAt;
    return state;
}

QStringList LeadModel::clock(Instant now) const
{
    const ClassState state = mirrored();
    if (state.phase == Phase::ended)
        return {words("over")};
    if (state.phase == Phase::notStarted)
        return {words("%1 if you start now").arg(endWords(now + plannedLength(*m_script), {})),
                endWords(now + plannedLength(*m_script), {})};
    const Instant end = expectedEnd(*m_script, state, now);
    if (!m_startedAt)
        return {endWords(end, {})};
    return {endWords(end, behindPlan(*m_script, state, now)), endWords(end, {})};
}

Column LeadModel::column(const TurnAt& at, Instant now) const
{
    const Place& place = m_place->place;
    Column column;
    column.last = neighbour(*m_script, previousStep(*m_script, place, m_place->leftOut), place);
    const auto next = nextStep(*m_script, place, m_place->leftOut);
    column.next = next ? neighbour(*m_script, next, place) : words("Then the class is over.");
    column.now.text = at.step->text;
    column.now.stretches = at.step->stretches;
    if (column.now.text.empty())
        column.now.text = lineOf(*at.section, *at.step).toStdString();
    column.now.limits.smallest = kSmallestLine;
    column.now.limits.largest = kLargestLine;
    column.now.alignment = Qt::AlignLeft | Qt::AlignTop;
    column.mayChange = mayChange();
    column.note = QString::fromStdString(at.step->note);
    if (at.section->kind != SectionKind::pause)
        for (const Turn& turn : at.round->turns)
            column.turns.turns.push_back(turn.kind);
    column.turns.current = m_place->phase == Phase::running ? place.turn : -1;
    const bool held = m_place->phase == Phase::waiting || m_place->phase == Phase::calmPause;
    const QString left = leftWords(m_place->turnLength - turnSpent(mirrored(), now));
    const QString more = moreWords(m_place->turnLength - at.turn->planned);
    const QStringList rounds = held ? QStringList{words("the clock waits")} : roundWords(*at.step, place.round);
    // That a press for more time has counted is shown before which round it is.
    for (const QString& time :
         more.isEmpty() ? QStringList{left} : QStringList{QStringLiteral("%1 \u00B7 %2").arg(left, more), left}) {
        for (const QString& round : rounds)
            column.turns.beside << QStringLiteral("%1 \u00B7 %2").arg(round, time);
        column.turns.beside << time;
    }
    return column;
}

ScriptRail::State LeadModel::rail(Instant now) const
{
    ScriptRail::State rail;
    for (std::size_t i = 0; i < m_script->sections.size(); ++i) {
        const Section& section = m_script->sections[i];
        ScriptRail::Part part;
        part.title = QString::fromStdString(section.title);
        part.pause = section.kind == SectionKind::pause;
        part.label = kindWords(section.kind);
        part.planned = plannedLengthOf(*m_script, i, m_place->leftOut);
        rail.parts.push_back(std::move(part));
    }
    const bool under = m_place->phase != Phase::notStarted && m_place->phase != Phase::ended;
    const Millis whole = plannedLength(*m_script, m_place->leftOut);
    if (m_place->phase == Phase::ended)
        rail.done = whole;
    if (under) {
        rail.done =
            whole - plannedFrom(*m_script, m_place->place, m_place->leftOut) + plannedSpent(*m_script, mirrored(), now);
        rail.current = m_place->place.section;
    }
    return rail;
}

ClassSheet::State LeadModel::group(const std::function<QImage(const std::string&)>& pictureOf) const
{
    ClassSheet::State sheet;
    const auto at = turnAt(*m_script, m_place->place);
    if (!at)
        return sheet;
    sheet.cue = cueOf(*m_place, *at);
    if (m_place->phase == Phase::notStarted || m_place->phase == Phase::ended) {
        sheet.text.text = m_script->title;
        return sheet;
    }
    sheet.text.text = at->step->text;
    sheet.text.stretches = at->step->stretches;
    if (sheet.text.text.empty())
        sheet.text.text = at->section->title;
    if (at->step->picture && pictureOf) {
        sheet.picture = pictureOf(at->step->picture->file);
        sheet.pictureDescription = QString::fromStdString(at->step->picture->description);
    }
    return sheet;
}

SummaryView LeadModel::summary() const
{
    SummaryView view;
    view.headline = words("The class is over. Thank you.");
    if (!m_summary)
        return view;
    const wire::Summary& sum = *m_summary;
    view.lines << words("Planned: %1. It took %2.").arg(lengthWords(sum.planned), lengthWords(sum.actual));
    view.lines << (sum.came == 1 ? words("One person came.") : words("%1 people came.").arg(sum.came));
    if (sum.judgedTurns > 0)
        view.lines << words(
                          "Of %1 turns alone by people who share their level, %2 were easy to hear; in %3 the reading "
                          "could not be trusted.")
                          .arg(sum.judgedTurns)
                          .arg(sum.easyTurns)
                          .arg(sum.cantTellTurns);
    else
        view.lines << words("No level was shared with you in this class.");
    view.lines << (sum.calls == 0   ? words("Nobody called for help.")
                   : sum.calls == 1 ? words("One call for help.")
                                    : words("%1 calls for help.").arg(sum.calls));
    return view;
}

} // namespace vh::lead
