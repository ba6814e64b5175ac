#pragma once
// How a step goes: its rounds and turns, and whether it may be left out. GUI thread.
#include "app/write/editor_view.h"
#include "app/write/round_edits.h"

#include <QWidget>

class QComboBox;

namespace vh::write
{

class RoundScore;

class TurnsSide : public QWidget
{
    Q_OBJECT
public:
    explicit TurnsSide(QWidget* parent = nullptr);
    void setState(const StepFields& step);
    void toScore(int round);
    [[nodiscard]] TurnSpot chosen() const;
    void choose(TurnSpot at);

signals:
    void editRequested(vh::write::RoundEdit edit);
    void secondsRequested(double seconds);
    void dearnessChosen(int dearness); ///< 0: it belongs to the class

private:
    QLayout* buttons();

    RoundScore* m_score;
    QComboBox* m_dearness;
};

} // namespace vh::write
