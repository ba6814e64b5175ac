#pragma once
// A picture in small with who sent it and its caption, which one press opens large. At least as high and wide as a
// participant's control. A burst of presses is one (PressFilter). GUI thread.
#include "app/look/type.h"
#include "app/widgets/press_filter.h"

#include <QImage>
#include <QPushButton>

namespace vh::pictures
{

class PictureButton : public QPushButton
{
    Q_OBJECT
public:
    enum class Size { touch, desk };
    struct State {
        QImage picture;        ///< null: not here yet
        QString name;          ///< whose; may be empty
        QString text;          ///< the caption, or how it stands; may be empty
        bool withheld = false; ///< and never will be
    };

    explicit PictureButton(Size size, QWidget* parent);
    void setState(const State& state);
    /// Tests hand in theirs; it must outlive the button.
    void setClock(const Clock& clock) { m_clock = &clock; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void pressRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    [[nodiscard]] look::Type type() const;
    [[nodiscard]] QSize pictureRoom() const;

    Size m_size;
    State m_state;
    const Clock* m_clock;
    PressFilter m_filter;
};

} // namespace vh::pictures
