#include "app/write/turns_side.h"

#include "app/widgets/cue_badge.h"
#include "app/write/flow_row.h"
#include "app/write/page_parts.h"
#include "app/write/round_score.h"
#include "common/script/limits.h"

#include <QComboBox>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

TurnsSide::TurnsSide(QWidget* parent) : QWidget(parent), m_score(new RoundScore(this)), m_dearness(new QComboBox(this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    column->addWidget(plainLabel(this, "note", tr("Arrows choose a turn; type its seconds, then Enter.")));
    column->addWidget(m_score);
    column->addLayout(buttons());
    m_dearness->addItem(tr("It belongs to the class"));
    for (int i = limits::kMinDearness; i <= limits::kMaxDearness; ++i)
        m_dearness->addItem(i == limits::kMinDearness   ? tr("May be left out: goes first (1)")
                            : i == limits::kMaxDearness ? tr("May be left out: goes last (9)")
                                                        : tr("May be left out: %1").arg(i));
    column->addWidget(labelFor(m_dearness, tr("When time is short"), this));
    column->addWidget(m_dearness);
    column->addStretch(1);
    connect(m_score, &RoundScore::editRequested, this, &TurnsSide::editRequested);
    connect(m_score, &RoundScore::secondsRequested, this, &TurnsSide::secondsRequested);
    connect(m_dearness, &QComboBox::activated, this, &TurnsSide::dearnessChosen);
}

QLayout* TurnsSide::buttons()
{
    const std::pair<RoundEdit, QString> all[] = {{RoundEdit::listen, wordsOf(TurnKind::listen)},
                                                 {RoundEdit::ready, wordsOf(TurnKind::ready)},
                                                 {RoundEdit::withMe, wordsOf(TurnKind::withMe)},
                                                 {RoundEdit::yours, wordsOf(TurnKind::yours)},
                                                 {RoundEdit::shorter, tr("Shorter")},
                                                 {RoundEdit::longer, tr("Longer")},
                                                 {RoundEdit::addTurn, tr("Add turn")},
                                                 {RoundEdit::dropTurn, tr("Drop turn")},
                                                 {RoundEdit::addRound, tr("Add round")},
                                                 {RoundEdit::dropRound, tr("Drop round")},
                                                 {RoundEdit::moreVoice, tr("More voice")},
                                                 {RoundEdit::byText, tr("Time by the text")}};
    auto* row = new FlowRow(Space::hair);
    for (const auto& [edit, words] : all) {
        auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, this);
        button->setKeyHint(RoundScore::keyOf(edit));
        button->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
        connect(button, &BigButton::pressRequested, this, [this, what = edit] { emit editRequested(what); });
        row->addWidget(button);
    }
    return row;
}

void TurnsSide::setState(const StepFields& step)
{
    m_score->setState(step.rounds);
    m_dearness->setCurrentIndex(step.dearness.value_or(0));
}

TurnSpot TurnsSide::chosen() const
{
    return m_score->chosen();
}

void TurnsSide::choose(TurnSpot at)
{
    m_score->choose(at);
}

void TurnsSide::toScore(int round)
{
    m_score->choose({round, 0});
    m_score->setFocus(Qt::OtherFocusReason);
}

} // namespace vh::write
