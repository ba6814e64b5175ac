#pragma once
// A picture, whole, as large as its place allows, never larger than twice its own size; words in its place until it is
// there. A reader says what is known of it. GUI thread.
#include "app/look/type.h"
#include "app/widgets/spoken_widget.h"

#include <QImage>

namespace vh::pictures
{

/// The largest place of this shape inside `room`, in its middle; a small picture is not blown up beyond recognition.
QRectF placeFor(QSize picture, const QRectF& room);

class PictureBox : public SpokenWidget
{
    Q_OBJECT
public:
    struct State {
        QImage picture;      ///< null: not there yet
        QString description; ///< for readers: "A picture from Ruth: my beans"
        QString words;       ///< while there is none: "The picture is on its way."
    };

    explicit PictureBox(QWidget* parent, look::Type type = look::Type::body);
    void setState(const State& state);
    [[nodiscard]] const State& state() const { return m_state; }
    [[nodiscard]] QSize sizeHint() const override { return {480, 360}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {80, 60}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    State m_state;
    look::Type m_type;
    QPixmap m_scaled; ///< as it is painted
    qint64 m_scaledOf = 0;
};

} // namespace vh::pictures
