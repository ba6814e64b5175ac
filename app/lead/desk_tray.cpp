#include "app/lead/desk_tray.h"

#include "app/look/look.h"

#include <QAbstractButton>
#include <QEvent>
#include <QPainter>

#include <cmath>

namespace vh::lead
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr int kPad = 4; ///< above and below a line

/// Read from farther away than what stands above it; in the largest type as large as the notes.
Type typeNow()
{
    return Look::current().textSize() == look::TextSize::largest ? Type::note : Type::body;
}

int lineHeight()
{
    return static_cast<int>(std::ceil(QFontMetricsF(Look::current().font(typeNow())).height()));
}

} // namespace

/// One question: its key in a box, who asks, and the line as far as it fits.
class DeskTray::Place : public QAbstractButton
{
public:
    Place(int key, QWidget* parent) : QAbstractButton(parent), m_key(key) { setFocusPolicy(Qt::TabFocus); }

    void setState(const DeskLine& line)
    {
        if (line == m_line)
            return;
        m_line = line;
        if (line.item == 0) { // the hall may be covered: nobody's name is left
            setAccessibleName({});
            return setToolTip({});
        }
        // Line breaks stand on the sheet; here a question is one line.
        m_words = line.text.simplified();
        setAccessibleName(line.taking ? tr("%1 asks: %2. Taken.").arg(line.name, m_words)
                                      : tr("%1 asks: %2").arg(line.name, m_words));
        setAccessibleDescription(tr("From the desk. Key %1: taken. Key D shows all of it.").arg(m_key));
        setToolTip(QStringLiteral("%1: %2").arg(line.name, m_words).toHtmlEscaped());
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        const look::Palette& colours = Look::current().palette();
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        look::paintSheet(painter, QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5),
                         isDown() ? colours.quiet : colours.sheet);
        const int side = height() - 2 * kPad;
        const QRectF key(Space::small, kPad, side, side);
        painter.setPen(QPen(m_line.taking ? colours.line : colours.deep2, 1.5));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(key.adjusted(1, 1, -1, -1), 6, 6);
        painter.setFont(Look::current().font(Type::note));
        painter.setPen(m_line.taking ? colours.secondInk : colours.deep);
        painter.drawText(key, Qt::AlignCenter, QString::number(m_key));
        paintWords(painter, rect().adjusted(Space::small + side + Space::small, 0, -Space::gap, 0));
        if (hasFocus()) {
            painter.setPen(QPen(colours.deep, Space::focusRing));
            painter.setBrush(Qt::NoBrush);
            painter.drawRoundedRect(QRectF(rect()).adjusted(1.5, 1.5, -1.5, -1.5), Space::corner, Space::corner);
        }
    }

private:
    void paintWords(QPainter& painter, QRect room) const
    {
        const look::Palette& colours = Look::current().palette();
        painter.setPen(m_line.taking ? colours.secondInk : colours.ink);
        const auto put = [&](const QString& words, look::Weight weight, int most) {
            painter.setFont(Look::current().font(typeNow(), weight));
            const QString shown = painter.fontMetrics().elidedText(words, Qt::ElideRight, most);
            painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter, shown);
            room.setLeft(room.left() + painter.fontMetrics().horizontalAdvance(shown) + Space::small);
        };
        put(m_line.name, look::Weight::bold, room.width() / 2);
        put(m_line.taking ? tr("taken") : m_words, look::Weight::regular, room.width());
    }

    int m_key;
    DeskLine m_line;
    QString m_words;
};

DeskTray::DeskTray(QWidget* parent) : QWidget(parent)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_places.reserve(m_state.size());
    for (std::size_t i = 0; i < m_state.size(); ++i) {
        auto* made = new Place(kFirstKey + static_cast<int>(i), this);
        connect(made, &QAbstractButton::clicked, this, [this, i] { pressPlace(i); });
        made->hide();
        m_places.push_back(made);
    }
}

void DeskTray::pressPlace(std::size_t place)
{
    if (const DeskLine& line = m_state[place]; line.item != 0 && !line.taking)
        emit takeRequested(line.item);
}

void DeskTray::setState(const Places& places)
{
    if (places == m_state)
        return;
    m_state = places;
    for (std::size_t i = 0; i < m_places.size(); ++i) {
        const bool filled = m_state[i].item != 0;
        if (!filled && m_places[i]->hasFocus())
            parentWidget()->setFocus(); // the class's keys
        m_places[i]->setState(m_state[i]);
        m_places[i]->setVisible(filled);
    }
    place();
}

QSize DeskTray::sizeHint() const
{
    return {900, lineHeight() + 2 * kPad};
}

void DeskTray::place()
{
    const int count = static_cast<int>(m_places.size());
    const auto left = [&](int i) { return i * (width() + Space::gap) / count; };
    int right = width();
    for (int i = count - 1; i >= 0; --i) {
        if (m_state[static_cast<std::size_t>(i)].item == 0)
            continue;
        m_places[static_cast<std::size_t>(i)]->setGeometry(left(i), 0, right - left(i), height());
        right = left(i) - Space::gap;
    }
}

void DeskTray::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    place();
}

void DeskTray::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) {
        updateGeometry();
        place();
    }
}

} // namespace vh::lead
