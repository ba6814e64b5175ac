#include "app/widgets/class_sheet.h"

#include "app/look/look.h"
#include "app/widgets/plain_label.h"
#include "app/widgets/spoken_widget.h"

#include <QPainter>

namespace vh
{

/// A picture, whole, as large as its place allows.
class ClassSheet::PictureBox final : public SpokenWidget
{
public:
    explicit PictureBox(QWidget* parent) : SpokenWidget(QAccessible::Graphic, parent) {}

    void setState(const QImage& picture, const QString& description)
    {
        m_picture = picture;
        say(description);
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        if (m_picture.isNull())
            return;
        QPainter painter(this);
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        const QSizeF size = QSizeF(m_picture.size()).scaled(QSizeF(this->size()), Qt::KeepAspectRatio);
        painter.drawImage(QRectF(QPointF((width() - size.width()) / 2, (height() - size.height()) / 2), size),
                          m_picture);
    }

private:
    QImage m_picture;
};

ClassSheet::ClassSheet(QWidget* parent)
    : QWidget(parent), m_cue(new CueBadge(this)), m_text(new FittedText(this)), m_picture(new PictureBox(this)),
      m_caption(plainLabel(this, "words"))
{
    m_caption->setAlignment(Qt::AlignHCenter | Qt::AlignVCenter);
    m_caption->hide();
}

void ClassSheet::setState(const State& state)
{
    m_cue->setState(state.cue);
    m_hasCue = state.cue.turn.has_value() || !state.cue.words.isEmpty();
    m_text->setState(state.text);
    m_hasText = !state.text.text.empty();
    m_picture->setState(state.picture, state.pictureDescription);
    m_hasPicture = !state.picture.isNull();
    m_caption->setText(state.caption);
    place();
}

void ClassSheet::resizeEvent(QResizeEvent*)
{
    place();
}

void ClassSheet::place()
{
    using look::Space;
    const QRect inside =
        rect().adjusted(Space::wide + Space::gap, Space::gap + 4, -Space::wide - Space::gap, -Space::gap);
    m_cue->setVisible(m_hasCue);
    const int cueHeight = m_cue->sizeHint().height();
    m_cue->setGeometry(inside.left(), inside.top(), m_cue->sizeHint().width(), cueHeight);
    QRect below = inside;
    below.setTop(inside.top() + cueHeight + Space::gap); // kept free when there is no cue: the text never jumps
    const bool captioned = m_hasPicture && !m_hasText && !m_caption->text().isEmpty();
    m_caption->setVisible(captioned);
    if (captioned)
        placeCaption(below);
    if (m_hasPicture && !m_hasText)
        m_picture->setGeometry(below); // a picture alone stands in the middle
    else if (m_hasPicture)
        placeBeside(below);
    m_picture->setVisible(m_hasPicture && m_picture->width() > 0);
    m_text->setGeometry(below);
}

/// Along the foot; the picture has what is left.
void ClassSheet::placeCaption(QRect& picture)
{
    const int high = m_caption->heightForWidth(picture.width());
    m_caption->setGeometry(picture.left(), picture.bottom() + 1 - high, picture.width(), high);
    picture.setBottom(picture.bottom() - high - look::Space::small);
}

/// The picture at the right of the text, which comes first: where it would not be seen whole, the picture is smaller,
/// or not there.
void ClassSheet::placeBeside(QRect& text)
{
    for (const int share : {3, 4, 6}) {
        const int width = std::min(text.width() / share, text.height());
        QRect left = text;
        left.setRight(text.right() - width - look::Space::wide);
        if (m_text->heightForWidth(left.width()) > left.height())
            continue;
        m_picture->setGeometry(text.right() - width, text.top(), width, text.height());
        text = left;
        return;
    }
    m_picture->setGeometry(0, 0, 0, 0);
}

void ClassSheet::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), look::Look::current().palette().sheet);
}

} // namespace vh
