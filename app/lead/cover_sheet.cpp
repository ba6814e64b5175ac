#include "app/lead/cover_sheet.h"

#include "app/look/look.h"

#include <QPainter>
#include <QPainterPath>

namespace vh::lead
{

using look::Look;
using look::Space;
using look::Type;

CoverSheet::CoverSheet(QWidget* parent) : SpokenWidget(QAccessible::AlertMessage, parent)
{
    setWords({});
}

void CoverSheet::setWords(const QString& words)
{
    m_words = words;
    const QString covered = tr("The hall is covered. Press C to uncover it.");
    alert(words.isEmpty() ? covered : tr("%1 %2").arg(covered, words));
    update();
}

void CoverSheet::paintEvent(QPaintEvent*)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF sheet = QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5);
    look::paintSheet(painter, sheet, colours.quiet);
    // Low waves, one above the other, as on a still lake.
    QPainterPath clip;
    clip.addRoundedRect(sheet.adjusted(1, 1, -1, -1), Space::corner, Space::corner);
    painter.setClipPath(clip);
    painter.setPen(QPen(colours.line, 2));
    constexpr double kWave = 96;
    constexpr double kStep = 28;
    for (double y = kStep; y < height() + kStep; y += kStep) {
        QPainterPath wave(QPointF(-kWave, y));
        const double shift = static_cast<int>(y / kStep) % 2 == 0 ? 0 : kWave / 2;
        for (double x = -kWave + shift; x < width() + kWave; x += kWave)
            wave.cubicTo(x + kWave / 4, y - 9, x + kWave * 3 / 4, y + 9, x + kWave, y);
        painter.drawPath(wave);
    }
    const QFont heading = Look::current().font(Type::heading);
    const QFont body = Look::current().font(Type::body);
    const QString title = tr("The hall is covered");
    const QString how = tr("Press C to uncover it. Your script and its keys go on.");
    const int wide = std::min(width() - 2 * Space::wide, 460);
    const QRect room(0, 0, wide - 2 * Space::wide, 1000);
    const QRect titleAt = QFontMetrics(heading).boundingRect(room, Qt::TextWordWrap, title);
    const QRect howAt = QFontMetrics(body).boundingRect(room, Qt::TextWordWrap, how);
    const QRect wordsAt =
        m_words.isEmpty() ? QRect() : QFontMetrics(body).boundingRect(room, Qt::TextWordWrap, m_words);
    const int tall = titleAt.height() + howAt.height() + wordsAt.height() + 2 * Space::wide + 2 * Space::small;
    const QRect card((width() - wide) / 2, (height() - tall) / 2, wide, tall);
    look::paintSheet(painter, QRectF(card), colours.sheet);
    QRect at = card.adjusted(Space::wide, Space::wide, -Space::wide, -Space::wide);
    const auto put = [&](const QFont& font, const QColor& ink, const QString& words, int height) {
        painter.setFont(font);
        painter.setPen(ink);
        at.setHeight(height);
        painter.drawText(at, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, words);
        at.translate(0, height + Space::small);
    };
    put(heading, colours.ink, title, titleAt.height());
    put(body, colours.secondInk, how, howAt.height());
    if (!m_words.isEmpty())
        put(Look::current().font(Type::body, look::Weight::bold), colours.ink, m_words, wordsAt.height());
}

} // namespace vh::lead
