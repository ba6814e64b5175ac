#pragma once
// Something is going on, or over: a few words in the middle, at most one control. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QHBoxLayout;
class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class WaitPage : public QWidget
{
    Q_OBJECT
public:
    explicit WaitPage(QWidget* parent = nullptr);
    void setState(const WaitView& view);

signals:
    void buttonRequested();
    void handoutRequested();
    void helpRequested();

private:
    void showKeyWords(const QStringList& words);

    QLabel* m_heading;
    QLabel* m_words;
    QWidget* m_keyWords;
    QHBoxLayout* m_keyRow;
    QStringList m_shownWords;
    BigButton* m_button;
    BigButton* m_handout;
    BigButton* m_help;
};

} // namespace vh::join
