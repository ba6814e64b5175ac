#pragma once
// A helper's answer to this person alone: large and calm, with what it answers, until it is put away. Announced to
// readers when it appears. GUI thread.
#include "app/join/join_view.h"
#include "app/widgets/fitted_text.h"

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class AnswerPage : public SpokenWidget
{
    Q_OBJECT
public:
    explicit AnswerPage(QWidget* parent = nullptr);
    void setState(const AnswerView& view);

signals:
    void putAwayRequested(bool writeBack);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void announce();

    AnswerView m_view;
    QLabel* m_heading;
    QLabel* m_about;
    FittedText* m_text;
    BigButton* m_putAway;
    BigButton* m_writeBack;
};

} // namespace vh::join
