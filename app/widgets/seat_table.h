#pragma once
// The people as a plain table: name, standing in words with its shape, level over the usual, note. Rows stand in the
// order of seats and never re-sort. Driven by keyboard (arrows, Enter); every cell reads well aloud. GUI thread.
#include "app/widgets/standing_view.h"

#include <QAbstractTableModel>
#include <QTableView>

#include <vector>

namespace vh
{

struct SeatRow {
    int seat = 0;  ///< unique
    int place = 0; ///< where in the hall it stands; it never moves during a class
    QString name;
    Standing standing = Standing::notYet;
    Blank reason = Blank::none;
    std::optional<float> overUsualDb; ///< none: not shown
    Band band{};
    QString note{};
    friend bool operator==(const SeatRow&, const SeatRow&) = default;
};

/// "+4 dB", "0 dB", "−2 dB" over the usual level; empty where there is none.
QString levelWords(std::optional<float> overUsualDb);

class SeatTableModel : public QAbstractTableModel
{
    Q_OBJECT
public:
    enum Column { nameColumn, standingColumn, levelColumn, noteColumn, columnCount_ };
    enum Role { rowRole = Qt::UserRole }; ///< the whole SeatRow, for painting

    using QAbstractTableModel::QAbstractTableModel;
    /// Becomes this. Rows that stay keep their place; only what changed is signalled. Of two rows with one seat the
    /// later counts.
    void setState(std::vector<SeatRow> rows);
    [[nodiscard]] const std::vector<SeatRow>& rows() const { return m_rows; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    std::vector<SeatRow> m_rows; ///< by seat
};

class SeatTable : public QTableView
{
    Q_OBJECT
public:
    explicit SeatTable(QWidget* parent = nullptr);
    void setState(std::vector<SeatRow> rows);
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
    SeatTableModel* m_model;
    bool m_twoLines = false;
    std::vector<bool> m_wide; ///< by row: standing and level are one cell
};

} // namespace vh

Q_DECLARE_METATYPE(vh::SeatRow)
