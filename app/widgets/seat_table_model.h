#pragma once
// The people of the hall as rows of a table, in the order that was asked for. GUI thread.
#include "app/widgets/standing_view.h"

#include <QAbstractTableModel>

#include <map>
#include <vector>

namespace vh
{

/// Whether everybody hears this person: the leader may have asked for it.
enum class HeardByAll : std::uint8_t { no, asked, yes };

struct SeatRow {
    int seat = 0;  ///< unique
    int place = 0; ///< where in the hall it stands; it never moves during a class
    QString name;
    Standing standing = Standing::notYet;
    Blank reason = Blank::none;
    std::optional<float> overUsualDb; ///< none: not shown
    Band band{};
    QString note{};
    HeardByAll heard = HeardByAll::no;
    friend bool operator==(const SeatRow&, const SeatRow&) = default;
};

/// "heard by all", "asked to be heard by all"; else empty.
QString wordsOf(HeardByAll heard);

/// "+4 dB", "0 dB", "−2 dB" over the usual level; empty where there is none.
QString levelWords(std::optional<float> overUsualDb);

/// By voice: those with one standing together, whoever may need a word first.
enum class SeatOrder { seats, names, voices };

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
    /// Arranges those who are in it now; whoever comes later stands behind them, by seat.
    void arrange(SeatOrder order);
    [[nodiscard]] SeatOrder order() const { return m_order; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    [[nodiscard]] bool isBefore(const SeatRow& one, const SeatRow& other) const;

    std::vector<SeatRow> m_rows; ///< as arranged
    SeatOrder m_order = SeatOrder::seats;
    std::map<int, int> m_ranks; ///< by seat: where they stood when last arranged
};

} // namespace vh

Q_DECLARE_METATYPE(vh::SeatRow)
