#include "app/write/start_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"
#include "app/write/laid_out_words.h"
#include "app/write/shape_card.h"
#include "common/script/limits.h"
#include "common/script/valid.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::write
{

using look::Space;

namespace
{

constexpr std::size_t kMostEarlier = 6;

} // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent)
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    page->setSpacing(Space::small);
    auto* head = new QHBoxLayout;
    auto* title = plainLabel(this, "title", tr("A class from a theme"));
    title->setWordWrap(false);
    head->addWidget(title, 1);
    auto* leave = new BigButton(tr("Leave"), BigButton::Rank::plain, BigButton::Size::desk, this);
    connect(leave, &BigButton::pressRequested, this, &StartPage::leaveRequested);
    page->addLayout(head);
    page->addWidget(makeFields());
    m_notice = new NoticeLine(this, look::Type::note);
    page->addWidget(m_notice);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(Space::wide);
    columns->addWidget(makeShapes(), 3);
    columns->addWidget(makePreview(), 2);
    page->addLayout(columns, 1);
    head->addWidget(leave);
    setTabOrder(m_make, leave); // the way out comes last
    setState({});
}

QLineEdit* StartPage::field(const QString& words, QWidget* parent, QVBoxLayout& column)
{
    auto* label = plainLabel(parent, "second", words);
    label->setWordWrap(false);
    auto* edit = new QLineEdit(parent);
    edit->setProperty(look::kRoleProperty, "desk");
    edit->setAccessibleName(words);
    label->setBuddy(edit);
    column.addWidget(label);
    column.addWidget(edit);
    connect(edit, &QLineEdit::returnPressed, this, &StartPage::make);
    return edit;
}

QWidget* StartPage::makeFields()
{
    auto* fields = new QWidget(this);
    fields->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    auto* row = new QHBoxLayout(fields);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::wide);
    const auto column = [&](int stretch) {
        auto* made = new QVBoxLayout;
        made->setSpacing(Space::hair);
        row->addLayout(made, stretch);
        return made;
    };
    m_theme = field(tr("What is it about?"), fields, *column(3));
    m_theme->setMaxLength(static_cast<int>(limits::kMaxTitle) / 2);
    m_words = field(tr("About a dozen words that belong to it"), fields, *column(6));
    m_minutes = field(tr("Minutes"), fields, *column(1));
    m_minutes->setMaxLength(2);
    connect(m_theme, &QLineEdit::textChanged, this, &StartPage::refresh);
    connect(m_words, &QLineEdit::textChanged, this, &StartPage::refresh);
    connect(m_minutes, &QLineEdit::textChanged, this, [this] {
        drawRails();
        refresh();
    });
    return fields;
}

QWidget* StartPage::makeShapes()
{
    m_scroll = new QScrollArea(this);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setAccessibleName(tr("Shape of the class"));
    m_shapes = new QWidget(m_scroll);
    auto* column = new QVBoxLayout(m_shapes);
    column->setContentsMargins(0, 0, Space::gap, 0);
    column->setSpacing(Space::small);
    m_scroll->setWidget(m_shapes);
    return m_scroll;
}

QWidget* StartPage::makePreview()
{
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(Space::wide, Space::gap, Space::wide, Space::gap);
    column->setSpacing(Space::small);
    auto* scroll = new QScrollArea(sheet);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setAccessibleName(tr("What you get"));
    auto* inside = new QWidget(scroll);
    auto* words = new QVBoxLayout(inside);
    words->setContentsMargins(0, 0, Space::small, 0);
    words->setSpacing(Space::small);
    m_heading = plainLabel(inside, "title");
    m_length = plainLabel(inside, "second");
    m_ready = plainLabel(inside);
    m_open = plainLabel(inside);
    m_pace = plainLabel(inside, "note");
    for (QLabel* each : {m_heading, m_length, m_open, m_ready, m_pace})
        words->addWidget(each);
    words->addStretch();
    scroll->setWidget(inside);
    column->addWidget(scroll, 1);
    m_make = new BigButton(tr("Lay out this class"), BigButton::Rank::main, BigButton::Size::touch, sheet);
    m_make->setKeyHint(tr("Enter"));
    m_make->setHintGivesWay();
    connect(m_make, &BigButton::pressRequested, this, &StartPage::make);
    column->addWidget(m_make, 0, Qt::AlignRight);
    return sheet;
}

void StartPage::setState(const State& state)
{
    m_state = state;
    if (m_state.earlier.size() > kMostEarlier)
        m_state.earlier.resize(kMostEarlier);
    m_state.minutes = std::clamp(m_state.minutes, kLeastLaidOut, kMostLaidOut);
    fillShapes(); // before anything asks which one is chosen
    m_theme->clear();
    m_words->clear();
    m_minutes->setText(QString::number(m_state.minutes));
    m_notice->setState({});
    drawRails();
    refresh();
}

