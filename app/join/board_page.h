#pragma once
// The board: what was written, one below the other; below it the place to write, large, with one control that sends.
// Whose turn it is stays in sight. The same page, without a place to write, says who is here. GUI thread.
#include "app/join/join_view.h"

#include <QWidget>

class QBoxLayout;
class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::join
{

class BoardList;
class WordsField;

class BoardPage : public QWidget
{
    Q_OBJECT
public:
    explicit BoardPage(QWidget* parent = nullptr);
    void setState(const BoardView& view);
    /// Where further controls that send something stand.
    [[nodiscard]] QBoxLayout* controls() const { return m_controls; }
    /// Tests hand in theirs; it must outlive the page.
    void setClock(const Clock& clock);

signals:
    void draftChanged(const QString& words);
    void sendRequested();
    /// The control of one of one's own lines.
    void lineRequested(quint64 line);
    void peopleRequested();
    void pictureRequested();
    void backRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void showWriting();
    void showTurning();
    void fitField();

    BoardView m_view;
    QLabel* m_heading;
    QLabel* m_words;
    CueBadge* m_cue;
    BoardList* m_list;
    QLabel* m_nothing;
    WordsField* m_field;
    BigButton* m_send;
    NoticeLine* m_notice;
    QLabel* m_hint; ///< in its place while there is nothing to say
    QBoxLayout* m_controls;
    BigButton* m_back;
    BigButton* m_people;
    BigButton* m_picture;
    BigButton* m_earlier;
    BigButton* m_later;
};

} // namespace vh::join
