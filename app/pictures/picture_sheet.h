#pragma once
// The desk looks at one picture: large, with what may be done to it before others see it, and what becomes of it.
// Single keys act while the picture has the keyboard, not while a caption is written (WCAG 2.2, 2.1.4). Becomes the
// view it is given; everything goes out as a request. GUI thread.
#include "app/pictures/cut_view.h"
#include "app/pictures/edit.h"

#include <QFrame>

class QLabel;
class QPlainTextEdit;

namespace vh
{
class BigButton;
}

namespace vh::pictures
{

/// What becomes of a picture.
enum class Becomes { board, aside, window };

struct SheetView {
    quint64 item = 0;
    QString head;   ///< "From Ruth, 2 min ago"
    QString aside;  ///< how it stands: "Bram is looking at it too"; may be empty
    QImage picture; ///< as it came; null while it is on its way
    QString words;  ///< while there is none
    PictureEdit edit;
    bool canUndo = false;
    bool busy = false; ///< sent, not answered: nothing can be pressed but "Back"
    QString notice;    ///< what is going on, or was refused; may be empty
};

class PictureSheet : public QWidget
{
    Q_OBJECT
public:
    explicit PictureSheet(QWidget* parent = nullptr);
    void setState(const SheetView& view);
    [[nodiscard]] bool isCutting() const { return m_cutting; }

signals:
    void turnRequested(int quarters);
    void frameRequested(const QRectF& frame);
    void cutBegan();
    /// The frame is left as it is, or as it was before.
    void cutEnded(bool kept);
    void captionRequested(const QString& caption);
    void captionEnded();
    void undoRequested();
    void becomesRequested(vh::pictures::Becomes what);
    void closeRequested();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* makeLarge();
    QWidget* makeSide();
    QWidget* makeChanges(QWidget* parent);
    BigButton* makeKey(const QString& words, const QString& key, QWidget* parent);
    void setCutting(bool cutting);
    void endCutting(bool kept);
    void show(const SheetView& view);
    void showKeys(const SheetView& view);
    bool pressLetter(int key);
    QImage shownOf(const SheetView& view);

    SheetView m_view;
    bool m_cutting = false;
    QImage m_shown;
    qint64 m_shownOf = 0;
    PictureEdit m_shownEdit;
    CutView* m_picture;
    QLabel* m_head;
    QLabel* m_aside;
    QPlainTextEdit* m_caption;
    QLabel* m_notice;
    QLabel* m_how;
    BigButton* m_left;
    BigButton* m_right;
    BigButton* m_cut;
    BigButton* m_undo;
    BigButton* m_board;
    BigButton* m_window;
    BigButton* m_setAside;
    BigButton* m_close;
};

} // namespace vh::pictures
