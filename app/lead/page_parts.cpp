#include "app/lead/page_parts.h"

#include "app/look/look.h"

#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace vh::lead
{

using look::Look;
using look::Space;

namespace
{
constexpr int kRuleRoom = 14;
}

OneLine::OneLine(look::Type type, Ink ink, QWidget* parent)
    : SpokenWidget(QAccessible::StaticText, parent), m_type(type), m_ink(ink)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void OneLine::setTexts(const QStringList& texts)
{
    if (texts == m_texts)
        return;
    m_texts = texts;
    say(texts.value(0));
    tellPointer();
    updateGeometry();
    update();
}

QFont OneLine::inkFont() const
{
    return Look::current().font(m_type, m_bold ? look::Weight::bold : look::Weight::regular);
}

QString OneLine::shown() const
{
    const QFontMetrics metrics(inkFont());
    for (const QString& text : m_texts)
        if (metrics.horizontalAdvance(text) <= width())
            return text;
    return metrics.elidedText(m_texts.value(m_texts.size() - 1),
                              m_shorten == Shorten::middle ? Qt::ElideMiddle : Qt::ElideRight, width());
}

void OneLine::tellPointer()
{
    const QString whole = m_texts.value(0);
    setToolTip(shown() == whole ? QString() : whole.toHtmlEscaped());
}

void OneLine::resizeEvent(QResizeEvent* event)
{
    SpokenWidget::resizeEvent(event);
    tellPointer();
}

QSize OneLine::sizeHint() const
{
    const QFontMetricsF metrics(inkFont());
    return {static_cast<int>(std::ceil(metrics.horizontalAdvance(m_texts.value(0)))) + 2,
            static_cast<int>(std::ceil(metrics.height())) + (m_ruled ? kRuleRoom : 2)};
}

QSize OneLine::minimumSizeHint() const
{
    // Several wordings: the shortest is whole.
    const double least =
        m_texts.size() > 1 ? QFontMetricsF(inkFont()).horizontalAdvance(m_texts.value(m_texts.size() - 1)) + 2 : 60;
    return {static_cast<int>(std::ceil(least)), sizeHint().height()};
}

void OneLine::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setFont(inkFont());
    const look::Palette& colours = Look::current().palette();
    painter.setPen(m_ink == Ink::main ? colours.ink : colours.secondInk);
    if (m_ruled)
        painter.fillRect(QRect(0, 0, width(), 1), colours.line);
    painter.drawText(rect().adjusted(0, m_ruled ? kRuleRoom - 4 : 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter, shown());
}

// --- words one after another -----------------------------------------------------------------------------------------

WordFlow::WordFlow(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void WordFlow::setItems(const std::vector<Item>& items)
{
    if (items == m_items)
        return;
    m_items = items;
    QStringList all;
    for (const Item& item : items)
        all << item.words;
    say(all.join(QStringLiteral(", ")));
    update();
}

void WordFlow::setLines(int lines)
{
    if (lines == m_lines)
        return;
    m_lines = lines;
    updateGeometry();
}

std::vector<QPoint> WordFlow::starts(int width) const
{
    std::vector<QPoint> starts;
    QPoint at;
    for (const Item& item : m_items) {
        const QFontMetrics metrics(Look::current().font(look::Type::note, item.weight));
        const int wide = metrics.horizontalAdvance(item.words);
        if (at.x() > 0 && (item.alone || at.x() + wide > width))
            at = {0, at.y() + 1};
        starts.push_back(at);
        at = item.alone ? QPoint(0, at.y() + 1) : QPoint(at.x() + wide + Space::gap, at.y());
    }
    return starts;
}

int WordFlow::linesFor(int width) const
{
    const auto where = starts(width);
    return where.empty() ? 0 : where.back().y() + 1;
}

QSize WordFlow::sizeHint() const
{
    const double line = QFontMetricsF(Look::current().font(look::Type::note)).height();
    return {400, static_cast<int>(std::ceil(line)) * m_lines};
}

void WordFlow::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    const int line = height() / std::max(m_lines, 1);
    const auto where = starts(width());
    for (std::size_t i = 0; i < m_items.size(); ++i) {
        painter.setFont(Look::current().font(look::Type::note, m_items[i].weight));
        painter.setPen(m_items[i].ink);
        const QRect at(where[i].x(), where[i].y() * line, width() - where[i].x(), line);
        painter.drawText(at, Qt::AlignLeft | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(m_items[i].words, Qt::ElideMiddle, at.width()));
    }
}

namespace
{
constexpr int kNoteIndent = 16;
}

NoteText::NoteText(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void NoteText::setText(const QString& text)
{
    if (text == m_text)
        return;
    m_text = text;
    say(text.isEmpty() ? QString() : tr("Note: %1").arg(text));
    updateGeometry();
    update();
}

int NoteText::heightForWidth(int width) const
{
    if (m_text.isEmpty())
        return 0;
    const QFontMetricsF metrics(Look::current().font(look::Type::note));
    const QRectF room(0, 0, std::max(width - kNoteIndent, 60), 1e6);
    return static_cast<int>(std::ceil(metrics.boundingRect(room, Qt::TextWordWrap, m_text).height())) + 4;
}

void NoteText::paintEvent(QPaintEvent*)
{
    if (m_text.isEmpty())
        return;
    QPainter painter(this);
    const look::Palette& colours = Look::current().palette();
    painter.fillRect(QRect(0, 0, 4, height()), colours.stretch);
    painter.setFont(Look::current().font(look::Type::note));
    painter.setPen(colours.secondInk);
    painter.drawText(rect().adjusted(kNoteIndent, 1, 0, 0), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, m_text);
}

void paintHeavySheet(QPainter& painter, const QRectF& where)
{
    constexpr double kFrame = 3;
    constexpr double kBar = 10;
    const look::Palette& colours = Look::current().palette();
    const QRectF sheet = where.adjusted(kFrame / 2, kFrame / 2, -kFrame / 2, -kFrame / 2);
    look::paintSheet(painter, sheet, colours.sheet);
    painter.setPen(QPen(colours.deep, kFrame));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(sheet, Space::corner, Space::corner);
    painter.save();
    painter.setClipRect(QRectF(sheet.topLeft(), QSizeF(kBar, sheet.height())));
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours.deep);
    painter.drawRoundedRect(sheet, Space::corner, Space::corner);
    painter.restore();
}

DeepSign::DeepSign(QWidget* parent) : SpokenWidget(QAccessible::AlertMessage, parent)
{
    hide();
}

void DeepSign::setText(const QString& text)
{
    if (text == m_text)
        return;
    m_text = text;
    alert(text);
    update();
}

void DeepSign::setBand(const QRect& band)
{
    m_band = band;
    update();
}

void DeepSign::mousePressEvent(QMouseEvent*)
{
    window()->activateWindow();
}

void DeepSign::paintEvent(QPaintEvent*)
{
    constexpr int kFrame = 10;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const look::Palette& colours = Look::current().palette();
    painter.setPen(QPen(colours.deep, kFrame, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.drawRect(QRectF(rect()).adjusted(kFrame / 2.0, kFrame / 2.0, -kFrame / 2.0, -kFrame / 2.0));
    look::paintSheet(painter, QRectF(m_band), colours.deep);
    painter.setPen(colours.onDeep);
    const QRect words = m_band.adjusted(Space::wide, 0, -Space::wide, 0);
    painter.setFont(Look::current().font(look::Type::heading));
    if (painter.fontMetrics().horizontalAdvance(m_text) > words.width())
        painter.setFont(Look::current().font(look::Type::title));
    painter.drawText(words, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextWordWrap, m_text);
}

} // namespace vh::lead
