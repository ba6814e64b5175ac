#include "app/widgets/hall_view.h"

#include "app/look/look.h"
#include "app/widgets/hall_access.h"

#include <QAccessible>
#include <QEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>
#include <limits>

namespace vh
{

using look::Look;
using look::Type;

namespace
{

/// No seat looks like this: draw it.
constexpr SeatPictures::Key kNothingYet = std::numeric_limits<SeatPictures::Key>::max();
constexpr SeatPictures::Key kEmptySeat = kNothingYet - 1;
/// Room for the focus ring of the outermost seats.
constexpr int kEdge = 4;

int lineHeight()
{
    return static_cast<int>(std::ceil(QFontMetricsF(Look::current().font(Type::fine)).height()));
}

} // namespace

HallView::HallView(QWidget* parent) : QWidget(parent)
{
    useHallAccess();
    setFocusPolicy(Qt::TabFocus);
    setMouseTracking(true);
    setAccessibleName(tr("The hall"));
    setAccessibleDescription(tr("Arrows move from seat to seat, Enter opens a seat"));
}

HallView::~HallView() = default;

void HallView::setState(const State& state)
{
    if (state == m_state)
        return;
    const bool otherHall = state.places != m_state.places;
    const auto before = m_state.seats.size();
    const QString focused = rowAt(m_focus) ? wordsOf(*rowAt(m_focus)) : QString();
    bool otherNames = otherHall || before != state.seats.size();
    for (std::size_t i = 0; i < state.seats.size() && !otherNames; ++i)
        otherNames = state.seats[i].name != m_state.seats[i].name || state.seats[i].place != m_state.seats[i].place;
    m_state = state;
    takePlaces();
    if (otherHall)
        layOut();
    if (otherNames)
        m_stale = true;
    if (const SeatRow* row = rowAt(m_focus); row && wordsOf(*row) != focused) {
        QAccessibleEvent changed(this, QAccessible::NameChanged);
        changed.setChild(childOf(*this, m_focus));
        QAccessible::updateAccessibility(&changed);
    }
    update();
}

void HallView::takePlaces()
{
    const auto places = static_cast<std::size_t>(std::max(m_state.places, 0));
    m_rowOf.assign(places, -1);
    m_wanted.assign(places, kEmptySeat);
    m_shown.resize(places, kNothingYet);
    for (std::size_t i = 0; i < m_state.seats.size(); ++i) {
        const SeatRow& row = m_state.seats[i];
        if (row.place < 0 || row.place >= m_state.places)
            continue;
        const auto place = static_cast<std::size_t>(row.place);
        m_rowOf[place] = static_cast<int>(i);
        m_wanted[place] = SeatPictures::keyOf(row.standing, row.overUsualDb, row.band);
    }
    if (m_focus >= m_state.places)
        m_focus = -1;
    m_hover = m_hover >= m_state.places ? -1 : m_hover;
}

const SeatRow* HallView::rowAt(int place) const
{
    if (place < 0 || place >= static_cast<int>(m_rowOf.size()) || m_rowOf[static_cast<std::size_t>(place)] < 0)
        return nullptr;
    return &m_state.seats[static_cast<std::size_t>(m_rowOf[static_cast<std::size_t>(place)])];
}

QString HallView::wordsOf(const SeatRow& row)
{
    QStringList facts{sentenceOf(row.standing, row.reason), vh::wordsOf(row.heard)};
    facts.removeAll(QString());
    return facts.isEmpty() ? row.name : tr("%1: %2").arg(row.name, facts.join(QStringLiteral(", ")));
}

int HallView::captionHeight() const
{
    return m_state.places > HallLayout::kMostNamed ? lineHeight() + 6 : 0;
}

QSize HallView::roomForSeats() const
{
    return QSize(width() - 2 * kEdge, height() - 2 * kEdge - captionHeight()).expandedTo(QSize(1, 1));
}

void HallView::layOut()
{
    const QSize room = roomForSeats();
    m_layout = HallLayout(m_state.places, room, lineHeight(), m_zoom);
    m_origin = QPoint(kEdge + std::max(0, (room.width() - m_layout.content().width()) / 2), kEdge);
    const QSize over = m_layout.content() - room;
    m_scroll = QPoint(std::clamp(m_scroll.x(), 0, std::max(over.width(), 0)),
                      std::clamp(m_scroll.y(), 0, std::max(over.height(), 0)));
    m_pictures.become(m_layout.column().size(), devicePixelRatioF());
    m_stale = true;
    update();
}

QRect HallView::columnOf(int place) const
{
    return m_layout.column().translated(rectOf(place).topLeft());
}

// --- painting --------------------------------------------------------------------------------------------------------

void HallView::takePictures()
{
    const double ratio = devicePixelRatioF();
    const QSize device = (QSizeF(size()) * ratio).toSize();
    if (m_canvas.size() != device || m_stale) {
        m_canvas = QImage(device, QImage::Format_RGB32);
        m_canvas.setDevicePixelRatio(ratio);
        m_canvas.fill(Look::current().palette().paper);
        std::fill(m_shown.begin(), m_shown.end(), kNothingYet);
        if (m_layout.named()) {
            QPainter painter(&m_canvas);
            painter.setFont(Look::current().font(Type::fine));
            painter.setPen(Look::current().palette().ink);
            for (const SeatRow& row : m_state.seats)
                paintName(painter, row.place);
        }
        m_stale = false;
    }
    for (std::size_t place = 0; place < m_wanted.size(); ++place) {
        if (m_shown[place] == m_wanted[place])
            continue;
        m_shown[place] = m_wanted[place];
        const QRect at = columnOf(static_cast<int>(place));
        const QPoint pixel(static_cast<int>(std::lround(at.x() * ratio)),
                           static_cast<int>(std::lround(at.y() * ratio)));
        if (m_wanted[place] != kEmptySeat) {
            copyInto(m_canvas, pixel, m_pictures.of(m_wanted[place]));
            continue;
        }
        QPainter painter(&m_canvas); // an empty seat: a line on the floor
        painter.fillRect(at, Look::current().palette().paper);
        const int inset = at.width() / 5;
        painter.fillRect(QRect(at.left() + inset, at.bottom() - 1, at.width() - 2 * inset, at.height() > 16 ? 2 : 1),
                         Look::current().palette().line);
    }
}

QRect HallView::nameRect(int place) const
{
    const QRect at = rectOf(place);
    return {at.left() + 1, columnOf(place).bottom() + 3, at.width() - 2, lineHeight()};
}

/// The one who is heard by all: the name on a deep ground, or a frame round the column where there are no names. Asked
/// only: an outline.
void HallView::paintHeard(QPainter& painter, const SeatRow& row) const
{
    const look::Palette& colours = Look::current().palette();
    const bool yes = row.heard == HeardByAll::yes;
    painter.setPen(QPen(yes ? colours.deep : colours.deep2, 2, yes ? Qt::SolidLine : Qt::DashLine));
    painter.setBrush(Qt::NoBrush);
    if (!m_layout.named()) {
        painter.drawRoundedRect(QRectF(columnOf(row.place)).adjusted(-2, -2, 2, 2), 3, 3);
        return;
    }
    const QRect name = nameRect(row.place);
    painter.setFont(Look::current().font(Type::fine));
    const QString words = painter.fontMetrics().elidedText(row.name, Qt::ElideRight, name.width() - 6);
    const int wide = std::min(painter.fontMetrics().horizontalAdvance(words) + 14, name.width());
    QRectF ground(0, 0, wide, name.height());
    ground.moveCenter(QRectF(name).center());
    painter.setBrush(yes ? colours.deep : colours.paper);
    painter.drawRoundedRect(ground.adjusted(1, 0, -1, 0), 6, 6);
    painter.setPen(yes ? colours.onDeep : colours.ink);
    painter.drawText(name, Qt::AlignHCenter | Qt::AlignVCenter, words);
}

void HallView::paintName(QPainter& painter, int place) const
{
    const SeatRow* row = rowAt(place);
    const QRect at = rectOf(place);
    if (!row || !at.intersects(rect()))
        return;
    const QRect name = nameRect(place);
    painter.drawText(name, Qt::AlignHCenter | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(row->name, Qt::ElideRight, name.width()));
}

void HallView::paintEvent(QPaintEvent* event)
{
    takePictures();
    QPainter painter(this);
    const double ratio = devicePixelRatioF();
    const QRect dirty = event->rect();
    painter.drawImage(QRectF(dirty), m_canvas, QRectF(QPointF(dirty.topLeft()) * ratio, QSizeF(dirty.size()) * ratio));
    const look::Palette& colours = Look::current().palette();
    if (captionHeight() > 0)
        paintCaption(painter);
    painter.setRenderHint(QPainter::Antialiasing);
    for (const SeatRow& row : m_state.seats)
        if (row.heard != HeardByAll::no && rowAt(row.place) && rectOf(row.place).intersects(rect()))
            paintHeard(painter, row);
    painter.setBrush(Qt::NoBrush);
    if (hasFocus() && m_focus >= 0) {
        painter.setPen(QPen(colours.deep, look::Space::focusRing));
        const double out = m_layout.named() ? -1.5 : 1.5;
        painter.drawRoundedRect(QRectF(rectOf(m_focus)).adjusted(-out, -out, out, out), 4, 4);
    }
    if (rowAt(m_hover) && m_hover != m_focus) {
        painter.setPen(QPen(colours.deep2, 1.5));
        painter.drawRoundedRect(QRectF(rectOf(m_hover)).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
    }
}

void HallView::paintCaption(QPainter& painter) const
{
    const look::Palette& colours = Look::current().palette();
    const QRect line(0, height() - captionHeight(), width(), captionHeight());
    painter.fillRect(line, colours.paper);
    const SeatRow* row = rowAt(m_hover) ? rowAt(m_hover) : hasFocus() ? rowAt(m_focus) : nullptr;
    painter.setFont(Look::current().font(Type::fine));
    painter.setPen(row ? colours.ink : colours.secondInk);
    const QString words = row ? wordsOf(*row) : tr("Point at a seat, or press Tab and the arrows. + and \u2212 zoom.");
    painter.drawText(line, Qt::AlignLeft | Qt::AlignBottom,
                     painter.fontMetrics().elidedText(words, Qt::ElideRight, line.width()));
}

void HallView::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    layOut();
}

void HallView::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        layOut();
}

// --- looking about ---------------------------------------------------------------------------------------------------

} // namespace vh
