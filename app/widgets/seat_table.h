#pragma once
// The people as a plain table: name, standing in words with its shape, level over the usual, note. Rows stand in the
// order of seats; asked for, they are arranged once by name or by voice, and then keep still again: nothing re-sorts
// itself while it is read. Never by level: nobody is compared with anybody. Driven by keyboard (arrows, Enter, A);
// every cell reads well aloud. GUI thread.
#include "app/widgets/seat_table_model.h"

#include <QTableView>

#include <vector>

namespace vh
{

class SeatTable : public QTableView
{
    Q_OBJECT
public:
    explicit SeatTable(QWidget* parent = nullptr);
    void setState(std::vector<SeatRow> rows);
    /// Whoever was chosen stays chosen.
    void arrange(SeatOrder order);
    /// A reason stands over two lines where the longest one does not fit into one.
    [[nodiscard]] bool inTwoLines() const { return m_twoLines; }

signals:
    void seatRequested(int seat);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void takeSizes();
    /// "can't tell" and its reason take the room of the level too: there is none then.
    void takeSpans();
    void showOrder();
    SeatTableModel* m_model;
    bool m_twoLines = false;
    std::vector<bool> m_wide; ///< by row: standing and level are one cell
};

} // namespace vh
