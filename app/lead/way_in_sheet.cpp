#include "app/lead/way_in_sheet.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Look;
using look::Space;

namespace
{
constexpr int kCodePixels = 56;
} // namespace

WayInSheet::WayInSheet(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin, Space::small, Space::margin, Space::small);
    column->setSpacing(Space::hair);
    column->addLayout(makeCode());
    addRule(column);
    column->addLayout(makeLinks());
    column->addStretch(1);
    m_papers = new BigButton(wordsOf(PapersView::offered), BigButton::Rank::plain, BigButton::Size::desk, this);
    connect(m_papers, &BigButton::pressRequested, this, &WayInSheet::papersRequested);
    column->addWidget(m_papers, 0, Qt::AlignLeft);
}

QLabel* WayInSheet::makeHead(const QString& words)
{
    QLabel* head = plainLabel(this, "second", words);
    head->setWordWrap(false);
    return head;
}

void WayInSheet::addRule(QBoxLayout* column)
{
    auto* rule = new QFrame(this);
    rule->setProperty(look::kRoleProperty, "rule");
    rule->setFixedHeight(1);
    column->addSpacing(Space::hair);
    column->addWidget(rule);
    column->addSpacing(Space::hair);
}

QBoxLayout* WayInSheet::makeCode()
{
    auto* both = new QHBoxLayout;
    both->setSpacing(2 * Space::wide);
    const auto add = [&](QLabel* head, QLabel* words) {
        auto* one = new QVBoxLayout;
        one->setSpacing(0);
        one->addWidget(head);
        one->addWidget(words, 1);
        both->addLayout(one);
    };
    m_code = plainLabel(this);
    m_code->setWordWrap(false);
    m_code->setFont(look::fontOfPixels(kCodePixels, look::Weight::bold));
    m_code->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    add(makeHead(tr("Newcomers type this code")), m_code);
    m_wordsHead = makeHead(tr("At the door, compare these words"));
    m_words = plainLabel(this);
    m_words->setFont(Look::current().font(look::Type::title, look::Weight::bold));
    add(m_wordsHead, m_words);
    both->addStretch(1);
    return both;
}

/// One press for each of those to whom a link may be sent; the one that was asked for last stands below.
QBoxLayout* WayInSheet::makeLinks()
{
    auto* column = new QVBoxLayout;
    column->setSpacing(Space::hair);
    column->addWidget(makeHead(tr("Or send them a link. Make one for")));
    auto* row = new QHBoxLayout;
    row->setSpacing(0);
    const auto button = [&](const QString& words, Role role) {
        auto* made = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, this);
        made->setAccessibleName(role == Role::participant ? tr("A link for newcomers")
                                                          : tr("A link that works once, for: %1").arg(words));
        connect(made, &BigButton::pressRequested, this, [this, role] { press(role); });
        row->addWidget(made);
    };
    button(tr("newcomers"), Role::participant);
    button(tr("a helper"), Role::moderator);
    button(tr("a stand-in"), Role::standIn);
    button(tr("a leader"), Role::leader);
    row->addStretch(1);
    column->addLayout(row);
    m_linkWords = plainLabel(this, "note");
    column->addWidget(m_linkWords);
    m_link = new QLineEdit(this);
    m_link->setReadOnly(true);
    m_link->setAccessibleName(tr("Link"));
    m_link->setProperty(look::kRoleProperty, "desk");
    column->addWidget(m_link);
    return column;
}

QString WayInSheet::linkFor(Role role) const
{
    switch (role) {
    case Role::participant:
        return m_way.link;
    case Role::moderator:
        return m_way.helperLink;
    case Role::standIn:
        return m_way.standInLink;
    case Role::leader:
        return m_way.leaderLink;
    }
    return {};
}

void WayInSheet::press(Role role)
{
    m_for = role;
    if (role == Role::participant)
        emit copyRequested(m_way.link);
    else
        emit inviteRequested(role);
}

void WayInSheet::setState(const WayIn& way, PapersView papers)
{
    m_way = way;
    m_code->setText(way.code);
    m_words->setText(way.words);
    m_words->setVisible(!way.words.isEmpty());
    m_wordsHead->setVisible(!way.words.isEmpty());
    const QString link = linkFor(m_for);
    const QString words = link.isEmpty()               ? tr("It is put on the clipboard, to paste into a letter.")
                          : m_for == Role::participant ? tr("For newcomers; it is the same for all of them:")
                          : m_for == Role::moderator   ? tr("For a helper; it works once:")
                          : m_for == Role::standIn     ? tr("For a stand-in; it works once:")
                                                       : tr("For a leader; it works once:");
    m_linkWords->setText(words);
    m_link->setAccessibleName(words);
    if (m_link->text() != link) {
        m_link->setText(link);
        m_link->setCursorPosition(0);
    }
    m_link->setVisible(!link.isEmpty());
    m_papers->setVisible(papers != PapersView::none);
    m_papers->setText(wordsOf(papers));
}

} // namespace vh::lead
