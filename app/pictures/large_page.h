#pragma once
// One picture of the board, large, with whose it is and its caption; for a participant. What is one's own can be taken
// back. GUI thread.
#include <QImage>
#include <QWidget>

class QLabel;

namespace vh
{
class BigButton;
}

namespace vh::pictures
{

class PictureBox;

struct LargeView {
    QImage picture; ///< null: not here yet
    QString words;  ///< while it is not
    QString name;   ///< whose; may be empty
    QString caption;
    QString state; ///< of one's own: "A helper looks at it first."; may be empty
    bool own = false;
    bool canTakeBack = false;
};

class LargePage : public QWidget
{
    Q_OBJECT
public:
    explicit LargePage(QWidget* parent = nullptr);
    void setState(const LargeView& view);

signals:
    void takeBackRequested();
    void backRequested();

private:
    PictureBox* m_picture;
    QLabel* m_name;
    QLabel* m_caption;
    QLabel* m_state;
    BigButton* m_takeBack;
    BigButton* m_back;
};

} // namespace vh::pictures
