#include "app/write/step_list.h"

#include "app/look/look.h"

#include <QKeyEvent>
#include <QPainter>
#include <QSignalBlocker>
#include <QStyledItemDelegate>

namespace vh::write
{

using look::Look;
using look::Space;
using look::Type;

class StepList::Painter : public QStyledItemDelegate
{
public:
    explicit Painter(const StepList& list, QObject* parent) : QStyledItemDelegate(parent), m_list(list) {}

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const override
    {
        const bool part = m_list.rowAt(index.row()).kind != StepRow::Kind::step;
        return {100, Look::current().pixels(Type::body) + (part ? 22 : 16)};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const StepRow& row = m_list.rowAt(index.row());
        const look::Palette& colours = Look::current().palette();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        QRect box = option.rect.adjusted(2, 1, -2, -1);
        if (option.state & QStyle::State_Selected) {
            painter->setPen(QPen(colours.deep2, 2));
            painter->setBrush(colours.quiet);
            painter->drawRoundedRect(QRectF(box).adjusted(1, 1, -1, -1), 8, 8);
        }
        box.adjust(Space::small, 0, -Space::small, 0);
        if (row.remarks > 0)
            box.setRight(remarks(*painter, box, row.remarks) - Space::small);
        const bool part = row.kind != StepRow::Kind::step;
        if (part)
            box.setRight(aside(*painter, box, row.length) - Space::small);
        else
            box.setLeft(box.left() + Space::gap + 4);
        const QFont font =
            Look::current().font(part ? Type::body : Type::note, part ? look::Weight::bold : look::Weight::regular);
        painter->setFont(font);
        painter->setPen(row.toWrite || row.pause ? colours.secondInk : colours.ink);
        if (row.toWrite)
            box.setLeft(pen(*painter, box));
        painter->drawText(box, Qt::AlignLeft | Qt::AlignVCenter,
                          QFontMetrics(font).elidedText(row.words, Qt::ElideRight, box.width()));
        painter->restore();
    }

private:
    /// A small page with nothing on it yet; the left edge of what follows.
    static int pen(QPainter& painter, const QRect& box)
    {
        const look::Palette& colours = Look::current().palette();
        const QRectF page(box.left() + 1, box.center().y() - 8, 14, 17);
        painter.save();
        painter.setPen(QPen(colours.stretch, 2, Qt::DotLine));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(page, 3, 3);
        painter.restore();
        return box.left() + 24;
    }

    /// How many remarks, in a ring; its left edge.
    static int remarks(QPainter& painter, const QRect& box, int count)
    {
        const look::Palette& colours = Look::current().palette();
        const QFont font = Look::current().font(Type::fine);
        const QString words = QString::number(count);
        const int wide = std::max(22, QFontMetrics(font).horizontalAdvance(words) + 12);
        const QRectF ring(box.right() - wide, box.center().y() - 10.5, wide, 22);
        painter.setPen(QPen(colours.deep2, 1.5));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(ring, 11, 11);
        painter.setFont(font);
        painter.setPen(colours.deep);
        painter.drawText(ring, Qt::AlignCenter, words);
        return static_cast<int>(ring.left());
    }

    static int aside(QPainter& painter, const QRect& box, const QString& words)
    {
        const QFont font = Look::current().font(Type::note);
        painter.setFont(font);
        painter.setPen(Look::current().palette().secondInk);
        painter.drawText(box, Qt::AlignRight | Qt::AlignVCenter, words);
        return box.right() - QFontMetrics(font).horizontalAdvance(words);
    }

    const StepList& m_list;
};

StepList::StepList(QWidget* parent) : QListWidget(parent)
{
    setAccessibleName(tr("The class, step by step"));
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setUniformItemSizes(false);
    setItemDelegate(new Painter(*this, this));
    connect(this, &QListWidget::currentRowChanged, this, [this](int row) {
        if (row >= 0 && row < static_cast<int>(m_rows.size()))
            emit spotRequested(m_rows[static_cast<std::size_t>(row)].spot);
    });
}

QString StepList::spoken(const StepRow& row)
{
    QString words = row.kind == StepRow::Kind::step ? row.words : QStringLiteral("%1 %2").arg(row.words, row.length);
    if (row.toWrite)
        words = tr("Still to write. %1").arg(words);
    if (row.remarks > 0)
        words = tr("%1 Remarks: %2.").arg(words).arg(row.remarks);
    return words.trimmed();
}

void StepList::setState(const std::vector<StepRow>& rows, int current)
{
    const QSignalBlocker quiet(this);
    const std::vector<StepRow> before = std::exchange(m_rows, rows);
    while (count() > static_cast<int>(rows.size()))
        delete takeItem(count() - 1);
    for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
        const auto at = static_cast<std::size_t>(i);
        if (i == count())
            addItem(new QListWidgetItem);
        else if (at < before.size() && before[at] == rows[at])
            continue;
        item(i)->setText(spoken(rows[at])); // what a reader says; the painter has the row itself
        item(i)->setToolTip(rows[at].words.toHtmlEscaped());
    }
    if (current != currentRow())
        setCurrentRow(current);
    if (current >= 0 && !viewport()->rect().contains(visualItemRect(item(current))))
        scrollToItem(item(current), PositionAtCenter); // what comes before and after it is seen too
    viewport()->update();
}

void StepList::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return emit editRequested();
    QListWidget::keyPressEvent(event);
}

} // namespace vh::write
