#include "app/write/picture_side.h"

#include "app/write/flow_row.h"
#include "app/write/page_parts.h"

#include <QPainter>
#include <QVBoxLayout>

namespace vh::write
{

using look::Space;

/// The picture, whole, on a sheet; words where there is none, or where its file is not there.
class PictureSide::Box : public SpokenWidget
{
public:
    explicit Box(QWidget* parent) : SpokenWidget(QAccessible::Graphic, parent) { setMinimumHeight(110); }

    void setState(const StepFields& step)
    {
        m_picture = step.picture;
        m_words = step.hasPicture
                      ? PictureSide::tr("The picture's file cannot be read. Choose it again.")
                      : PictureSide::tr("No picture yet. PNG, JPEG or SVG; it is made small, and place and time of a "
                                        "photo stay behind.");
        say(!m_picture.isNull() ? step.description : m_words);
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        QPainter painter(this);
        painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
        const look::Palette& colours = look::Look::current().palette();
        look::paintSheet(painter, QRectF(rect()), colours.sheet);
        const QRectF inside = QRectF(rect()).adjusted(Space::gap, Space::gap, -Space::gap, -Space::gap);
        if (!m_picture.isNull()) {
            QRectF place({}, QSizeF(m_picture.size()).scaled(inside.size(), Qt::KeepAspectRatio));
            place.moveCenter(inside.center());
            painter.drawImage(place, m_picture);
            return;
        }
        painter.setFont(look::Look::current().font(look::Type::note));
        painter.setPen(colours.secondInk);
        painter.drawText(inside, Qt::AlignCenter | Qt::TextWordWrap, m_words);
    }

private:
    QImage m_picture;
    QString m_words;
};

PictureSide::PictureSide(QWidget* parent) : QWidget(parent), m_box(new Box(this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    column->addWidget(m_box, 1);
    auto* row = new FlowRow(Space::small);
    m_choose = buttonOf(Press::choosePicture, KeyAt::beside, this);
    m_drop = buttonOf(Press::dropPicture, KeyAt::beside, this);
    row->addWidget(m_choose);
    row->addWidget(m_drop);
    column->addLayout(row);
    m_description = textField(2, this);
    m_label = labelFor(m_description, tr("What is to be seen on it, for those who do not see it"), this);
    column->addWidget(m_label);
    column->addWidget(m_description);
    connect(m_choose, &BigButton::pressRequested, this, [this] { emit pressed(Press::choosePicture); });
    connect(m_drop, &BigButton::pressRequested, this, [this] { emit pressed(Press::dropPicture); });
    connect(m_description, &QPlainTextEdit::textChanged, this,
            [this] { emit descriptionTyped(m_description->toPlainText()); });
}

void PictureSide::setState(const StepFields& step)
{
    m_box->setState(step);
    m_drop->setEnabled(step.hasPicture);
    m_label->setVisible(step.hasPicture);
    m_description->setVisible(step.hasPicture);
    putInto(*m_description, step.description);
}

void PictureSide::toDescription()
{
    (m_description->isVisibleTo(this) ? static_cast<QWidget*>(m_description) : m_choose)
        ->setFocus(Qt::OtherFocusReason);
}

} // namespace vh::write
