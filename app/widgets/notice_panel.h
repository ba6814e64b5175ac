#pragma once
// Where a participant is told what is going on: up to two notices, one below the other, and at most one control beside
// them. Always of one height, so that nothing around it moves; without a notice a calm sentence stands there. Words
// that are too many for two lines become smaller, never cut. GUI thread.
#include "app/look/sign.h"
#include "app/widgets/notice_line.h"

class QLabel;

namespace vh
{

class BigButton;

class NoticePanel : public QWidget
{
    Q_OBJECT
public:
    struct State {
        NoticeLine::State first;
        NoticeLine::State second;           ///< only beside a first
        QString calm;                       ///< where there is no notice
        QString action;                     ///< words of the control; empty: none
        look::Sign sign = look::Sign::undo; ///< of the control
        friend bool operator==(const State&, const State&) = default;
    };

    explicit NoticePanel(QWidget* parent = nullptr);
    void setState(const State& state);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void actionRequested();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void place();

    State m_state;
    NoticeLine* m_first;
    NoticeLine* m_second;
    QLabel* m_calm;
    BigButton* m_action;
};

} // namespace vh
