#include "app/join/ask_page.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::join
{

namespace
{

constexpr int kColumn = 900;        // a line that is easy to read
constexpr int kColumnLong = 1240;   // two columns of answers
constexpr int kColumnBeside = 1240; // answers, and the cautions beside them
constexpr int kAnswersWidth = 460;  // all answers alike

} // namespace

QLabel* plainLabel(const QString& words, const char* role, QWidget* parent)
{
    auto* label = new QLabel(words, parent);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setProperty(look::kRoleProperty, role);
    return label;
}

AskPage::AskPage(QWidget* parent) : QWidget(parent), m_area(new QScrollArea(this))
{
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    m_area->setFrameShape(QFrame::NoFrame);
    m_area->setWidgetResizable(true);
    m_area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_area->setFocusPolicy(Qt::NoFocus); // it follows the keyboard's focus by itself
    whole->addWidget(m_area);
}

void AskPage::setState(const AskView& view)
{
    if (m_built && view == m_view)
        return;
    AskView sameButNotice = view;
    sameButNotice.notice = m_view.notice;
    const bool same = m_built && sameButNotice == m_view;
    m_view = view;
    if (same) {
        sayWords();
    } else {
        build();
    }
}

void AskPage::build()
{
    using look::Space;
    m_built = true;
    m_fields.clear();
    auto* around = new QWidget;
    around->setFocusPolicy(Qt::TabFocus);
    auto* row = new QHBoxLayout(around);
    row->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    auto* content = new QWidget(around);
    content->setMaximumWidth(isLong() ? kColumnLong : m_view.cautions.isEmpty() ? kColumn : kColumnBeside);
    row->addStretch(1);
    row->addWidget(content, 1000); // as wide as it may be, in the middle
    row->addStretch(1);

    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addStretch(2);
    column->addWidget(plainLabel(m_view.heading, "question", content));
    m_words = plainLabel({}, "words", content);
    column->addWidget(m_words);
    sayWords();
    const int apart = m_view.fields.empty() ? int(Space::gap) : 0; // fields need the room
    column->addSpacing(apart);
    addFields(*column);
    column->addSpacing(apart);
    if (m_view.cautions.isEmpty()) {
        column->addLayout(answers());
    } else {
        auto* beside = new QHBoxLayout;
        beside->setSpacing(Space::margin);
        beside->addLayout(answers());
        beside->addWidget(cautions(content), 1, Qt::AlignTop);
        column->addLayout(beside);
    }
    column->addStretch(3);

    if (QWidget* old = m_area->takeWidget()) {
        old->hide();
        old->deleteLater(); // one of its buttons may be on the stack
    }
    m_area->setWidget(around);
    setAccessibleName(m_view.heading);
    focusFirst();
}

/// What was wrong stands where the explanation stood: nothing moves, and there is one thing to read.
void AskPage::sayWords()
{
    const QString& words = m_view.notice.isEmpty() ? m_view.words : m_view.notice;
    m_words->setText(words);
    m_words->setVisible(!words.isEmpty());
}

void AskPage::addFields(QVBoxLayout& column)
{
    for (const Field& field : m_view.fields) {
        auto* label = plainLabel(field.label, "words", column.parentWidget());
        auto* edit = new QLineEdit(field.value, column.parentWidget());
        edit->setMaxLength(field.most);
        edit->setMinimumHeight(look::Space::touch);
        edit->setPlaceholderText(field.hint);
        edit->setAccessibleName(field.label);
        label->setBuddy(edit);
        connect(edit, &QLineEdit::returnPressed, this, &AskPage::submit);
        auto* pair = new QVBoxLayout;
        pair->setSpacing(look::Space::hair);
        pair->addWidget(label);
        pair->addWidget(edit);
        column.addLayout(pair);
        m_fields.append(edit);
    }
}

bool AskPage::isLong() const
{
    return m_view.fields.empty() && m_view.choices.size() > 4;
}

/// One below the other, all of one width; with fields, one row.
QLayout* AskPage::answers()
{
    using look::Space;
    const bool inRow = !m_view.fields.empty();
    auto* box = inRow ? static_cast<QBoxLayout*>(new QHBoxLayout) : new QVBoxLayout;
    box->setSpacing(Space::gap);
    QGridLayout* grid = nullptr; // two beside each other, where one column would be too high
    if (isLong()) {
        grid = new QGridLayout;
        grid->setSpacing(Space::gap);
        box->addLayout(grid);
    }
    const auto add = [&](const QString& words, BigButton::Rank rank) {
        auto* button = new BigButton(words, rank, BigButton::Size::touch);
        if (!inRow)
            button->setMinimumWidth(kAnswersWidth);
        if (grid)
            grid->addWidget(button, grid->count() / 2, grid->count() % 2);
        else
            box->addWidget(button);
        return button;
    };
    for (int i = 0; i < static_cast<int>(m_view.choices.size()); ++i) {
        const Choice& choice = m_view.choices[static_cast<std::size_t>(i)];
        const bool main = choice.chosen || m_view.choices.size() == 1;
        auto* button = add(choice.chosen ? tr("%1 (as now)").arg(choice.words) : choice.words,
                           main ? BigButton::Rank::main : BigButton::Rank::plain);
        connect(button, &BigButton::pressRequested, this, [this, i] {
            if (m_fields.isEmpty())
                emit choiceRequested(i);
            else
                submit();
        });
    }
    grid = nullptr;
    if (m_view.canGoBack) {
        if (!inRow)
            box->addSpacing(Space::gap);
        auto* back = add(tr("Back"), BigButton::Rank::plain);
        if (!inRow) {
            back->setMinimumWidth(0);
            box->setAlignment(back, Qt::AlignLeft);
        }
        connect(back, &BigButton::pressRequested, this, &AskPage::backRequested);
    }
    box->addStretch(1);
    if (inRow)
        return box;
    auto* left = new QHBoxLayout;
    left->addLayout(box);
    if (m_view.cautions.isEmpty())
        left->addStretch(1);
    return left;
}

QWidget* AskPage::cautions(QWidget* parent)
{
    using look::Space;
    auto* frame = new QFrame(parent);
    frame->setProperty(look::kRoleProperty, "quiet");
    auto* column = new QVBoxLayout(frame);
    column->setContentsMargins(Space::wide, Space::wide, Space::wide, Space::wide);
    column->setSpacing(Space::gap);
    for (const QString& caution : m_view.cautions)
        column->addWidget(plainLabel(caution, "words", frame));
    return frame;
}

void AskPage::focusFirst()
{
    if (!m_fields.isEmpty()) {
        const auto empty = std::find_if(m_fields.begin(), m_fields.end(),
                                        [](const QLineEdit* edit) { return edit->text().isEmpty(); });
        (empty == m_fields.end() ? m_fields.first() : *empty)->setFocus();
        return;
    }
    const auto buttons = m_area->widget()->findChildren<BigButton*>();
    if (m_view.startsOnFirst && !buttons.isEmpty())
        buttons.first()->setFocus();
    else
        m_area->widget()->setFocus();
}

void AskPage::submit()
{
    QStringList texts;
    for (const QLineEdit* edit : m_fields)
        texts.append(edit->text());
    emit submitRequested(texts);
}

} // namespace vh::join
