#include "app/help/answer_page.h"

#include "app/help/ready_replies.h"
#include "app/widgets/big_button.h"
#include "app/widgets/card_list.h"
#include "app/widgets/plain_label.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

namespace
{
constexpr int kLongest = 500; // as what people write
constexpr int kLongestReason = 200;
} // namespace

AnswerPage::AnswerPage(QWidget* parent)
    : QWidget(parent), m_title(plainLabel(this, "title")), m_note(plainLabel(this, "note")),
      m_ready(new CardList(CardList::Choice::one, tr("Ready-made answers"), this)), m_below(new QWidget(this)),
      m_line(new QLineEdit(this)),
      m_send(new BigButton(tr("Send"), BigButton::Rank::main, BigButton::Size::desk, this)),
      m_change(new BigButton(tr("Ready-made answers\u2026"), BigButton::Rank::plain, BigButton::Size::desk, this))
{
    auto* close = new BigButton(tr("Close"), BigButton::Rank::plain, BigButton::Size::desk, this);
    close->setKeyHint(tr("Esc"));
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->setSpacing(Space::small);
    page->addWidget(m_title);
    page->addWidget(m_note);
    m_line->setProperty(look::kRoleProperty, "desk");
    m_line->installEventFilter(this);
    page->addWidget(m_line);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::small);
    row->addWidget(m_send);
    row->addWidget(close);
    row->addStretch();
    page->addLayout(row);
    page->addSpacing(Space::small);
    page->addWidget(m_ready, 1);
    page->addWidget(m_below, 1);
    page->addWidget(m_change, 0, Qt::AlignLeft);
    connect(m_line, &QLineEdit::returnPressed, this, &AnswerPage::send);
    connect(m_line, &QLineEdit::textChanged, this,
            [this](const QString& text) { m_send->setEnabled(!text.trimmed().isEmpty()); });
    connect(m_send, &BigButton::pressRequested, this, &AnswerPage::send);
    connect(close, &BigButton::pressRequested, this, &AnswerPage::closeRequested);
    connect(m_change, &BigButton::pressRequested, this, &AnswerPage::repliesRequested);
    connect(m_ready, &CardList::digitPressed, this, [this](int digit) { put(digit); });
    connect(m_ready, &QListWidget::itemClicked, this, [this] { put(static_cast<int>(m_ready->chosen())); });
    connect(m_ready, &QListWidget::itemActivated, this, [this] { put(static_cast<int>(m_ready->chosen())); });
}

void AnswerPage::open(Kind kind, const About& about)
{
    keepDraft();
    m_kind = kind;
    m_about = about;
    const bool out = kind == Kind::out;
    m_title->setText(kind == Kind::toOne   ? tr("To %1 alone").arg(about.name)
                     : kind == Kind::toAll ? tr("To everybody, about what %1 wrote").arg(about.name)
                                           : tr("Out of this class: %1").arg(about.name));
    m_note->setText(
        out ? tr("What will %1 be told? The line ends with these words, and stays closed until the class is "
                 "over or you take it back.")
                  .arg(about.name)
            : tr("A digit takes a ready-made answer, while the line is empty."));
    m_line->setMaxLength(out ? kLongestReason : kLongest);
    m_line->setAccessibleName(m_title->text());
    m_line->setPlaceholderText(out ? tr("The reason") : tr("Your answer"));
    m_send->setText(out ? tr("Out") : tr("Send"));
    m_ready->setVisible(!out);
    m_below->setVisible(out);
    m_change->setVisible(!out);
    m_line->setText(m_drafts.value(draftKey()));
    m_send->setEnabled(!m_line->text().isEmpty());
    m_line->setFocus();
}

void AnswerPage::comeBack()
{
    m_line->setFocus();
}

void AnswerPage::setReplies(const QStringList& replies)
{
    m_replies = replies;
    std::vector<CardList::Card> cards;
    for (qsizetype at = 0; at < replies.size(); ++at)
        if (!replies[at].isEmpty())
            cards.push_back({static_cast<std::uint64_t>(at + 1),
                             {},
                             {},
                             QStringLiteral("%1   %2").arg(QString::number(at + 1), replies[at]),
                             false});
    m_ready->setState(cards);
}

void AnswerPage::put(int number)
{
    const QString reply = m_replies.value(number - 1);
    if (reply.isEmpty())
        return;
    m_line->setText(reply);
    m_line->setFocus();
}

/// Before the line takes a digit for text.
bool AnswerPage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_line && event->type() == QEvent::KeyPress && m_kind != Kind::out && m_line->text().isEmpty()) {
        const auto* key = static_cast<QKeyEvent*>(event); // NOLINT(cppcoreguidelines-pro-type-static-cast-downcast)
        const int digit = key->key() - Qt::Key_0;
        if (digit >= 1 && digit <= kReadyReplies && !(key->modifiers() & ~Qt::KeypadModifier) &&
            !m_replies.value(digit - 1).isEmpty()) {
            put(digit);
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void AnswerPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) {
        keepDraft();
        emit closeRequested();
        return event->accept();
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return event->accept(); // the line has had it
    QWidget::keyPressEvent(event);
}

QString AnswerPage::draftKey() const
{
    return QStringLiteral("%1/%2/%3")
        .arg(static_cast<int>(m_kind))
        .arg(m_about.item)
        .arg(QString::fromStdString(m_about.person.hex()));
}

void AnswerPage::keepDraft()
{
    if (m_line->text().trimmed().isEmpty())
        m_drafts.remove(draftKey());
    else
        m_drafts[draftKey()] = m_line->text();
}

void AnswerPage::send()
{
    const QString text = m_line->text().trimmed();
    if (text.isEmpty())
        return;
    m_line->clear();
    keepDraft();
    emit sendRequested(m_kind, m_about, text);
}

} // namespace vh::help
