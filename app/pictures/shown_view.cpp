#include "app/pictures/shown_view.h"

#include "app/look/look.h"
#include "app/pictures/picture_box.h"
#include "app/widgets/plain_label.h"

#include <QPainter>
#include <QVBoxLayout>

namespace vh::pictures
{

using look::Space;

namespace
{
constexpr qsizetype kMostCaption = 160; // what stands below without taking the picture's room
}

QString captionOf(const QString& name, const QString& text)
{
    const QString line = text.simplified();
    const QString words = line.size() <= kMostCaption ? line : line.left(kMostCaption - 1).trimmed() + QChar(0x2026);
    if (name.isEmpty() || words.isEmpty())
        return name + words;
    return QStringLiteral("%1: %2").arg(name, words);
}

ShownView::ShownView(QWidget* parent) : QWidget(parent)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::wide, Space::wide, Space::wide, Space::gap);
    column->setSpacing(Space::gap);
    m_picture = new PictureBox(this, look::Type::heading);
    m_caption = plainLabel(this, "heading");
    m_caption->setAlignment(Qt::AlignHCenter);
    column->addWidget(m_picture, 1);
    column->addWidget(m_caption);
}

void ShownView::setState(const ShownPicture& shown)
{
    m_picture->setState({shown.picture,
                         shown.caption.isEmpty() ? tr("A picture") : tr("A picture. %1").arg(shown.caption),
                         shown.words});
    m_caption->setText(shown.caption);
    m_caption->setVisible(!shown.caption.isEmpty());
}

void ShownView::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), look::Look::current().palette().sheet);
}

} // namespace vh::pictures
