#include "app/join/board_list.h"

#include "app/look/look.h"

#include <QEvent>

#include <algorithm>
#include <utility>

namespace vh::join
{

namespace
{
constexpr int kBetween = look::Space::gap;
constexpr double kMostShare = 0.6; ///< of the height, for one line: its words become smaller before it takes more
} // namespace

BoardList::BoardList(QWidget* parent) : QWidget(parent) {}

void BoardList::setRows(const std::vector<BoardRow>& rows)
{
    if (rows == m_rows)
        return;
    const std::uint64_t seen = !m_atEnd && m_last > 0 ? m_rows[m_last - 1].key : 0;
    m_rows = rows;
    std::vector<BoardLineView*> lines;
    lines.reserve(rows.size());
    for (const BoardRow& row : rows) {
        const auto known = std::find_if(m_lines.begin(), m_lines.end(),
                                        [&](const BoardLineView* each) { return each && each->row().key == row.key; });
        BoardLineView* line = nullptr;
        if (known == m_lines.end()) {
            line = new BoardLineView(this);
            connect(line, &BoardLineView::pressRequested, this, &BoardList::pressRequested);
        } else {
            line = std::exchange(*known, nullptr);
        }
        line->setRow(row);
        lines.push_back(line);
    }
    for (BoardLineView* gone : m_lines)
        if (gone) {
            gone->hide();
            gone->deleteLater(); // its control may be on the stack
        }
    m_lines = std::move(lines);
    const auto at = std::find_if(m_rows.begin(), m_rows.end(), [&](const auto& each) { return each.key == seen; });
    m_last = seen != 0 && at != m_rows.end() ? static_cast<std::size_t>(at - m_rows.begin()) + 1 : m_rows.size();
    m_atEnd = m_last == m_rows.size();
    place();
}

/// From the last one upwards, as many as have room; then from the top down.
void BoardList::place()
{
    m_last = m_atEnd ? m_lines.size() : std::min(m_last, m_lines.size());
    m_first = m_last;
    int room = height();
    while (m_first > 0) {
        BoardLineView* line = m_lines[m_first - 1];
        line->fit(width(), static_cast<int>(kMostShare * height()));
        if (line->wanted() > room && m_first < m_last)
            break;
        room -= line->wanted() + kBetween;
        --m_first;
    }
    for (; m_last < m_lines.size(); ++m_last) { // at the beginning a page may have room at its end
        BoardLineView* line = m_lines[m_last];
        line->fit(width(), static_cast<int>(kMostShare * height()));
        if (line->wanted() > room && m_first < m_last)
            break;
        room -= line->wanted() + kBetween;
    }
    m_atEnd = m_last == m_lines.size();
    int y = 0;
    for (std::size_t i = 0; i < m_lines.size(); ++i) {
        const bool seen = i >= m_first && i < m_last;
        if (seen) {
            m_lines[i]->setGeometry(0, y, width(), m_lines[i]->wanted());
            y += m_lines[i]->wanted() + kBetween;
        }
        m_lines[i]->setVisible(seen);
    }
    emit turned();
}

void BoardList::earlier()
{
    if (!hasEarlier())
        return;
    m_last = m_first;
    m_atEnd = false;
    place();
}

void BoardList::later()
{
    if (!hasLater())
        return;
    std::size_t next = m_last; // the page begins where this one ends
    int room = height();
    while (next < m_lines.size()) {
        m_lines[next]->fit(width(), static_cast<int>(kMostShare * height()));
        if (m_lines[next]->wanted() > room && next > m_last)
            break;
        room -= m_lines[next]->wanted() + kBetween;
        ++next;
    }
    m_last = next;
    m_atEnd = m_last == m_lines.size();
    place();
}

void BoardList::resizeEvent(QResizeEvent* /*event*/)
{
    place();
}

void BoardList::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange)
        place();
    QWidget::changeEvent(event);
}

} // namespace vh::join
