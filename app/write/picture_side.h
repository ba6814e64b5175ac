#pragma once
// A step's picture, and the words for those who do not see it. GUI thread.
#include "app/write/editor_view.h"

#include <QWidget>

class QLabel;
class QPlainTextEdit;

namespace vh
{
class BigButton;
}

namespace vh::write
{

class PictureSide : public QWidget
{
    Q_OBJECT
public:
    explicit PictureSide(QWidget* parent = nullptr);
    void setState(const StepFields& step);
    void toDescription();

signals:
    void descriptionTyped(const QString& description);
    void pressed(vh::write::Press press);

private:
    class Box;
    Box* m_box;
    BigButton* m_choose;
    BigButton* m_drop;
    QLabel* m_label;
    QPlainTextEdit* m_description;
};

} // namespace vh::write
