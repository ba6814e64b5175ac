#include "app/first_room.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/hall_ornament.h"
#include "app/widgets/plain_label.h"

#include <QEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>

namespace vh
{

using look::Space;

namespace
{

constexpr int kMostShown = 6;
constexpr int kMostColumns = 3;
constexpr int kColumn = 1240;
constexpr int kBeside = 72; // of a name's control, beside the words
constexpr int kLeastName = 320;

QString doesIn(const link::Membership& membership)
{
    const QString group = QString::fromStdString(membership.groupName);
    switch (membership.role) {
    case Role::leader:
        return FirstRoom::tr("leads %1").arg(group);
    case Role::moderator:
        return FirstRoom::tr("helps at %1").arg(group);
    case Role::standIn:
    case Role::participant:
        break;
    }
    return FirstRoom::tr("joins %1").arg(group);
}

} // namespace

FirstView firstViewOf(const std::vector<link::Membership>& memberships)
{
    FirstView view;
    for (const link::Membership& each : memberships) {
        const QString name = QString::fromStdString(each.name);
        view.known.push_back({name, doesIn(each), name + ' ' + doesIn(each)});
    }
    return view;
}

FirstRoom::FirstRoom(QWidget* parent)
    : QWidget(parent), m_content(new QWidget(this)), m_heading(plainLabel(this, "question")),
      m_words(plainLabel(this, "words")), m_knownBox(new QWidget(this)), m_known(new QGridLayout(m_knownBox)),
      m_newHere(plainLabel(this, "words", tr("Somebody or something else?")))
{
    setObjectName("room"); // the look's paper
    setAttribute(Qt::WA_StyledBackground);
    auto* around = new QHBoxLayout(this);
    around->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::gap);
    m_content->setMaximumWidth(kColumn);
    around->addStretch(1);
    around->addWidget(m_content, 1000);
    around->addStretch(1);
    auto* column = new QVBoxLayout(m_content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addStretch(1);
    QLayout* const below = ways(); // first for the keyboard
    column->addLayout(head());
    column->addSpacing(Space::gap);
    m_known->setContentsMargins(0, 0, 0, 0);
    m_known->setSpacing(Space::gap);
    column->addWidget(m_knownBox, 0, Qt::AlignLeft);
    column->addSpacing(Space::small);
    column->addWidget(m_newHere);
    column->addLayout(below);
    column->addWidget(new HallOrnament(m_content), 3);
    column->addSpacing(Space::gap);
    column->addWidget(plainLabel(m_content, "second",
                                 tr("Voicehall is a practice aid, not for diagnosis or treatment decisions. Your own "
                                    "clinician's advice comes first.")));
    showKnown();
}

/// What it is about; and how it looks, which somebody with weak sight needs before anything else.
QLayout* FirstRoom::head()
{
    auto* words = new QVBoxLayout;
    words->setSpacing(Space::gap);
    words->addWidget(m_heading);
    words->addWidget(m_words);
    m_size = new BigButton(tr("Size of words"), BigButton::Rank::plain, BigButton::Size::touch, this);
    m_ground = new BigButton(tr("Background"), BigButton::Rank::plain, BigButton::Size::touch, this);
    connect(m_size, &BigButton::pressRequested, this, &FirstRoom::wordsSizeRequested);
    connect(m_ground, &BigButton::pressRequested, this, &FirstRoom::groundRequested);
    showLook();
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    row->addLayout(words, 1);
    for (BigButton* each : {m_size, m_ground}) {
        each->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
        row->addWidget(each, 0, Qt::AlignTop);
    }
    return row;
}

void FirstRoom::showLook()
{
    const look::Look& look = look::Look::current();
    const QString sizes[] = {tr("usual"), tr("larger"), tr("largest")};
    m_size->setCaption(sizes[static_cast<int>(look.textSize())]);
    m_ground->setCaption(look.ground() == look::Ground::dark ? tr("dark") : tr("light"));
}

QLayout* FirstRoom::ways()
{
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::gap);
    const auto way = [&](const QString& words, const QString& caption) {
        auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::touch, this);
        button->setCaption(caption);
        row->addWidget(button);
        return button;
    };
    m_more = new BigButton(tr("More names"), BigButton::Rank::plain, BigButton::Size::name, m_knownBox);
    m_more->setCaption(tr("of this computer"));
    connect(m_more, &BigButton::pressRequested, this, [this] {
        m_from = m_from + shownAtOnce() < m_view.known.size() ? m_from + shownAtOnce() : 0;
        showKnown();
    });
    connect(way(tr("Join a class"), tr("for the first time")), &BigButton::pressRequested, this,
            &FirstRoom::joinRequested);
    connect(way(tr("Lead a class"), tr("with a link")), &BigButton::pressRequested, this, &FirstRoom::leadRequested);
    connect(way(tr("Help at the desk"), tr("with a link")), &BigButton::pressRequested, this,
            &FirstRoom::helpRequested);
    connect(way(tr("Write a class"), tr("for any day")), &BigButton::pressRequested, this, &FirstRoom::writeRequested);
    row->addStretch(1);
    return row;
}

