#pragma once
// What may be left out so that the class ends on time: said before it is done. Enter agrees, Z puts back what has been
// left out and still comes, Esc leaves all as it is. Part of ChangesSheet. GUI thread.
#include "app/lead/changes_view.h"

#include <QWidget>

class QLabel;
class QScrollArea;
class QVBoxLayout;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class TrimBox : public QWidget
{
    Q_OBJECT
public:
    explicit TrimBox(QWidget* parent);
    void setState(const TrimView& view);

signals:
    void changeRequested(const vh::lead::ChangeRequest& request);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void setRows(const std::vector<StepRow>& rows);
    TrimView m_shown;
    QLabel* m_headline;
    QScrollArea* m_scroll; ///< by Up and Down, where there are many
    QWidget* m_list;
    QVBoxLayout* m_rows;
    QLabel* m_already;
    BigButton* m_agree;
    BigButton* m_putBack;
};

} // namespace vh::lead