void StartPage::fillShapes()
{
    qDeleteAll(m_cards);
    m_cards.clear();
    auto* column = static_cast<QVBoxLayout*>(m_shapes->layout());
    while (QLayoutItem* item = column->takeAt(0))
        delete item;
    QWidget* before = m_minutes;
    const auto add = [&](const QString& title, const QString& about) {
        auto* card = new ShapeCard(title, about, m_shapes);
        connect(card, &QRadioButton::toggled, this, [this, card](bool on) {
            if (!on)
                return;
            m_scroll->ensureWidgetVisible(card, 0, Space::small);
            refresh();
        });
        column->addWidget(card);
        setTabOrder(before, card);
        before = card;
        m_cards.push_back(card);
    };
    const auto words = [](std::string_view text) {
        return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
    };
    for (int i = 0; i < kShapes; ++i)
        add(words(titleOf(static_cast<ClassShape>(i))), words(aboutOf(static_cast<ClassShape>(i))));
    for (const ClassScript& earlier : m_state.earlier)
        add(tr("As in \u201c%1\u201d").arg(QString::fromStdString(earlier.title)),
            tr("The shape of a class of yours."));
    column->addStretch();
    setTabOrder(before, m_make);
    m_cards.front()->setChecked(true);
}

std::size_t StartPage::chosen() const
{
    const auto found = std::ranges::find_if(m_cards, [](const ShapeCard* card) { return card->isChecked(); });
    return found == m_cards.end() ? 0 : static_cast<std::size_t>(found - m_cards.begin());
}

bool StartPage::minutesAreRight() const
{
    bool number = false;
    const int minutes = m_minutes->text().toInt(&number);
    return number && minutes >= kLeastLaidOut && minutes <= kMostLaidOut;
}

Theme StartPage::theme() const
{
    const QString typed = m_theme->text().simplified();
    Theme theme;
    theme.name = (typed.isEmpty() ? tr("your theme") : typed).toStdString();
    theme.words = wordsTyped(m_words->text().toStdString());
    theme.minutes = minutesAreRight() ? m_minutes->text().toInt() : m_state.minutes;
    theme.day = m_state.day;
    theme.pace = m_state.pace;
    return theme;
}

ClassScript StartPage::scriptIn(std::size_t shape) const
{
    return shape < kShapes ? vh::laidOut(static_cast<ClassShape>(shape), theme())
                           : laidOutAs(m_state.earlier[shape - kShapes], theme());
}

void StartPage::drawRails()
{
    for (std::size_t i = 0; i < m_cards.size(); ++i)
        m_cards[i]->setRail(railOf(scriptIn(i), m_state.pace));
}

QString StartPage::missing() const
{
    if (m_theme->text().simplified().isEmpty())
        return tr("Please say what it is about.");
    if (!minutesAreRight())
        return tr("A class of %1 to %2 minutes can be laid out.").arg(kLeastLaidOut).arg(kMostLaidOut);
    return {};
}

void StartPage::refresh()
{
    if (m_cards.empty())
        return;
    const ClassScript script = scriptIn(chosen());
    const auto count = wordsTyped(m_words->text().toStdString()).size();
    m_heading->setText(m_cards[chosen()]->text());
    m_length->setText(lengthWords(script, m_state.pace));
    const QString notes = count == 0   ? tr("A note at each says what would make it good.")
                          : count == 1 ? tr("A note at each says what would make it good, and takes up your word.")
                                       : tr("A note at each says what would make it good, and takes up one of your "
                                            "%1 words.")
                                             .arg(count);
    m_open->setText(tr("Left for you to write: %1. %2").arg(leftToWriteWords(script), notes));
    m_ready->setText(tr("Ready, in new words for this day: %1.").arg(readyWords(script)));
    const auto pace = wordsOf(m_state.pace); // what moves it most is enough here
    m_pace->setText(pace.empty() ? QString() : QString::fromStdString(pace.front()));
    m_pace->setVisible(!pace.empty());
    if (missing().isEmpty())
        m_notice->setState({});
    m_notice->setVisible(!m_notice->state().words.isEmpty());
}

void StartPage::make()
{
    QString trouble = missing();
    const ClassScript script = scriptIn(chosen());
    if (trouble.isEmpty())
        if (const auto fault = faultOf(script))
            trouble = tr("These words cannot stand in a class: %1.").arg(QString::fromStdString(fault->message));
    m_notice->setState({trouble, NoticeLine::Tone::heed});
    m_notice->setVisible(!trouble.isEmpty());
    if (trouble.isEmpty())
        return emit laidOut(script);
    (minutesAreRight() ? m_theme : m_minutes)->setFocus();
}

/// On a shape, too, Enter lays the class out; the fields have theirs.
void StartPage::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && !event->isAutoRepeat() && qobject_cast<ShapeCard*>(focusWidget()))
        make();
    else
        QWidget::keyPressEvent(event);
}

void StartPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_theme->setFocus();
}

} // namespace vh::write
