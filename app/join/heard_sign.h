#pragma once
// "Everyone hears you": a band along the top of every screen of the participant's room, as long as it is so, with the
// one press that ends it. Readers are told when it comes and when it goes. Part of JoinRoom. GUI thread.
#include "app/widgets/spoken_widget.h"

namespace vh
{
class BigButton;
}

namespace vh::join
{

class HeardSign : public SpokenWidget
{
    Q_OBJECT
public:
    explicit HeardSign(QWidget* parent);
    /// Whether everybody hears this person.
    void setHeard(bool heard);
    [[nodiscard]] bool isHeard() const { return m_heard; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

signals:
    void endRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void place();
    [[nodiscard]] static int signWidth(); ///< of all before the button
    bool m_heard = false;
    BigButton* m_end;
};

} // namespace vh::join
