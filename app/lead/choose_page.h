#pragma once
// Which class? The files there are on the left; what is in the chosen one, or every mistake in it, on the right. Part
// of LeadRoom. GUI thread.
#include "app/lead/lead_view.h"
#include "app/widgets/card_list.h"
#include "app/widgets/row_list.h"

class QGridLayout;
class QLabel;
class QFrame;
class QStackedWidget;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class ChoosePage : public QWidget
{
    Q_OBJECT
public:
    explicit ChoosePage(QWidget* parent);
    void setState(const LeadView& view);

signals:
    void fileRequested(const QString& path);
    void otherFileRequested();
    void papersRequested();
    void openClassRequested();
    void leaveRequested();

private:
    QWidget* makeFiles();
    QWidget* makeChosen();
    void setFiles(const ChoiceView& choice);
    void setPlan(const ChoiceView& choice);
    void setMistakes(const ChoiceView& choice);

    ChoiceView m_shown;
    NoticeLine* m_notice;
    QLabel* m_group;
    RowList* m_files;
    std::vector<int> m_fileOf; ///< of each row; -1: a heading
    QLabel* m_title;
    QLabel* m_about;
    QStackedWidget* m_body;
    QWidget* m_plan;
    QFrame* m_usedBox;
    QLabel* m_used;
    QGridLayout* m_planGrid;
    CardList* m_mistakes;
    BigButton* m_papers;
    BigButton* m_open;
};

} // namespace vh::lead
