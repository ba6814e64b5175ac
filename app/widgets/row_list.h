#pragma once
// A long list of rows of one height, painted as they come into sight: a thousand rows cost no more than ten. A row has
// a head, what stands beside it at the right end, a second line below (only where some row has one), and a column
// before it; a heading parts rows and cannot be chosen. Arrows, Page Up and Page Down, Home and End move; Enter asks
// for the chosen one. Plain text whatever it says. GUI thread.
#include <QListView>

#include <vector>

namespace vh
{

class RowList : public QListView
{
    Q_OBJECT
public:
    struct Row {
        QString head;
        QString beside{};
        QString below{};
        QString before{};
        bool heading = false;
        bool strong = false; ///< head in bold
        QString spoken{};    ///< for a reader; empty: all of it, in order
        friend bool operator==(const Row&, const Row&) = default;
    };
    struct State {
        std::vector<Row> rows;
        int chosen = -1;
        friend bool operator==(const State&, const State&) = default;
    };

    explicit RowList(const QString& accessibleName, QWidget* parent = nullptr);
    /// The chosen row comes into sight when it has changed. Nothing is signalled.
    void setState(const State& state);
    [[nodiscard]] const State& state() const { return m_state; }
    /// Moves the choice as the key would; false for keys that move nothing. For a field above that keeps the keyboard.
    bool moveBy(int key);
    /// Of one row, in px.
    [[nodiscard]] int rowHeight() const;

signals:
    /// Another row is wanted.
    void rowRequested(int row);
    /// Enter, or a second press, on the chosen one.
    void enterRequested(int row);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

private:
    class Model;
    class Painter;
    void measureBefore();

    State m_state;
    Model* m_model;
    double m_before = 0;     ///< width of the column before the heads
    bool m_below = false;    ///< some row has a second line
    bool m_becoming = false; ///< what changes is not somebody's wish
};

} // namespace vh
