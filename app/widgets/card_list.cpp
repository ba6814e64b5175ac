#include "app/widgets/card_list.h"

#include "app/look/look.h"

#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>
#include <cmath>

namespace vh
{

using look::Look;
using look::Space;

namespace
{

constexpr int kPad = Space::gap + 4;

class CardDelegate : public QStyledItemDelegate
{
public:
    CardDelegate(const std::vector<CardList::Card>& cards, QListWidget* list)
        : QStyledItemDelegate(list), m_cards(cards), m_list(list)
    {
    }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const override
    {
        const auto* card = cardAt(index);
        const int width = m_list->viewport()->width();
        if (!card)
            return {width, 40};
        const QFontMetricsF metrics(Look::current().font(look::Type::body));
        const QRectF room(0, 0, std::max(width - 2 * kPad, 80), 1e6);
        const double text =
            card->text.isEmpty() ? 0 : metrics.boundingRect(room, Qt::TextWordWrap, card->text).height();
        const double head = card->head.isEmpty() && card->aside.isEmpty() ? 0 : metrics.height();
        return {width, static_cast<int>(std::ceil(head + text)) + 2 * Space::small + Space::small + 4};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const auto* card = cardAt(index);
        if (!card)
            return;
        const look::Palette& colours = Look::current().palette();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const QRectF sheet = QRectF(option.rect).adjusted(1.5, 1.5, -1.5, -Space::small - 0.5);
        look::paintSheet(*painter, sheet, card->quiet ? colours.quiet : colours.sheet);
        if (option.state & QStyle::State_Selected) {
            painter->setPen(QPen(colours.deep2, m_list->hasFocus() ? 3 : 2));
            painter->setBrush(Qt::NoBrush);
            painter->drawRoundedRect(sheet, Space::corner, Space::corner);
        }
        QRectF inside = sheet.adjusted(kPad, Space::small, -kPad, -Space::small);
        if (!card->head.isEmpty() || !card->aside.isEmpty())
            inside.setTop(paintHead(*painter, *card, inside));
        painter->setFont(Look::current().font(look::Type::body));
        painter->setPen(colours.ink);
        painter->drawText(inside, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, card->text);
        painter->restore();
    }

private:
    /// Returns where the text begins.
    static double paintHead(QPainter& painter, const CardList::Card& card, const QRectF& inside)
    {
        const look::Palette& colours = Look::current().palette();
        const QFont bold = Look::current().font(look::Type::body, look::Weight::bold);
        const QFontMetricsF metrics(bold);
        painter.setFont(bold);
        painter.setPen(colours.ink);
        const QFont note = Look::current().font(look::Type::note);
        const double asideWidth = card.aside.isEmpty() ? 0 : QFontMetricsF(note).horizontalAdvance(card.aside) + 10;
        const QString head = metrics.elidedText(card.head, Qt::ElideRight, inside.width() - asideWidth);
        const QRectF line(inside.left(), inside.top(), inside.width(), metrics.height());
        painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, head);
        painter.setFont(note);
        painter.setPen(colours.secondInk);
        painter.drawText(line.adjusted(metrics.horizontalAdvance(head) + 10, 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter,
                         card.aside);
        return line.bottom();
    }

    [[nodiscard]] const CardList::Card* cardAt(const QModelIndex& index) const
    {
        const auto row = static_cast<std::size_t>(index.row());
        return row < m_cards.size() ? &m_cards[row] : nullptr;
    }

    const std::vector<CardList::Card>& m_cards;
    QListWidget* m_list;
};

QString spokenOf(const CardList::Card& card)
{
    return card.head.isEmpty() ? card.text : QStringLiteral("%1: %2").arg(card.head, card.text);
}

} // namespace

CardList::CardList(Choice choice, const QString& accessibleName, QWidget* parent)
    : QListWidget(parent), m_choice(choice)
{
    setAccessibleName(accessibleName);
    setItemDelegate(new CardDelegate(m_cards, this));
    setSelectionMode(choice == Choice::one ? SingleSelection : NoSelection);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setEditTriggers(NoEditTriggers);
    setFrameShape(NoFrame);
    setStyleSheet(QStringLiteral("QListWidget, QListWidget:focus { background: transparent; border: none; }"));
}

std::uint64_t CardList::chosen() const
{
    const int row = currentRow();
    const bool is = m_choice == Choice::one && row >= 0 && row < static_cast<int>(m_cards.size());
    return is ? m_cards[static_cast<std::size_t>(row)].id : 0;
}

void CardList::setState(const std::vector<Card>& cards)
{
    if (cards == m_cards)
        return;
    const std::uint64_t before = chosen();
    const int beforeRow = currentRow();
    const auto sameIds = [&] {
        return cards.size() == m_cards.size() &&
               std::equal(cards.begin(), cards.end(), m_cards.begin(),
                          [](const Card& a, const Card& b) { return a.id == b.id && a.text == b.text; });
    };
    if (sameIds()) { // only how long ago
        m_cards = cards;
        viewport()->update();
        return;
    }
    m_cards = cards;
    while (count() > static_cast<int>(cards.size()))
        delete takeItem(count() - 1);
    while (count() < static_cast<int>(cards.size()))
        addItem(QString());
    for (int row = 0; row < count(); ++row) {
        const QString spoken = spokenOf(cards[static_cast<std::size_t>(row)]);
        if (item(row)->text() != spoken)
            item(row)->setText(spoken);
    }
    if (m_choice == Choice::one) {
        const auto found = std::find_if(cards.begin(), cards.end(),
                                        [&](const Card& card) { return before != 0 && card.id == before; });
        if (found != cards.end())
            setCurrentRow(static_cast<int>(found - cards.begin()));
        else if (before != 0 && before == m_left && !cards.empty())
            setCurrentRow(std::min(beforeRow, static_cast<int>(cards.size()) - 1));
        else
            setCurrentRow(-1);
    }
    scheduleDelayedItemsLayout();
    if (m_choice == Choice::newest) // the newest is what just happened; its place is known once it has been laid out
        QMetaObject::invokeMethod(this, &QListWidget::scrollToBottom, Qt::QueuedConnection);
}

void CardList::keyPressEvent(QKeyEvent* event)
{
    const int digit = event->key() - Qt::Key_0;
    if (digit >= 1 && digit <= 9 && !(event->modifiers() & ~Qt::KeypadModifier)) {
        if (!event->isAutoRepeat() && chosen() != 0)
            emit digitPressed(digit, chosen());
        return event->accept();
    }
    QListWidget::keyPressEvent(event);
}

void CardList::resizeEvent(QResizeEvent* event)
{
    QListWidget::resizeEvent(event);
    scheduleDelayedItemsLayout();
}

} // namespace vh
