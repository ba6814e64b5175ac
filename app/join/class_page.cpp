#include "app/join/class_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

namespace vh::join
{

ClassPage::ClassPage(QWidget* parent)
    : QWidget(parent), m_title(plainLabel({}, "second", this)), m_rail(new ScriptRail(ScriptRail::Form::slim, this)),
      m_others(plainLabel({}, "second", this)), m_sheet(new ClassSheet(this)), m_meter(new VoiceMeter(this)),
      m_notice(new NoticeLine(this)), m_helpWords(plainLabel({}, "note", this)),
      m_sharing(plainLabel({}, "note", this)),
      m_private(new BigButton(tr("Keep it private"), BigButton::Rank::plain, BigButton::Size::touch, this))
{
    using look::Space;
    for (QLabel* label : {m_title, m_others, m_helpWords, m_sharing})
        label->setWordWrap(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin, Space::small, Space::margin, Space::gap);
    column->setSpacing(Space::small);

    auto* head = new QHBoxLayout;
    head->setSpacing(Space::wide);
    head->addWidget(m_title);
    m_rail->setFixedWidth(260);
    head->addWidget(m_rail);
    head->addStretch(1);
    head->addWidget(m_others);
    column->addLayout(head);

    column->addWidget(m_sheet, 1);
    column->addWidget(m_meter);
    QSizePolicy keepsPlace = m_meter->sizePolicy();
    keepsPlace.setRetainSizeWhenHidden(true);
    m_meter->setSizePolicy(keepsPlace);
    column->addWidget(m_notice);

    const auto button = [&](const QString& words, BigButton::Rank rank, void (ClassPage::*signal)()) {
        auto* made = new BigButton(words, rank, BigButton::Size::touch, this);
        connect(made, &BigButton::pressRequested, this, signal);
        return made;
    };
    auto* controls = new QHBoxLayout;
    controls->setSpacing(Space::gap);
    controls->addWidget(button(tr("I need help"), BigButton::Rank::main, &ClassPage::helpRequested));
    controls->addWidget(button(tr("Write"), BigButton::Rank::plain, &ClassPage::writeRequested));
    controls->addWidget(button(tr("What I agreed to"), BigButton::Rank::plain, &ClassPage::agreementsRequested));
    controls->addWidget(button(tr("Leave"), BigButton::Rank::plain, &ClassPage::leaveRequested));
    controls->addStretch(1);
    connect(m_private, &BigButton::pressRequested, this, &ClassPage::privateRequested);
    controls->addWidget(m_private);
    column->addLayout(controls);

    auto* foot = new QHBoxLayout;
    foot->addWidget(m_helpWords);
    foot->addStretch(1);
    foot->addWidget(m_sharing);
    column->addLayout(foot);
}

void ClassPage::setState(const ClassView& view)
{
    m_title->setText(view.title);
    m_others->setText(view.others);
    m_rail->setState(view.rail);
    m_sheet->setState(view.sheet);
    m_meter->setVisible(view.showMeter);
    m_meter->setState(view.meter);
    m_notice->setState(view.notice);
    m_helpWords->setText(view.helpWords);
    m_sharing->setText(view.sharing);
    m_private->setText(view.isPrivate ? tr("Show the leader") : tr("Keep it private"));
}

} // namespace vh::join