void FirstRoom::setState(const FirstView& view)
{
    if (view == m_view)
        return;
    m_view = view;
    m_from = 0;
    showKnown();
}

void FirstRoom::showKnown()
{
    while (QLayoutItem* item = m_known->takeAt(0)) {
        if (item->widget() && item->widget() != m_more) {
            item->widget()->hide();
            item->widget()->deleteLater(); // it may be the one that was just pressed
        }
        delete item;
    }
    m_names.clear();
    const std::size_t count = m_view.known.size();
    m_heading->setText(count == 0   ? tr("Welcome to Voicehall")
                       : count == 1 ? tr("Good to see you again")
                                    : tr("Who is here?"));
    m_words->setText(count == 0 ? tr("What would you like to do?") : tr("Please press your name."));
    for (std::size_t i = m_from; i < std::min(count, m_from + shownAtOnce()); ++i) {
        auto* button = new BigButton({}, count == 1 ? BigButton::Rank::main : BigButton::Rank::plain,
                                     BigButton::Size::name, m_knownBox);
        button->setAccessibleName(m_view.known[i].spoken);
        connect(button, &BigButton::pressRequested, this, [this, i] { emit knownRequested(static_cast<int>(i)); });
        m_names.append(button);
    }
    placeKnown();
    QWidget* before = m_knownBox; // the Tab key finds names first
    for (BigButton* name : m_names) {
        setTabOrder(before, name);
        before = name;
    }
    setTabOrder(before, m_more);
    if (!m_names.isEmpty())
        m_names.first()->setFocus();
    m_knownBox->setVisible(count > 0);
    m_newHere->setVisible(count > 0);
    m_more->setVisible(count > kMostShown);
}

/// Where there are more names than places, the last place says so.
std::size_t FirstRoom::shownAtOnce() const
{
    return m_view.known.size() > kMostShown ? kMostShown - 1 : kMostShown;
}

int FirstRoom::columns() const
{
    const int count = static_cast<int>(std::min<std::size_t>(m_view.known.size(), kMostShown));
    return count <= 1 ? 1 : count <= 4 ? 2 : kMostColumns;
}

/// All of one width; a name or a group that is too long for it is cut, and read whole by a reader.
void FirstRoom::placeKnown()
{
    const look::Look& look = look::Look::current();
    const int room = std::min(width() - 2 * Space::margin, kColumn);
    const int most = (room - (columns() - 1) * Space::gap) / columns();
    int wide = kLeastName;
    for (int i = 0; i < m_names.size(); ++i) {
        const FirstView::Known& known = m_view.known[m_from + static_cast<std::size_t>(i)];
        const QFontMetrics names(look.font(look::Type::cue));
        const QFontMetrics small(look.font(look::Type::caption));
        m_names[i]->setText(names.elidedText(known.name, Qt::ElideRight, most - kBeside));
        m_names[i]->setCaption(small.elidedText(known.does, Qt::ElideRight, most - kBeside));
        wide = std::max(wide, m_names[i]->sizeHint().width());
    }
    for (int i = 0; i < m_names.size(); ++i) {
        m_names[i]->setFixedWidth(std::min(wide, most));
        if (m_known->indexOf(m_names[i]) < 0)
            m_known->addWidget(m_names[i], i / columns(), i % columns());
    }
    m_more->setFixedWidth(std::min(wide, most));
    if (m_known->indexOf(m_more) < 0 && m_view.known.size() > kMostShown) {
        const int last = static_cast<int>(m_names.size());
        m_known->addWidget(m_more, last / columns(), last % columns());
    }
}

void FirstRoom::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange && m_size) {
        showLook();
        placeKnown();
    }
    QWidget::changeEvent(event);
}

void FirstRoom::resizeEvent(QResizeEvent* event)
{
    placeKnown();
    QWidget::resizeEvent(event);
}

} // namespace vh
