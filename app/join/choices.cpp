// The screen on which a person changes, at any time, what was agreed to and how the voice is today.
#include "app/join/join_model.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::JoinModel", source);
}

/// Results that were kept are deleted when they are not to be kept any more: until then a slip of the hand can be
/// taken back. Nothing new goes up meanwhile.
constexpr Millis kBeforeDeleting{10'000};

const char* const kVoices[] = {QT_TRANSLATE_NOOP("vh::join::JoinModel", "Fine"),
                               QT_TRANSLATE_NOOP("vh::join::JoinModel", "Hoarse or sore"),
                               QT_TRANSLATE_NOOP("vh::join::JoinModel", "Just listening")};

} // namespace

/// What means something to this person: of pictures only once one was sent. Whether to be rung is asked again with
/// whom.
bool JoinModel::isReviewed(AgreementKind kind) const
{
    if (kind == AgreementKind::pictures)
        return std::find(m_answered.begin(), m_answered.end(), kind) != m_answered.end();
    if (kind == AgreementKind::mayRing)
        return false;
    return kind != AgreementKind::otherLeaders || m_agreements.resultsKept;
}

std::vector<std::size_t> JoinModel::reviewed() const
{
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < questions().size(); ++i)
        if (isReviewed(questions()[i].kind))
            all.push_back(i);
    return all;
}

/// The answer in force; the voice of today stands in the first row, the agreements below it.
int JoinModel::pickedIn(int row) const
{
    if (row == 0)
        return static_cast<int>(m_voice);
    const Question& question = questions()[reviewed()[static_cast<std::size_t>(row - 1)]];
    for (std::size_t i = 0; i < question.answers.size(); ++i)
        if (valueOf(m_agreements, question.kind) == question.answers[i].value)
            return static_cast<int>(i);
    return -1;
}

Wishes JoinModel::pick(int row, int answer)
{
    if (m_screen != Screen::choices || row < 0 || row > static_cast<int>(reviewed().size()))
        return {};
    const int before = pickedIn(row);
    if (before == answer)
        return {};
    Wishes wishes = change(row, answer);
    if (!wishes.empty())
        m_changed = Changed{row, before};
    return wishes;
}

Wishes JoinModel::undo()
{
    if (m_screen != Screen::choices || !m_changed)
        return {};
    const Changed last = *m_changed;
    m_changed.reset();
    return change(last.row, last.before);
}

Wishes JoinModel::change(int row, int answer)
{
    if (row == 0)
        return changeToday(answer);
    const Question& question = questions()[reviewed()[static_cast<std::size_t>(row - 1)]];
    if (answer < 0 || answer >= static_cast<int>(question.answers.size()))
        return {};
    const std::string value = question.answers[static_cast<std::size_t>(answer)].value;
    setAgreement(question.kind, value);
    Wish wish{Wish::Kind::agree, question.kind, value};
    if (question.kind == AgreementKind::resultsKept && value == "no")
        wish.held = kBeforeDeleting;
    return {wish};
}

Wishes JoinModel::changeToday(int answer)
{
    if (answer < 0 || answer > static_cast<int>(wire::VoiceToday::listening))
        return {};
    const bool rested = isResting();
    m_voice = static_cast<wire::VoiceToday>(answer);
    m_saidToday = true;
    if (isResting())
        return {{Wish::Kind::today}, {Wish::Kind::stopListening}};
    if (!rested)
        return {{Wish::Kind::today}};
    if (!m_knowsMicrophone && !m_checked)
        checkAgain();
    return {{Wish::Kind::today}, {Wish::Kind::listen}};
}

void JoinModel::pressMore()
{
    if (m_screen == Screen::choices)
        m_screen = Screen::contact;
}

ChoicesView JoinModel::choicesView() const
{
    ChoicesView view;
    view.heading = tr("My choices");
    view.words = tr("One press changes it, and it holds at once.");
    view.more = tr("Where I am, and whom to ring");
    ChoicesView::Row today{tr("My voice today"), {}};
    for (const char* voice : kVoices)
        today.answers.push_back({tr(voice), false});
    view.rows.push_back(today);
    for (const std::size_t each : reviewed()) {
        const Question& question = questions()[each];
        ChoicesView::Row row{words(question.brief), {}};
        for (const Answer& answer : question.answers)
            row.answers.push_back({words(answer.brief), false});
        view.rows.push_back(row);
    }
    for (int row = 0; row < static_cast<int>(view.rows.size()); ++row)
        if (const int picked = pickedIn(row); picked >= 0)
            view.rows[static_cast<std::size_t>(row)].answers[static_cast<std::size_t>(picked)].chosen = true;
    if (m_changed && m_changed->row < static_cast<int>(view.rows.size())) {
        const ChoicesView::Row& row = view.rows[static_cast<std::size_t>(m_changed->row)];
        const int now = pickedIn(m_changed->row);
        view.words = tr("Changed. %1: %2.").arg(row.words, row.answers[static_cast<std::size_t>(now)].words);
        if (m_changed->before >= 0)
            view.undo = tr("back to: %1").arg(row.answers[static_cast<std::size_t>(m_changed->before)].words);
    }
    return view;
}

} // namespace vh::join
