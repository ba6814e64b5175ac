#include "app/lead/seat_panel.h"

#include "app/lead/page_parts.h"
#include "app/lead/worth_words.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QAccessible>
#include <QCoreApplication>
#include <QGridLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Look;
using look::Space;

/// The voice column, as in the hall.
class SeatPanel::Column : public QWidget
{
public:
    explicit Column(QWidget* parent) : QWidget(parent) { setFixedSize(44, 68); }
    void setRow(const SeatRow& row)
    {
        m_row = row;
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        QPainter painter(this);
        paintColumn(painter, QRectF(rect()), m_row.standing, m_row.overUsualDb, m_row.band);
    }

private:
    SeatRow m_row;
};

SeatPanel::SeatPanel(QWidget* parent) : QFrame(parent)
{
    setProperty(look::kRoleProperty, "sheet");
    setFocusPolicy(Qt::StrongFocus);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::gap, Space::hair, Space::gap, Space::hair);
    column->setSpacing(0);
    column->addWidget(makeHead());
    m_addressed = plainLabel(this, "note");
    column->addWidget(m_addressed);
    column->addStretch(1);
    column->addWidget(makeBand());
    column->addStretch(1);
    column->addWidget(makeGuest());
    column->addStretch(1);
    auto* words = new QWidget(this);
    m_grid = new QGridLayout(words);
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(0);
    m_grid->setVerticalSpacing(0);
    for (std::size_t i = 0; i < ownWords().size(); ++i) {
        BigButton* word =
            makeButton(QCoreApplication::translate("vh::lead", ownWords()[i].text), QString::number(i + 1));
        connect(word, &BigButton::pressRequested, this, [this, i] { pressWord(static_cast<int>(i)); });
        m_grid->addWidget(word, static_cast<int>(i) % 3, static_cast<int>(i) / 3);
        m_words.push_back(word);
    }
    column->addWidget(words);
    column->addStretch(1);
}

BigButton* SeatPanel::makeButton(const QString& words, const QString& key)
{
    auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, this);
    button->setKeyHint(key);
    button->setHintGivesWay();
    button->setFocusPolicy(Qt::TabFocus);
    return button;
}

QWidget* SeatPanel::makeHead()
{
    auto* head = new QWidget(this);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap);
    m_column = new Column(head);
    row->addWidget(m_column);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(0);
    m_name = new OneLine(look::Type::title, OneLine::Ink::main, head);
    m_name->setBold();
    texts->addWidget(m_name);
    m_standing = plainLabel(head);
    texts->addWidget(m_standing);
    row->addLayout(texts, 1);
    BigButton* close = makeButton(tr("Close"), tr("Esc"));
    connect(close, &BigButton::pressRequested, this, &SeatPanel::closeRequested);
    row->addWidget(close, 0, Qt::AlignTop);
    return head;
}

QWidget* SeatPanel::makeBand()
{
    auto* band = new QWidget(this);
    auto* column = new QVBoxLayout(band);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    m_band = plainLabel(band);
    column->addWidget(m_band);
    auto* row = new QHBoxLayout;
    row->setSpacing(0);
    const auto button = [&](const QString& words, const QString& key, BandMove move, const QString& whole) {
        BigButton* made = makeButton(words, key);
        made->setAccessibleName(whole);
        connect(made, &BigButton::pressRequested, this, [this, move] { emit bandRequested(move); });
        row->addWidget(made);
        return made;
    };
    m_less = button(tr("Less"), QStringLiteral("\u2212"), BandMove::askLess, tr("Ask less of this person"));
    m_more = button(tr("More"), QStringLiteral("+"), BandMove::askMore, tr("Ask more of this person"));
    m_usual = button(tr("As usual"), QStringLiteral("0"), BandMove::asUsual, tr("Ask as much as usual"));
    m_undo = button(tr("Undo"), QStringLiteral("Z"), BandMove::undo, tr("Undo the last change"));
    row->addStretch();
    column->addLayout(row);
    return band;
}

