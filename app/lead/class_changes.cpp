#include "app/lead/class_changes.h"

#include "app/lead/lead_words.h"
#include "common/script/marks.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace vh::lead
{

namespace
{

using Sheet = ChangesView::Sheet;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::lead::ClassChanges", text);
}

QString titleOf(const ClassScript& script, StepAt at)
{
    return QString::fromStdString(script.sections[at.section].title);
}

StepRow::When whenOf(const ClassState& state, StepAt at)
{
    if (isLeftOut(state.leftOut, at))
        return StepRow::When::leftOut;
    const StepAt here = stepOf(state.place);
    return at == here ? StepRow::When::now : at < here ? StepRow::When::past : StepRow::When::coming;
}

StepRow rowOf(const ClassScript& script, const ClassState& state, StepAt at, const Step& step)
{
    StepRow row;
    row.at = at;
    row.words = lineOf(script.sections[at.section], step);
    row.when = whenOf(state, at);
    row.beside = row.when == StepRow::When::now       ? words("now")
                 : row.when == StepRow::When::leftOut ? words("left out")
                                                      : leftWords(plannedLength(step));
    return row;
}

std::vector<StepRow> rowsOf(const ClassScript& script, const ClassState& state)
{
    std::vector<StepRow> rows;
    for (std::size_t section = 0; section < script.sections.size(); ++section) {
        StepAt at{static_cast<std::uint16_t>(section), 0};
        for (; const Step* step = stepAt(script, at); ++at.step) {
            rows.push_back(rowOf(script, state, at, *step));
            if (at.step == 0)
                rows.back().section = titleOf(script, at);
        }
    }
    return rows;
}

/// "one step", "three steps".
QString stepsWords(std::size_t count)
{
    return count == 1 ? words("one step") : words("%1 steps").arg(countWord(static_cast<int>(count)));
}

QString headlineOf(const Trim& trim)
{
    if (trim.behind <= kOnTime)
        return words("The class ends on time as it is. Nothing has to be left out.");
    const QString behind = words("The class is %1 behind its plan.").arg(lengthWords(trim.behind));
    if (trim.steps.empty())
        return behind + QLatin1Char(' ') + words("No step that still comes may be left out.");
    const QString these = trim.steps.size() == 1 ? words("Without this step")
                                                 : words("Without these %1").arg(stepsWords(trim.steps.size()));
    if (trim.endsOnTime)
        return words("%1 %2, %3 in all, it ends on time.").arg(behind, these, lengthWords(trim.saved));
    return words("%1 %2, %3 in all, it still ends %4 late; no other step may be left out.")
        .arg(behind, these, lengthWords(trim.saved), lengthWords(trim.stillBehind()));
}

TrimView trimView(const Trim& trim, const ClassScript& script, const ClassState& state)
{
    TrimView view;
    view.headline = headlineOf(trim);
    for (const StepAt at : trim.steps)
        if (const Step* step = stepAt(script, at)) {
            view.rows.push_back(rowOf(script, state, at, *step));
            view.rows.back().section = titleOf(script, at);
            view.rows.back().beside = leftWords(plannedLength(*step));
        }
    if (!view.rows.empty())
        view.agree = view.rows.size() == 1 ? words("Leave it out") : words("Leave them out");
    if (const std::size_t count = leftOutToCome(state).size(); count > 0)
        view.already = words("Left out already, and still to come: %1.").arg(stepsWords(count));
    return view;
}

} // namespace

LeftOut leftOutToCome(const ClassState& state)
{
    LeftOut coming;
    std::ranges::copy_if(state.leftOut, std::back_inserter(coming),
                         [&](StepAt at) { return at > stepOf(state.place); });
    return coming;
}

void ClassChanges::open(Sheet sheet)
{
    m_sheet = sheet;
    ++m_opened;
    m_fault.clear();
    m_sending = false;
}

void ClassChanges::showSteps(StepAt wanted)
{
    open(Sheet::steps);
    m_at = wanted;
}

void ClassChanges::showTrim(const Now& now)
{
    open(Sheet::trim);
    m_trim = trimToFit(now.script, now.state, now.time);
}

void ClassChanges::showText(StepAt at)
{
    open(Sheet::text);
    m_at = at;
}

void ClassChanges::follow(const Now& now)
{
    const bool gone = std::ranges::any_of(m_trim.steps, [&](StepAt at) {
        const Step* step = stepAt(now.script, at);
        return !step || !step->optionalDearness || whenOf(now.state, at) != StepRow::When::coming;
    });
    if (m_sheet == Sheet::trim && gone)
        m_trim = trimToFit(now.script, now.state, now.time);
    if (m_sheet == Sheet::text && !stepAt(now.script, m_at))
        close();
}

LeftOut ClassChanges::agreed(const ClassState& state) const
{
    LeftOut all = leftOutToCome(state);
    all.insert(all.end(), m_trim.steps.begin(), m_trim.steps.end());
    return all;
}

ChangesView ClassChanges::view(const Now& now, bool mayCorrect, bool hasFile) const
{
    ChangesView view;
    view.sheet = m_sheet;
    view.opened = m_opened;
    view.mayCorrect = mayCorrect;
    view.wanted = m_at;
    if (m_sheet == Sheet::steps)
        view.steps = rowsOf(now.script, now.state);
    if (m_sheet == Sheet::trim)
        view.trim = trimView(m_trim, now.script, now.state);
    const Step* step = stepAt(now.script, m_at);
    if (m_sheet == Sheet::text && step) {
        view.text.at = m_at;
        view.text.where = words("%1, step %2 of %3")
                              .arg(titleOf(now.script, m_at))
                              .arg(m_at.step + 1)
                              .arg(now.script.sections[m_at.section].steps.size());
        view.text.text = QString::fromStdString(writeMarks(step->text, step->stretches));
        view.text.fault = m_fault;
        view.text.sending = m_sending;
        view.text.fromFile = hasFile;
    }
    return view;
}

} // namespace vh::lead
