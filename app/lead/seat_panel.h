#pragma once
// One seat, opened: the name, the standing in words, how this person may be addressed, their band to be moved by steps
// of a decibel, whether everybody may be asked to hear them, and a handful of short private words, only those agreed
// to. Keys: 1 to 6 send a word, - and + ask less and more, 0 as usual, Z undoes, V (the class's) asks and ends, Esc
// closes. Part of HallSide. GUI thread.
#include "app/lead/hall_view_state.h"
#include "app/widgets/notice_line.h"

#include <QFrame>

class QGridLayout;
class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class OneLine;

class SeatPanel : public QFrame
{
    Q_OBJECT
public:
    explicit SeatPanel(QWidget* parent);
    void setState(const SeatPanelState& panel);
    /// The number keys, counted from 0, as they are shown.
    void pressWord(int shown);

signals:
    void closeRequested();
    void wordRequested(int which);
    void bandRequested(vh::lead::BandMove move);
    /// This person is to be asked whether everybody may hear them; or whoever is asked or heard is not to be any more.
    void inviteRequested();
    void guestEndRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    class Column;
    BigButton* makeButton(const QString& words, const QString& key);
    QWidget* makeHead();
    QWidget* makeBand();
    QWidget* makeGuest();
    void setGuest(const SeatPanelState& panel);
    void setWords(const std::vector<SeatPanelState::Word>& words);

    SeatPanelState m_shown;
    Column* m_column;
    OneLine* m_name;
    QLabel* m_standing;
    QLabel* m_addressed; ///< or, after a word, what came of it
    QLabel* m_band;
    BigButton* m_less;
    BigButton* m_more;
    BigButton* m_usual;
    BigButton* m_undo;
    QWidget* m_guest;
    OneLine* m_guestWords;
    BigButton* m_guestPress;
    QGridLayout* m_grid;
    std::vector<BigButton*> m_words;
};

} // namespace vh::lead
