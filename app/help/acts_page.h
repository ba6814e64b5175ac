#pragma once
// What was done at the desk in the last day: when, who, what, and the words it was about. The last stands at the end,
// and is chosen first. GUI thread.
#include "app/widgets/row_list.h"

class QLabel;

namespace vh::help
{

class ActsPage : public QWidget
{
    Q_OBJECT
public:
    explicit ActsPage(QWidget* parent = nullptr);
    /// The relay is asked for it; until it has answered, what was there before stands.
    void open();
    void setState(const std::vector<RowList::Row>& acts);

signals:
    void closeRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    QLabel* m_note;
    RowList* m_rows;
};

} // namespace vh::help