QWidget* SeatPanel::makeGuest()
{
    m_guest = new QWidget(this);
    auto* row = new QHBoxLayout(m_guest);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::small);
    m_guestPress = makeButton(tr("Ask to be heard by all"), QStringLiteral("V"));
    connect(m_guestPress, &BigButton::pressRequested, this, [this] {
        if (m_shown.guest.words.isEmpty())
            emit inviteRequested();
        else
            emit guestEndRequested();
    });
    row->addWidget(m_guestPress);
    m_guestWords = new OneLine(look::Type::note, OneLine::Ink::main, m_guest);
    m_guestWords->setBold();
    row->addWidget(m_guestWords, 1);
    return m_guest;
}

void SeatPanel::setGuest(const SeatPanelState& panel)
{
    const bool asked = !panel.guest.words.isEmpty();
    m_guest->setVisible(asked || panel.mayInvite);
    m_guestPress->setText(asked ? panel.guest.press : tr("Ask to be heard by all"));
    m_guestPress->setAccessibleName(asked ? QStringLiteral("%1: %2").arg(panel.guest.words.front(), panel.guest.press)
                                          : tr("Ask %1 whether everybody may hear them").arg(panel.row.name));
    m_guestWords->setTexts(asked ? panel.guest.words : QStringList{QString()});
}

void SeatPanel::pressWord(int shown)
{
    if (shown >= 0 && static_cast<std::size_t>(shown) < m_shown.words.size())
        emit wordRequested(m_shown.words[static_cast<std::size_t>(shown)].which);
}

void SeatPanel::setWords(const std::vector<SeatPanelState::Word>& words)
{
    for (std::size_t i = 0; i < m_words.size(); ++i) {
        const bool used = i < words.size();
        m_words[i]->setVisible(used);
        if (used && m_words[i]->text() != words[i].text)
            m_words[i]->setText(words[i].text);
        if (used)
            m_words[i]->setAccessibleName(tr("Send the private word: %1").arg(words[i].text));
    }
}

void SeatPanel::setState(const SeatPanelState& panel)
{
    const bool other = panel.seat != m_shown.seat;
    if (panel == m_shown)
        return;
    const bool news = panel.sent != m_shown.sent && !panel.sent.isEmpty();
    m_shown = panel;
    m_column->setRow(panel.row);
    m_name->setText(panel.row.name);
    const QString standing = sentenceOf(panel.row.standing, panel.row.reason);
    m_standing->setText(standing.isEmpty() ? tr("not heard alone yet") : standing);
    const bool largest = Look::current().textSize() == look::TextSize::largest; // else a reason takes two lines
    m_standing->setFont(Look::current().font(largest ? look::Type::note : look::Type::body));
    QPalette ink = m_standing->palette();
    ink.setColor(QPalette::WindowText, colourOf(panel.row.standing, Look::current().palette()));
    m_standing->setPalette(ink);
    m_addressed->setText(panel.sent.isEmpty() ? panel.addressed : panel.sent);
    m_band->setText(panel.band);
    m_less->setEnabled(panel.mayAskLess);
    m_more->setEnabled(panel.mayAskMore);
    m_usual->setEnabled(panel.mayReset);
    m_undo->setEnabled(panel.mayUndo);
    setWords(panel.words);
    setGuest(panel);
    setAccessibleName(tr("%1: %2. %3").arg(panel.row.name, m_standing->text(), panel.addressed));
    if (other || news) {
        QAccessibleEvent alert(news ? static_cast<QWidget*>(m_addressed) : this, QAccessible::Alert);
        QAccessible::updateAccessibility(&alert);
    }
}

void SeatPanel::keyPressEvent(QKeyEvent* event)
{
    const bool again = event->isAutoRepeat();
    switch (event->key()) {
    case Qt::Key_Escape:
        if (!again)
            emit closeRequested();
        return;
    case Qt::Key_Minus:
        if (!again && m_shown.mayAskLess)
            emit bandRequested(BandMove::askLess);
        return;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        if (!again && m_shown.mayAskMore)
            emit bandRequested(BandMove::askMore);
        return;
    case Qt::Key_0:
        if (!again && m_shown.mayReset)
            emit bandRequested(BandMove::asUsual);
        return;
    case Qt::Key_Z:
        if (!again && m_shown.mayUndo)
            emit bandRequested(BandMove::undo);
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        return; // the press that opened this, held or doubled, does not lead the class on
    default:
        QFrame::keyPressEvent(event); // the class's keys
    }
}

} // namespace vh::lead
