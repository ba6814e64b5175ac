#pragma once
// The lines of the board, as many whole ones as there is room for, the newest last. Nothing scrolls and nothing is
// dragged: earlier() and later() turn it like a page. It stays at its end until somebody turns back. GUI thread.
#include "app/join/board_line.h"

namespace vh::join
{

class BoardList : public QWidget
{
    Q_OBJECT
public:
    explicit BoardList(QWidget* parent = nullptr);
    void setRows(const std::vector<BoardRow>& rows);
    void earlier();
    void later();
    [[nodiscard]] bool hasEarlier() const { return m_first > 0; }
    [[nodiscard]] bool hasLater() const { return m_last < m_lines.size(); }
    [[nodiscard]] QSize sizeHint() const override { return {900, 300}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {400, 120}; }

signals:
    void pressRequested(quint64 line);
    /// hasEarlier() or hasLater() may be another.
    void turned();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void place();

    std::vector<BoardRow> m_rows;
    std::vector<BoardLineView*> m_lines;
    std::size_t m_first = 0; ///< of those that are seen
    std::size_t m_last = 0;  ///< one past them
    bool m_atEnd = true;
};

} // namespace vh::join
