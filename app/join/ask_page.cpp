#include "app/join/ask_page.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::join
{

namespace
{
constexpr int kColumnWidth = 900;
constexpr int kFieldLength = 500;
} // namespace

QLabel* plainLabel(const QString& words, const char* role, QWidget* parent)
{
    auto* label = new QLabel(words, parent);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setProperty(look::kRoleProperty, role);
    return label;
}

AskPage::AskPage(QWidget* parent) : QWidget(parent), m_layout(new QVBoxLayout(this))
{
    m_layout->setContentsMargins(look::Space::margin, look::Space::margin, look::Space::margin, look::Space::margin);
}

void AskPage::setState(const AskView& view)
{
    if (m_built && view == m_view)
        return;
    AskView sameButNotice = view;
    sameButNotice.notice = m_view.notice;
    if (m_built && sameButNotice == m_view) {
        m_notice->setText(view.notice);
        m_notice->setVisible(!view.notice.isEmpty());
    } else {
        build(view);
    }
    m_view = view;
}

void AskPage::build(const AskView& view)
{
    if (m_content) {
        m_layout->removeWidget(m_content);
        m_content->hide();
        m_content->deleteLater(); // one of its buttons may be on the stack
    }
    m_fields.clear();
    m_built = true;
    m_content = new QWidget(this);
    m_content->setMaximumWidth(kColumnWidth);
    auto* column = new QVBoxLayout(m_content);
    column->setSpacing(look::Space::gap);
    column->setContentsMargins(0, 0, 0, 0);
    column->addStretch(1);
    column->addWidget(plainLabel(view.heading, "heading", m_content));
    if (!view.words.isEmpty())
        column->addWidget(plainLabel(view.words, "", m_content));
    column->addSpacing(look::Space::gap);
    for (const Field& field : view.fields) {
        auto* label = plainLabel(field.label, "", m_content);
        auto* edit = new QLineEdit(field.value, m_content);
        edit->setMaxLength(kFieldLength);
        edit->setMinimumHeight(look::Space::touch);
        edit->setPlaceholderText(field.hint);
        edit->setAccessibleName(field.label);
        label->setBuddy(edit);
        connect(edit, &QLineEdit::returnPressed, this, &AskPage::submit);
        column->addWidget(label);
        column->addWidget(edit);
        m_fields.append(edit);
    }
    m_notice = plainLabel(view.notice, "note", m_content);
    m_notice->setVisible(!view.notice.isEmpty());
    column->addWidget(m_notice);
    column->addSpacing(look::Space::gap);

    auto* answers = new QWidget(m_content);
    QBoxLayout* row = view.fields.empty() ? static_cast<QBoxLayout*>(new QVBoxLayout(answers))
                                          : static_cast<QBoxLayout*>(new QHBoxLayout(answers));
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(look::Space::gap);
    const bool oneChosen =
        std::any_of(view.choices.begin(), view.choices.end(), [](const Choice& each) { return each.chosen; });
    for (int i = 0; i < static_cast<int>(view.choices.size()); ++i) {
        const Choice& choice = view.choices[static_cast<std::size_t>(i)];
        const bool main = choice.chosen || (!oneChosen && i == 0 && view.choices.size() == 1);
        auto* button =
            new BigButton(choice.chosen ? tr("%1 (as now)").arg(choice.words) : choice.words,
                          main ? BigButton::Rank::main : BigButton::Rank::plain, BigButton::Size::touch, answers);
        connect(button, &BigButton::pressRequested, this, [this, i] {
            if (m_fields.isEmpty())
                emit choiceRequested(i);
            else
                submit();
        });
        row->addWidget(button, 0, Qt::AlignLeft);
    }
    if (view.canGoBack) {
        auto* back = new BigButton(tr("Back"), BigButton::Rank::plain, BigButton::Size::touch, answers);
        connect(back, &BigButton::pressRequested, this, &AskPage::backRequested);
        if (view.fields.empty())
            row->addSpacing(look::Space::gap);
        row->addWidget(back, 0, Qt::AlignLeft);
    }
    if (!view.fields.empty())
        row->addStretch(1);
    column->addWidget(answers);
    if (!view.cautions.isEmpty()) {
        column->addSpacing(look::Space::wide);
        for (const QString& caution : view.cautions)
            column->addWidget(plainLabel(caution, "note", m_content));
    }
    column->addStretch(2);
    m_layout->addWidget(m_content, 1, Qt::AlignHCenter);
    m_content->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    m_content->setMinimumWidth(std::min(kColumnWidth, 640));
    if (!m_fields.isEmpty())
        m_fields.first()->setFocus();
    setAccessibleName(view.heading);
}

void AskPage::submit()
{
    QStringList texts;
    for (const QLineEdit* edit : m_fields)
        texts.append(edit->text());
    emit submitRequested(texts);
}

} // namespace vh::join
