#include "app/join/choices_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::join
{

using look::Space;

namespace
{

constexpr int kYesOrNo = 110;  // all such answers alike
constexpr int kWordsWide = 13; // of a row's words, in sizes of their letters

bool isLong(const ChoicesView::Row& row)
{
    return row.answers.size() > 2;
}

} // namespace

ChoicesPage::ChoicesPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "question", this)), m_words(new NoticeLine(this, look::Type::touch)),
      m_area(new QScrollArea(this)),
      m_back(new BigButton(tr("Back to the class"), BigButton::Rank::main, BigButton::Size::touch, this)),
      m_undo(new BigButton(tr("Take it back"), BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_more(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin, Space::hair, Space::margin, Space::hair);
    column->setSpacing(Space::hair);
    auto* top = new QHBoxLayout;
    top->setSpacing(Space::wide);
    m_heading->setWordWrap(false);
    top->addWidget(m_heading);
    top->addWidget(m_words, 1);
    column->addLayout(top);
    m_area->setFrameShape(QFrame::NoFrame);
    m_area->setWidgetResizable(true);
    m_area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_area->setFocusPolicy(Qt::NoFocus); // it follows the keyboard's focus by itself
    column->addWidget(m_area, 1);
    auto* foot = new QHBoxLayout;
    foot->setSpacing(Space::gap);
    foot->addWidget(m_back);
    foot->addWidget(m_more);
    foot->addStretch(1);
    foot->addWidget(m_undo);
    column->addLayout(foot);
    m_undo->setSign(look::Sign::undo);
    QSizePolicy keeps = m_undo->sizePolicy();
    keeps.setRetainSizeWhenHidden(true);
    m_undo->setSizePolicy(keeps);
    connect(m_back, &BigButton::pressRequested, this, &ChoicesPage::backRequested);
    connect(m_undo, &BigButton::pressRequested, this, &ChoicesPage::undoRequested);
    connect(m_more, &BigButton::pressRequested, this, &ChoicesPage::moreRequested);
    setFocusPolicy(Qt::TabFocus); // at first the keyboard stands on nothing that acts
}

void ChoicesPage::setState(const ChoicesView& view)
{
    if (view == m_view)
        return;
    const bool same = isSameRows(view);
    m_view = view;
    m_heading->setText(view.heading);
    m_words->setState({view.words, NoticeLine::Tone::calm});
    m_more->setText(view.more);
    if (view.undo.isEmpty() && m_undo->hasFocus())
        m_back->setFocus();
    m_undo->setVisible(!view.undo.isEmpty());
    m_undo->setCaption(view.undo);
    if (!same)
        build();
    showAnswers();
    setAccessibleName(view.heading);
}

bool ChoicesPage::isSameRows(const ChoicesView& view) const
{
    return std::equal(view.rows.begin(), view.rows.end(), m_view.rows.begin(), m_view.rows.end(),
                      [](const ChoicesView::Row& a, const ChoicesView::Row& b) {
                          return a.words == b.words && a.answers.size() == b.answers.size();
                      });
}

/// Rows with many answers have a line of their own, and so has the last one where it would share with none; of the
/// others two share one.
void ChoicesPage::build()
{
    int focusRow = -1; // a row may come or go; the keyboard stays on its row
    int focusAnswer = -1;
    for (std::size_t row = 0; row < m_answers.size(); ++row)
        for (std::size_t i = 0; i < m_answers[row].size(); ++i)
            if (m_answers[row][i]->hasFocus())
                focusRow = static_cast<int>(row), focusAnswer = static_cast<int>(i);
    m_answers.assign(m_view.rows.size(), {});
    auto* content = new QWidget;
    auto* grid = new QGridLayout(content);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(Space::margin * 2);
    grid->setVerticalSpacing(Space::gap);
    grid->setColumnStretch(0, 1);
    grid->setColumnStretch(1, 1);
    int line = 0;
    int column = 0;
    for (int row = 0; row < static_cast<int>(m_view.rows.size()); ++row) {
        const bool last = row + 1 == static_cast<int>(m_view.rows.size());
        const bool whole = isLong(m_view.rows[static_cast<std::size_t>(row)]) || (last && column == 0);
        if (whole && column == 1)
            ++line, column = 0;
        grid->addWidget(rowOf(row, last && column == 0 ? 2 * kWordsWide : kWordsWide), line, column, 1, whole ? 2 : 1);
        column = whole ? 0 : 1 - column;
        line += column == 0 ? 1 : 0;
    }
    grid->setRowStretch(line + 1, 1);
    if (QWidget* old = m_area->takeWidget()) {
        old->hide();
        old->deleteLater(); // one of its buttons may be on the stack
    }
    m_area->setWidget(content);
    if (focusRow >= 0 && focusRow < static_cast<int>(m_answers.size()))
        m_answers[static_cast<std::size_t>(focusRow)][static_cast<std::size_t>(focusAnswer)]->setFocus();
}

/// `wide`: its words at most, in sizes of their letters.
QWidget* ChoicesPage::rowOf(int row, int wide)
{
    const ChoicesView::Row& shown = m_view.rows[static_cast<std::size_t>(row)];
    auto* box = new QWidget;
    auto* line = new QHBoxLayout(box);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(Space::gap);
    auto* label = plainLabel(shown.words, "words", box);
    label->setMaximumWidth(wide * look::Look::current().pixels(look::Type::touch)); // near their answers
    line->addWidget(label, 1000);
    for (int i = 0; i < static_cast<int>(shown.answers.size()); ++i) {
        auto* button = new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, box);
        button->setMinimumWidth(kYesOrNo);
        connect(button, &BigButton::pressRequested, this, [this, row, i] { emit pickRequested(row, i); });
        line->addWidget(button);
        m_answers[static_cast<std::size_t>(row)].push_back(button);
    }
    line->addStretch(1);
    return box;
}

void ChoicesPage::showAnswers()
{
    for (std::size_t row = 0; row < m_answers.size(); ++row) {
        for (std::size_t i = 0; i < m_answers[row].size(); ++i) {
            const Choice& answer = m_view.rows[row].answers[i];
            BigButton* button = m_answers[row][i];
            button->setText(answer.words);
            button->setRank(answer.chosen ? BigButton::Rank::main : BigButton::Rank::plain);
            button->setSign(answer.chosen ? std::optional(look::Sign::tick) : std::nullopt);
            button->setAccessibleName(answer.chosen ? tr("%1: %2, as now").arg(m_view.rows[row].words, answer.words)
                                                    : tr("%1: %2").arg(m_view.rows[row].words, answer.words));
        }
    }
}

} // namespace vh::join
