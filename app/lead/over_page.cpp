#include "app/lead/over_page.h"

#include "app/lead/clinician_strip.h"
#include "app/lead/desk_sheet.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_ornament.h"
#include "app/widgets/plain_label.h"

#include <QScrollArea>
#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Space;

OverPage::OverPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::wide);
    page->setSpacing(Space::gap);
    m_title = plainLabel(this, "title");
    page->addWidget(m_title);
    m_notice = new NoticeLine(this);
    page->addWidget(m_notice);
    m_calls = new CallList(this);
    connect(m_calls, &CallList::takeRequested, this, &OverPage::callTakeRequested);
    connect(m_calls, &CallList::doneRequested, this, &OverPage::callDoneRequested);
    page->addWidget(m_calls);
    m_clinician = new ClinicianStrip(this);
    m_clinician->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(m_clinician, &ClinicianStrip::takeRequested, this, [this](quint64 item) {
        emit deskRequested({DeskRequest::Kind::take, item});
    });
    page->addWidget(m_clinician);
    auto* take = new QShortcut(QKeySequence(Qt::Key_N), this);
    take->setAutoRepeat(false);
    connect(take, &QShortcut::activated, m_clinician, &ClinicianStrip::press);
    m_pages = new QStackedLayout;
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(2 * Space::wide, Space::wide, 2 * Space::wide, Space::gap);
    column->setSpacing(Space::gap);
    m_headline = plainLabel(sheet, "heading");
    m_lines = plainLabel(sheet);
    m_lines->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    auto* inside = new QWidget;
    auto* text = new QVBoxLayout(inside);
    text->setContentsMargins(0, 0, 0, 0);
    text->setSpacing(Space::gap);
    text->addWidget(m_headline);
    text->addWidget(m_lines);
    text->addStretch(1);
    auto* scroll = new QScrollArea(sheet); // in the largest type, under what needs a clinician
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidget(inside);
    column->addWidget(scroll, 3);
    column->addWidget(new HallOrnament(sheet), 1);
    m_summary = sheet;
    m_pages->addWidget(sheet);
    m_deskSheet = new DeskSheet(this);
    connect(m_deskSheet, &DeskSheet::deskRequested, this, &OverPage::deskRequested);
    connect(m_deskSheet, &DeskSheet::closed, this, [this] { setFocus(); });
    m_pages->addWidget(m_deskSheet);
    page->addLayout(m_pages, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    m_acts = new BigButton(tr("What was done at the desk"), BigButton::Rank::plain, BigButton::Size::touch, this);
    connect(m_acts, &BigButton::pressRequested, this, [this] { emit deskRequested({DeskRequest::Kind::showActs}); });
    row->addWidget(m_acts);
    row->addStretch();
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::touch, this);
    m_another = new BigButton(tr("Another class"), BigButton::Rank::main, BigButton::Size::touch, this);
    connect(leave, &BigButton::pressRequested, this, &OverPage::leaveRequested);
    connect(m_another, &BigButton::pressRequested, this, &OverPage::anotherClassRequested);
    row->addWidget(leave);
    row->addWidget(m_another);
    page->addLayout(row);
    setFocusPolicy(Qt::StrongFocus);
}

void OverPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    setFocus();
}

void OverPage::setState(const LeadView& view)
{
    m_title->setText(view.title);
    m_notice->setState(view.notice);
    m_calls->setState(view.calls);
    const bool leads = view.role == Role::leader;
    m_clinician->setState(leads ? view.desk.clinician : std::vector<DeskLine>{});
    m_acts->setVisible(leads);
    const bool acts = leads && view.desk.sheet != DeskNewsView::Sheet::none;
    if (acts)
        m_pages->setCurrentWidget(m_deskSheet);
    m_deskSheet->setState(leads ? view.desk : DeskNewsView{});
    if (!acts)
        m_pages->setCurrentWidget(m_summary);
    m_headline->setText(view.summary.headline);
    m_lines->setText(view.summary.lines.join(QStringLiteral("\n\n")));
    m_another->setVisible(view.role == Role::leader);
}

} // namespace vh::lead
