#pragma once
// One question in the middle of the page, and its answers as large buttons. GUI thread.
#include "app/write/editor_view.h"

#include <QWidget>

class QLabel;
class QVBoxLayout;

namespace vh::write
{

class AskPanel : public QWidget
{
    Q_OBJECT
public:
    explicit AskPanel(QWidget* parent = nullptr);
    void setState(const AskView& view);

signals:
    void answered(vh::write::EditorAnswer answer);

private:
    QLabel* m_title;
    QLabel* m_words;
    QVBoxLayout* m_answers;
    EditorQuestion m_shown = EditorQuestion::none;
};

} // namespace vh::write
