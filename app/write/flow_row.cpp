#include "app/write/flow_row.h"

#include <algorithm>

namespace vh::write
{

int FlowRow::place(const QRect& where, bool move) const
{
    int x = where.left();
    int y = where.top();
    int line = 0;
    for (QLayoutItem* item : m_items) {
        if (item->isEmpty())
            continue;
        const QSize size = item->sizeHint();
        if (x > where.left() && x + size.width() > where.left() + where.width()) {
            x = where.left();
            y += line + m_gap;
            line = 0;
        }
        if (move)
            item->setGeometry({QPoint(x, y), size});
        x += size.width() + m_gap;
        line = std::max(line, size.height());
    }
    return y + line - where.top();
}

void FlowRow::setGeometry(const QRect& where)
{
    QLayout::setGeometry(where);
    place(where, true);
}

QSize FlowRow::minimumSize() const
{
    QSize least;
    for (QLayoutItem* item : m_items)
        least = least.expandedTo(item->minimumSize());
    return least;
}

QSize FlowRow::sizeHint() const
{
    QSize all;
    for (QLayoutItem* item : m_items)
        all = {all.width() + item->sizeHint().width() + m_gap, std::max(all.height(), item->sizeHint().height())};
    return all;
}

} // namespace vh::write
