#include "app/first_room.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

namespace vh
{

namespace
{

constexpr std::size_t kMostKnown = 4;
constexpr int kColumn = 1200;
constexpr int kColumnNew = 620;       // nobody is known yet: one column in the middle
constexpr qsizetype kGroupWords = 22; // of a long name on a button

QLabel* label(const QString& words, const char* role, QWidget* parent)
{
    auto* made = new QLabel(words, parent);
    made->setTextFormat(Qt::PlainText);
    made->setWordWrap(true);
    made->setProperty(look::kRoleProperty, role);
    return made;
}

enum class Length { whole, short_ };

QString wordsFor(const link::Membership& membership, Length length)
{
    QString group = QString::fromStdString(membership.groupName);
    if (length == Length::short_ && group.size() > kGroupWords)
        group = group.left(kGroupWords - 1).trimmed() + QChar(0x2026);
    const QString name = QString::fromStdString(membership.name);
    switch (membership.role) {
    case Role::leader:
        return FirstRoom::tr("Lead %1 as %2").arg(group, name);
    case Role::moderator:
        return FirstRoom::tr("Help at %1 as %2").arg(group, name);
    case Role::standIn:
    case Role::participant:
        break;
    }
    return FirstRoom::tr("Join %1 as %2").arg(group, name);
}

} // namespace

FirstView firstViewOf(const std::vector<link::Membership>& memberships)
{
    FirstView view;
    for (const link::Membership& each : memberships)
        if (view.known.size() < kMostKnown)
            view.known.push_back({wordsFor(each, Length::short_), wordsFor(each, Length::whole)});
    return view;
}

FirstRoom::FirstRoom(QWidget* parent)
    : QWidget(parent), m_content(new QWidget(this)), m_knownBox(new QWidget(this)),
      m_known(new QVBoxLayout(m_knownBox)), m_newHere(label(tr("Something else"), "words", this))
{
    using look::Space;
    setObjectName("room"); // the look's paper
    setAttribute(Qt::WA_StyledBackground);
    auto* around = new QHBoxLayout(this);
    around->setContentsMargins(Space::margin, Space::margin, Space::margin, Space::wide);
    auto* content = m_content;
    content->setMaximumWidth(kColumnNew);
    around->addStretch(1);
    around->addWidget(content, 1000);
    around->addStretch(1);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addStretch(2);
    column->addWidget(label(tr("Welcome to Voicehall"), "question", content));
    column->addWidget(label(tr("What would you like to do?"), "words", content));
    column->addSpacing(Space::wide);
    auto* beside = new QHBoxLayout;
    beside->setSpacing(Space::margin * 2);
    m_known->setContentsMargins(0, 0, 0, 0);
    m_known->setSpacing(Space::gap);
    beside->addWidget(m_knownBox, 0, Qt::AlignTop);
    beside->addLayout(ways());
    beside->addStretch(1);
    column->addLayout(beside);
    column->addStretch(3);
    column->addWidget(label(tr("Voicehall is a practice aid, not for diagnosis or treatment decisions. Your own "
                               "clinician's advice comes first."),
                            "second", content));
    m_knownBox->hide();
    m_newHere->hide();
}

QLayout* FirstRoom::ways()
{
    auto* column = new QVBoxLayout;
    column->setSpacing(look::Space::gap);
    column->addWidget(m_newHere);
    const auto way = [&](const QString& words, void (FirstRoom::*signal)()) {
        auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::touch, this);
        connect(button, &BigButton::pressRequested, this, signal);
        column->addWidget(button);
    };
    way(tr("Join a class for the first time"), &FirstRoom::joinRequested);
    way(tr("Lead a class, with a link"), &FirstRoom::leadRequested);
    way(tr("Help at the desk, with a link"), &FirstRoom::helpRequested);
    column->addStretch(1);
    return column;
}

void FirstRoom::setState(const FirstView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    while (QLayoutItem* item = m_known->takeAt(0)) {
        if (item->widget()) {
            item->widget()->hide();
            item->widget()->deleteLater(); // it may be the one that was just pressed
        }
        delete item;
    }
    for (int i = 0; i < static_cast<int>(view.known.size()); ++i) {
        const FirstView::Known& known = view.known[static_cast<std::size_t>(i)];
        auto* button = new BigButton(known.words, i == 0 ? BigButton::Rank::main : BigButton::Rank::plain,
                                     BigButton::Size::touch, m_knownBox);
        button->setAccessibleName(known.spoken);
        connect(button, &BigButton::pressRequested, this, [this, i] { emit knownRequested(i); });
        m_known->addWidget(button);
        if (i == 0)
            button->setFocus();
    }
    m_knownBox->setVisible(!view.known.empty());
    m_newHere->setVisible(!view.known.empty());
    m_content->setMaximumWidth(view.known.empty() ? kColumnNew : kColumn);
}

} // namespace vh
