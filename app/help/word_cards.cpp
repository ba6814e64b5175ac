#include "app/help/word_cards.h"

#include "app/look/look.h"
#include "app/people/ago.h"

#include <QAbstractItemView>
#include <QPainter>
#include <QScrollBar>
#include <QTextLayout>

#include <cmath>

namespace vh::help
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr int kPad = Space::gap + 4;
constexpr int kBetween = 10; // name, time, state

/// The words in lines of this width, from (0, 0) downwards; a word longer than a line is broken. Returns their height.
double layOut(QTextLayout& layout, double width)
{
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    double y = 0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        line.setPosition({0, y});
        y += line.height();
    }
    layout.endLayout();
    return y;
}

/// As Qt lays out: lines are parted by this sign.
QString inLines(QString text)
{
    return text.replace(QLatin1Char('\n'), QChar::LineSeparator);
}

const WordsModel& modelOf(const QModelIndex& index)
{
    return *static_cast<const WordsModel*>(index.model());
}

const WordRow& rowOf(const QModelIndex& index)
{
    return modelOf(index).rows()[static_cast<std::size_t>(index.row())];
}

} // namespace

WordCards::WordCards(Settled settled, QAbstractItemView* list)
    : QStyledItemDelegate(list), m_settled(settled), m_list(list)
{
}

bool WordCards::standsBack(const WordRow& row) const
{
    return m_settled == Settled::standsBack && isSettled(row);
}

QSize WordCards::sizeHint(const QStyleOptionViewItem& /*option*/, const QModelIndex& index) const
{
    const int width = cardWidth();
    const WordRow& row = rowOf(index);
    auto [found, isNew] = m_heights.try_emplace(row.item, 0);
    if (isNew)
        found->second = heightOf(row, width);
    return {width, found->second};
}

/// Whether there is a scroll bar or not.
int WordCards::cardWidth() const
{
    return m_list->width() - m_list->verticalScrollBar()->sizeHint().width();
}

int WordCards::heightOf(const WordRow& row, int width) const
{
    const QFont body = Look::current().font(Type::body);
    const int beside = row.isPicture ? kPicture.width() + Space::gap : 0;
    QTextLayout layout(inLines(row.text), body);
    double text = row.text.isEmpty() ? 0 : layOut(layout, std::max(width - 2 * kPad - 3 - beside, 80));
    if (row.isPicture)
        text = std::max<double>(text, kPicture.height() + Space::hair);
    return static_cast<int>(std::ceil(QFontMetricsF(body).height() + text)) + 3 * Space::small + 4;
}

void WordCards::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    const WordsModel& words = modelOf(index);
    const WordRow& row = rowOf(index);
    const look::Palette& colours = Look::current().palette();
    const bool back = standsBack(row);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const QRectF sheet = QRectF(option.rect.left(), option.rect.top(), cardWidth(), option.rect.height())
                             .adjusted(1.5, 1.5, -1.5, -Space::small - 0.5);
    look::paintSheet(*painter, sheet, back ? colours.paper : row.isNotice ? colours.quiet : colours.sheet);
    if (option.state & QStyle::State_Selected) {
        painter->setPen(QPen(colours.deep2, m_list->hasFocus() ? 3 : 1.5));
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(sheet, Space::corner, Space::corner);
    }
    QRectF inside = sheet.adjusted(kPad, Space::small, -kPad, -Space::small);
    const QFont body = Look::current().font(Type::body);
    const double head = QFontMetricsF(body).height();
    paintHead(*painter, row, words, QRectF(inside.left(), inside.top(), inside.width(), head));
    inside.setTop(inside.top() + head);
    if (row.isPicture) {
        const QRectF box(inside.left(), inside.top() + Space::hair, kPicture.width(), kPicture.height());
        painter->fillRect(box, colours.quiet);
        const QSizeF size = QSizeF(row.picture.size()).scaled(box.size(), Qt::KeepAspectRatio);
        if (!row.picture.isNull())
            painter->drawImage(QRectF(box.center() - QPointF(size.width() / 2, size.height() / 2), size), row.picture);
        painter->setPen(QPen(colours.dashes, 1));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(box);
        inside.setLeft(box.right() + Space::gap);
    }
    painter->setPen(back ? colours.secondInk : colours.ink);
    QTextLayout layout(inLines(row.text), body);
    layOut(layout, std::max(inside.width(), 80.0));
    layout.draw(painter, inside.topLeft());
    painter->restore();
}

/// The name gives way to what has become of the line, and the time to both.
void WordCards::paintHead(QPainter& painter, const WordRow& row, const WordsModel& words, const QRectF& line) const
{
    const look::Palette& colours = Look::current().palette();
    const QFont note = Look::current().font(Type::note);
    const QFont bold = Look::current().font(Type::body, look::Weight::bold);
    const QFont noteBold = Look::current().font(Type::note, look::Weight::bold);
    double right = line.right();
    if (const QString state = words.stateWords(row); !state.isEmpty()) {
        const QFontMetricsF metrics(noteBold);
        const double wide = std::min(metrics.horizontalAdvance(state) + 1, line.width() * 0.7);
        painter.setFont(noteBold);
        painter.setPen(colours.deep);
        painter.drawText(QRectF(right - wide, line.top(), wide, line.height()), Qt::AlignRight | Qt::AlignVCenter,
                         metrics.elidedText(state, Qt::ElideRight, wide));
        right -= wide + kBetween;
    }
    const QFontMetricsF metrics(bold);
    const QString name = metrics.elidedText(row.name, Qt::ElideRight, std::max(right - line.left(), 40.0));
    painter.setFont(bold);
    painter.setPen(standsBack(row) ? colours.secondInk : colours.ink);
    painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, name);
    if (row.isNotice)
        return;
    const double left = line.left() + metrics.horizontalAdvance(name) + kBetween;
    const QString ago = agoWords(words.now() - row.at);
    if (QFontMetricsF(note).horizontalAdvance(ago) > right - left)
        return;
    painter.setFont(note);
    painter.setPen(colours.secondInk);
    painter.drawText(QRectF(left, line.top(), right - left, line.height()), Qt::AlignLeft | Qt::AlignVCenter, ago);
}

} // namespace vh::help
