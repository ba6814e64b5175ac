#include "app/lead/choose_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QFrame>
#include <QGridLayout>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Space;

ChoosePage::ChoosePage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::wide);
    page->setSpacing(Space::gap);
    auto* head = new QHBoxLayout;
    auto* title = plainLabel(this, "title", tr("Which class would you like to lead?"));
    title->setWordWrap(false);
    head->addWidget(title);
    m_group = plainLabel(this, "second");
    m_group->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    head->addWidget(m_group, 1);
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::desk, this);
    connect(leave, &BigButton::pressRequested, this, &ChoosePage::leaveRequested);
    head->addWidget(leave);
    page->addLayout(head);
    m_notice = new NoticeLine(this);
    page->addWidget(m_notice);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(makeFiles(), 2);
    columns->addWidget(makeChosen(), 3);
    page->addLayout(columns, 1);
    m_files->setFocus();
}

QWidget* ChoosePage::makeFiles()
{
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    m_files = new RowList(tr("Classes"), side);
    connect(m_files, &RowList::rowRequested, this, [this](int row) {
        const int file = m_fileOf.at(static_cast<std::size_t>(row));
        if (file >= 0)
            emit fileRequested(m_shown.files[static_cast<std::size_t>(file)].path);
    });
    column->addWidget(m_files, 1);
    auto* other = new BigButton(tr("Another file\u2026"), BigButton::Rank::plain, BigButton::Size::desk, side);
    connect(other, &BigButton::pressRequested, this, &ChoosePage::otherFileRequested);
    column->addWidget(other, 0, Qt::AlignLeft);
    return side;
}

QWidget* ChoosePage::makeChosen()
{
    auto* side = new QFrame(this);
    side->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::wide);
    column->setSpacing(Space::gap);
    m_title = plainLabel(side, "heading");
    m_about = plainLabel(side, "second");
    column->addWidget(m_title);
    column->addWidget(m_about);
    m_body = new QStackedWidget(side);
    auto* scroll = new QScrollArea(m_body);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setAccessibleName(tr("What is in it"));
    m_plan = new QWidget(scroll);
    auto* planColumn = new QVBoxLayout(m_plan);
    planColumn->setContentsMargins(0, 0, Space::gap, 0);
    m_usedBox = new QFrame(m_plan);
    m_usedBox->setProperty(look::kRoleProperty, "quiet");
    auto* used = new QVBoxLayout(m_usedBox);
    used->setContentsMargins(Space::gap + 4, Space::small, Space::gap + 4, Space::small);
    m_used = plainLabel(m_usedBox, "note");
    used->addWidget(m_used);
    planColumn->addWidget(m_usedBox);
    m_planGrid = new QGridLayout;
    m_planGrid->setColumnStretch(0, 1);
    m_planGrid->setVerticalSpacing(Space::small);
    planColumn->addLayout(m_planGrid);
    planColumn->addStretch();
    scroll->setWidget(m_plan);
    m_body->addWidget(scroll);
    m_mistakes = new CardList(CardList::Choice::none, tr("What is to be mended in the file"), m_body);
    m_body->addWidget(m_mistakes);
    column->addWidget(m_body, 1);
    m_papers = new BigButton(wordsOf(PapersView::offered), BigButton::Rank::plain, BigButton::Size::touch, side);
    m_papers->keepRoomFor(wordsOf(PapersView::offered), {});
    connect(m_papers, &BigButton::pressRequested, this, &ChoosePage::papersRequested);
    m_open = new BigButton(tr("Open this class"), BigButton::Rank::main, BigButton::Size::touch, side);
    connect(m_open, &BigButton::pressRequested, this, &ChoosePage::openClassRequested);
    auto* presses = new QHBoxLayout;
    presses->setSpacing(Space::gap);
    presses->addWidget(m_papers);
    presses->addStretch(1);
    presses->addWidget(m_open);
    column->addLayout(presses);
    return side;
}

void ChoosePage::setState(const LeadView& view)
{
    m_notice->setState(view.notice);
    m_group->setText(view.groupName);
    m_papers->setVisible(view.papers != PapersView::none);
    m_papers->setText(wordsOf(view.papers));
    if (view.choice == m_shown)
        return;
    const ChoiceView before = std::exchange(m_shown, view.choice);
    if (before.files != m_shown.files || before.chosen != m_shown.chosen)
        setFiles(m_shown);
    const bool readable = !m_shown.title.isEmpty();
    const bool mistaken = !m_shown.mistakes.empty();
    if (m_shown.chosen < 0)
        m_title->setText(m_shown.files.empty() ? tr("Please open a class file.") : tr("Please choose a class."));
    else
        m_title->setText(readable ? m_shown.title : m_shown.files[static_cast<std::size_t>(m_shown.chosen)].words);
    m_about->setText(
        mistaken
            ? m_shown.mistakes.size() == 1
                  ? tr("One thing is to be mended in this file before it can be led:")
                  : tr("%1 things are to be mended in this file before it can be led:").arg(m_shown.mistakes.size())
            : m_shown.about);
    m_used->setText(m_shown.used.join(QLatin1Char('\n')));
    m_usedBox->setVisible(!m_shown.used.isEmpty());
    setPlan(m_shown);
    setMistakes(m_shown);
    m_body->setCurrentIndex(mistaken ? 1 : 0);
    m_open->setText(m_shown.opening ? tr("Opening\u2026") : tr("Open this class"));
    m_open->setEnabled(readable && !m_shown.opening);
}

void ChoosePage::setFiles(const ChoiceView& choice)
{
    RowList::State state;
    m_fileOf.clear();
    QString heading;
    for (const ClassFile& file : choice.files) {
        if (file.heading != heading && !file.heading.isEmpty()) {
            RowList::Row head;
            head.head = file.heading;
            head.heading = true;
            state.rows.push_back(head);
            m_fileOf.push_back(-1);
        }
        heading = file.heading;
        if (static_cast<int>(&file - choice.files.data()) == choice.chosen)
            state.chosen = static_cast<int>(state.rows.size());
        m_fileOf.push_back(static_cast<int>(&file - choice.files.data()));
        RowList::Row row;
        row.head = file.words;
        row.below = file.about;
        state.rows.push_back(row);
    }
    m_files->setState(state);
}

void ChoosePage::setPlan(const ChoiceView& choice)
{
    while (QLayoutItem* item = m_planGrid->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (int row = 0; row < choice.sections.size(); ++row) {
        m_planGrid->addWidget(plainLabel(m_plan, nullptr, choice.sections[row]), row, 0);
        auto* length = plainLabel(m_plan, "second", choice.minutes.value(row));
        length->setWordWrap(false);
        length->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
        m_planGrid->addWidget(length, row, 1);
    }
}

void ChoosePage::setMistakes(const ChoiceView& choice)
{
    std::vector<CardList::Card> cards;
    for (const ScriptMistake& each : choice.mistakes)
        cards.push_back({cards.size() + 1, each.where, {}, each.message + QLatin1Char('\n') + each.remedy, false});
    m_mistakes->setState(cards);
}

} // namespace vh::lead
