#pragma once
// The class as a list: its parts, and their steps below them, one line each; what is still to write and what there is
// to say about a step are seen at its end. GUI thread.
#include "app/write/editor_view.h"

#include <QListWidget>

namespace vh::write
{

class StepList : public QListWidget
{
    Q_OBJECT
public:
    explicit StepList(QWidget* parent = nullptr);
    void setState(const std::vector<StepRow>& rows, int current);
    [[nodiscard]] const StepRow& rowAt(int row) const { return m_rows[static_cast<std::size_t>(row)]; }

signals:
    void spotRequested(const vh::write::Spot& spot);
    void editRequested(); ///< Enter: to its fields

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    class Painter;
    [[nodiscard]] static QString spoken(const StepRow& row);

    std::vector<StepRow> m_rows;
};

} // namespace vh::write
