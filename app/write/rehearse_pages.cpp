#include "app/write/rehearse_pages.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QGridLayout>
#include <QScrollArea>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

namespace
{

QVBoxLayout* columnOf(QWidget* page)
{
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::wide);
    column->setSpacing(Space::gap);
    return column;
}

} // namespace

BeforePage::BeforePage(QWidget* parent) : QWidget(parent)
{
    auto* column = columnOf(this);
    column->addStretch(2);
    column->addWidget(plainLabel(this, "second", tr("A rehearsal of")));
    m_title = plainLabel(this, "heading");
    column->addWidget(m_title);
    m_length = plainLabel(this, "second");
    column->addWidget(m_length);
    m_rail = new ScriptRail(ScriptRail::Form::full, this);
    column->addWidget(m_rail);
    column->addSpacing(Space::gap);
    column->addWidget(plainLabel(this, nullptr,
                                 tr("The clock runs as it does in class, and every key does what it does there: Space "
                                    "goes on, W waits. Nobody hears you, and nothing leaves this computer. Read "
                                    "everything aloud, and let the people's turns pass in quiet: what you show teaches "
                                    "Voicehall your pace.")));
    m_notice = new NoticeLine(this);
    column->addWidget(m_notice);
    column->addStretch(3);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    row->addStretch();
    m_start = new BigButton(tr("Start the clock"), BigButton::Rank::main, BigButton::Size::touch, this);
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::touch, this);
    connect(m_start, &BigButton::pressRequested, this, &BeforePage::startRequested);
    connect(leave, &BigButton::pressRequested, this, &BeforePage::leaveRequested);
    row->addWidget(leave);
    row->addWidget(m_start);
    column->addLayout(row);
}

void BeforePage::setState(const State& state)
{
    m_title->setText(state.title);
    m_length->setText(state.length);
    m_rail->setState(state.rail);
    m_notice->setState(state.notice);
    m_notice->setVisible(!state.notice.words.isEmpty());
}

void BeforePage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_start->setFocus();
}

AfterPage::AfterPage(QWidget* parent) : QWidget(parent)
{
    auto* column = columnOf(this);
    m_title = plainLabel(this, "second");
    m_headline = plainLabel(this, "heading");
    column->addWidget(m_title);
    column->addWidget(m_headline);
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* inSheet = new QVBoxLayout(sheet);
    inSheet->setContentsMargins(Space::wide, Space::gap, Space::gap, Space::gap);
    m_scroll = new QScrollArea(sheet);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setAccessibleName(tr("Each part of the class"));
    m_table = new QWidget(m_scroll);
    auto* tableColumn = new QVBoxLayout(m_table);
    tableColumn->setContentsMargins(0, 0, Space::wide, 0);
    m_grid = new QGridLayout;
    m_grid->setColumnStretch(0, 2);
    m_grid->setColumnStretch(3, 1);
    m_grid->setHorizontalSpacing(Space::wide);
    m_grid->setVerticalSpacing(Space::hair);
    tableColumn->addLayout(m_grid);
    tableColumn->addStretch();
    m_scroll->setWidget(m_table);
    inSheet->addWidget(m_scroll);
    column->addWidget(sheet, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    m_pace = plainLabel(this);
    row->addWidget(m_pace, 1);
    auto* again = new BigButton(tr("Once more"), BigButton::Rank::plain, BigButton::Size::touch, this);
    m_leave = new BigButton(tr("Back to writing"), BigButton::Rank::main, BigButton::Size::touch, this);
    connect(again, &BigButton::pressRequested, this, &AfterPage::againRequested);
    connect(m_leave, &BigButton::pressRequested, this, &AfterPage::leaveRequested);
    row->addWidget(again, 0, Qt::AlignBottom);
    row->addWidget(m_leave, 0, Qt::AlignBottom);
    column->addLayout(row);
}

void AfterPage::addCell(const QString& text, int row, int column, bool head)
{
    auto* cell = plainLabel(m_table, head ? "note" : column == 0 ? nullptr : "second", text);
    const bool number = column == 1 || column == 2;
    cell->setWordWrap(!number);
    if (number)
        cell->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_grid->addWidget(cell, row, column);
}

void AfterPage::setState(const QString& title, const RehearsalResult& result)
{
    m_title->setText(tr("A rehearsal of %1 is over.").arg(title));
    m_headline->setText(result.headline);
    while (QLayoutItem* item = m_grid->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const QString heads[] = {tr("Part"), tr("planned"), tr("took"), {}};
    for (int column = 0; column < 4; ++column)
        addCell(heads[column], 0, column, true);
    int row = 1;
    for (const RehearsalRow& each : result.rows) {
        addCell(each.title, row, 0, false);
        addCell(each.planned, row, 1, false);
        addCell(each.took, row, 2, false);
        addCell(each.words, row, 3, false);
        ++row;
    }
    m_pace->setText(result.pace.join(QLatin1Char(' ')));
}

void AfterPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_leave->setFocus();
}

} // namespace vh::write
