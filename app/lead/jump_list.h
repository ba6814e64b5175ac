#pragma once
// All steps of the class, section after section, to go to any of them. Up and Down choose, Enter goes there; Space, the
// arrows to the sides and the clicker still lead the class. Rows keep their places; only what stands beside them
// changes. Where there is little room the buttons of the present turn give way; their keys work. Part of ChangesSheet.
// GUI thread.
#include "app/lead/changes_view.h"

#include <QWidget>

class QGridLayout;
class QListWidget;
class QListWidgetItem;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class JumpList : public QWidget
{
    Q_OBJECT
public:
    explicit JumpList(QWidget* parent);
    /// `fresh`: it has just been opened, and points at `wanted`.
    void setState(const ChangesView& view, bool fresh);
    void takeFocus();
    [[nodiscard]] std::optional<StepAt> chosen() const;

signals:
    void changeRequested(const vh::lead::ChangeRequest& request);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    class List;
    class RowDelegate;
    void fill(const std::vector<StepRow>& rows);
    void point(StepAt at);
    void ask(ChangeRequest::Kind kind);

    List* m_list;
    QGridLayout* m_buttons;
    BigButton* m_jump;
    BigButton* m_correct;
    BigButton* m_trim;
    BigButton* m_more;
    std::vector<StepRow> m_rows;
    std::vector<QListWidgetItem*> m_items; ///< of the rows, without the titles between them
};

} // namespace vh::lead
