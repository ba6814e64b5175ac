#pragma once
// The person has called for help: how it stands, in large words that change where they are; whom to ring; back to the
// class, and "Take it back". The keyboard stands on no control. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class CallPage : public QWidget
{
    Q_OBJECT
public:
    explicit CallPage(QWidget* parent = nullptr);
    void setState(const CallView& view);

signals:
    void backRequested();
    void takeBackRequested();
    void againRequested();

private:
    QLabel* m_heading;
    QLabel* m_words;
    QLabel* m_where;
    QLabel* m_ring;
    QLabel* m_emergency;
    BigButton* m_back;
    BigButton* m_takeBack;
    BigButton* m_again;
};

} // namespace vh::join
