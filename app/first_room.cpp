#include "app/first_room.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QLabel>
#include <QVBoxLayout>

namespace vh
{

namespace
{

constexpr std::size_t kMostKnown = 5;

QLabel* label(const QString& words, const char* role, QWidget* parent)
{
    auto* made = new QLabel(words, parent);
    made->setTextFormat(Qt::PlainText);
    made->setWordWrap(true);
    made->setProperty(look::kRoleProperty, role);
    return made;
}

QString wordsFor(const link::Membership& membership)
{
    const QString group = QString::fromStdString(membership.groupName);
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
            view.known.push_back({wordsFor(each)});
    return view;
}

FirstRoom::FirstRoom(QWidget* parent)
    : QWidget(parent), m_knownBox(new QWidget(this)), m_known(new QVBoxLayout(m_knownBox))
{
    using look::Space;
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin * 4, Space::margin, Space::margin * 4, Space::margin);
    column->setSpacing(Space::gap);
    column->addStretch(1);
    column->addWidget(label(tr("What would you like to do?"), "heading", this));
    column->addSpacing(Space::gap);
    m_known->setContentsMargins(0, 0, 0, Space::wide);
    m_known->setSpacing(Space::gap);
    column->addWidget(m_knownBox);
    const auto way = [&](const QString& words, void (FirstRoom::*signal)()) {
        auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::touch, this);
        connect(button, &BigButton::pressRequested, this, signal);
        column->addWidget(button, 0, Qt::AlignLeft);
    };
    way(tr("Join a class for the first time"), &FirstRoom::joinRequested);
    way(tr("Lead a class, with a link"), &FirstRoom::leadRequested);
    way(tr("Help at the desk, with a link"), &FirstRoom::helpRequested);
    column->addStretch(2);
    column->addWidget(label(tr("Voicehall is a practice aid, not for diagnosis or treatment decisions. Your own "
                               "clinician's advice comes first."),
                            "note", this));
}

void FirstRoom::setState(const FirstView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    while (QLayoutItem* item = m_known->takeAt(0)) {
        if (item->widget())
            item->widget()->deleteLater();
        delete item;
    }
    for (int i = 0; i < static_cast<int>(view.known.size()); ++i) {
        auto* button =
            new BigButton(view.known[static_cast<std::size_t>(i)].words,
                          i == 0 ? BigButton::Rank::main : BigButton::Rank::plain, BigButton::Size::touch, m_knownBox);
        connect(button, &BigButton::pressRequested, this, [this, i] { emit knownRequested(i); });
        m_known->addWidget(button, 0, Qt::AlignLeft);
    }
}

} // namespace vh
