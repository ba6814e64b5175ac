#pragma once
// What people wrote, as rows of one list, in an order that is given and never changes under the eyes: new rows come
// where they belong, rows that were dealt with stay in their place, saying so, until they are out of sight
// (forgetSettled). Only what changed is signalled; thousands of rows are fine. Qt's model, no widgets; one thread.
#include "common/base/clock.h"
#include "common/wire/board_messages.h"

#include <QAbstractListModel>
#include <QImage>

#include <unordered_map>
#include <vector>

namespace vh::help
{

struct WordRow {
    std::uint64_t item = 0;
    std::uint64_t change = 0; ///< as it was last seen, to be named in a decision
    PersonId person;          ///< null: not known here
    QString name;
    QString text;
    Instant at{};
    wire::DeskState state = wire::DeskState::held;
    QString by;                 ///< who put it there; may be empty
    std::optional<Instant> due; ///< of what is going up
    bool isNotice = false;      ///< said by the desk to everybody
    bool isPicture = false;     ///< has room for one, whether it is there yet or not
    QImage picture;             ///< small, to be recognised
    QString readBy;             ///< who else is reading it now
    bool onItsWay = false;      ///< something has been asked for it here
};

/// No longer to be read: it is where somebody has put it.
[[nodiscard]] bool isSettled(const WordRow& row);

class WordsModel : public QAbstractListModel
{
    Q_OBJECT
public:
    /// `itemRole`: the row's number as a quint64.
    enum Role { itemRole = Qt::UserRole };
    using QAbstractListModel::QAbstractListModel;

    /// The row with this number becomes this, or comes in where its order says (unique; smallest first). What is known
    /// of it here (who reads it, its picture) stays.
    void put(WordRow row, std::uint64_t order);
    void remove(std::uint64_t item);
    void setReadBy(std::uint64_t item, const QString& name);
    void setOnItsWay(std::uint64_t item, bool is);
    void setPicture(std::uint64_t item, const QImage& picture);
    /// By which whoever looks is known: "You have set it aside".
    void setOwn(const QString& name) { m_own = name; }
    /// This list is the board: of a line on it that need not be said.
    void setIsBoard() { m_isBoard = true; }
    /// For what says how long ago it was; readers are not told.
    void setNow(Instant now);
    /// Settled rows outside these (what is in sight) go; all of them, once nothing has been to read for a while.
    void forgetSettled(int first, int last);

    [[nodiscard]] const std::vector<WordRow>& rows() const { return m_rows; }
    [[nodiscard]] int rowOf(std::uint64_t item) const; ///< -1: it is not here
    [[nodiscard]] const WordRow* find(std::uint64_t item) const;
    /// Rows that are still to be read.
    [[nodiscard]] int waiting() const { return m_waiting; }
    [[nodiscard]] Instant now() const { return m_now; }
    /// What has become of a row, in words: "Ines is reading this", "Going up in 3 s"; empty: nothing yet.
    [[nodiscard]] QString stateWords(const WordRow& row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

signals:
    /// Times and counts read otherwise now.
    void timePassed();

private:
    void changed(int row);
    void removeRows_(int first, int count);
    [[nodiscard]] int placeOf(std::uint64_t order) const;

    std::vector<WordRow> m_rows;
    std::vector<std::uint64_t> m_orders; ///< beside m_rows, rising
    std::unordered_map<std::uint64_t, std::uint64_t> m_orderOf;
    int m_waiting = 0;
    QString m_own;
    bool m_isBoard = false;
    Instant m_now{};
    Instant m_settledAt{}; ///< the last one
};

} // namespace vh::help
