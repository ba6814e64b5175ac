#include "app/widgets/cue_badge.h"
#include "app/look/look.h"

#include <QCoreApplication>
#include <QPainter>

#include <cmath>

namespace vh
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr double kChipHeight = 40;
constexpr double kCuePitch = 2.4; // of a capital's height

double chipWidth(const QString& words)
{
    return std::ceil(QFontMetricsF(Look::current().font(Type::control)).horizontalAdvance(words)) + 2 * 17;
}

double besideWidth(const QString& words)
{
    return words.isEmpty()
               ? 0
               : Space::wide + std::ceil(QFontMetricsF(Look::current().font(Type::control)).horizontalAdvance(words));
}

double chipHeight()
{
    return std::max(kChipHeight, std::ceil(QFontMetricsF(Look::current().font(Type::control)).height()) + 4);
}

} // namespace

QString wordsOf(TurnKind turn)
{
    switch (turn) {
    case TurnKind::listen:
        return QCoreApplication::translate("turn", "Listen");
    case TurnKind::ready:
        return QCoreApplication::translate("turn", "Ready");
    case TurnKind::withMe:
        return QCoreApplication::translate("turn", "With me");
    case TurnKind::yours:
        return QCoreApplication::translate("turn", "You");
    }
    return {};
}

QString CueBadge::wordsOf(const State& state)
{
    if (!state.turn)
        return state.words;
    const QString turn = vh::wordsOf(*state.turn);
    const bool speaks = *state.turn == TurnKind::withMe || *state.turn == TurnKind::yours;
    return state.moreVoice && speaks ? tr("%1, with more voice").arg(turn) : turn;
}

CueBadge::CueBadge(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void CueBadge::setState(const State& state)
{
    if (state == m_state)
        return;
    m_state = state;
    alert(wordsOf(m_state));
    updateGeometry();
    update();
}

QSize CueBadge::sizeHint() const
{
    const QFontMetricsF metrics(Look::current().font(Type::cue));
    const QString words = wordsOf(m_state);
    const double width = words.isEmpty() ? 0 : metrics.horizontalAdvance(words) + 2 * 26;
    return {static_cast<int>(std::ceil(width)), static_cast<int>(std::ceil(kCuePitch * metrics.capHeight()))};
}

void CueBadge::paintEvent(QPaintEvent* /*event*/)
{
    const QString words = wordsOf(m_state);
    if (words.isEmpty())
        return;
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    // Filled where the person is to speak, outlined where not: shape says it too.
    const bool speaks = m_state.turn == TurnKind::withMe || m_state.turn == TurnKind::yours;
    painter.setPen(QPen(speaks ? colours.deep : colours.deep2, 3));
    painter.setBrush(speaks ? colours.deep : colours.sheet);
    const QRectF body = QRectF(0, 0, sizeHint().width(), height()).adjusted(1.5, 1.5, -1.5, -1.5);
    painter.drawRoundedRect(body, Space::corner, Space::corner);
    painter.setPen(speaks ? colours.onDeep : colours.deep);
    painter.setFont(Look::current().font(Type::cue));
    painter.drawText(body, Qt::AlignCenter, words);
}

TurnRow::TurnRow(QWidget* parent) : SpokenWidget(QAccessible::StaticText, parent)
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void TurnRow::setState(const State& state)
{
    if (state == m_state)
        return;
    const bool otherTurn = state.current != m_state.current || state.turns != m_state.turns;
    m_state = state;
    // The countdown beside it changes every second; a reader says the turn only.
    const auto index = static_cast<std::size_t>(m_state.current);
    if (otherTurn)
        say(m_state.current >= 0 && index < m_state.turns.size() ? tr("Turn: %1").arg(wordsOf(m_state.turns[index]))
                                                                 : tr("No turn"));
    updateGeometry();
    update();
}

QSize TurnRow::sizeHint() const
{
    double width = 0;
    for (const TurnKind turn : m_state.turns)
        width += chipWidth(wordsOf(turn)) + Space::small;
    return {static_cast<int>(width + besideWidth(m_state.beside.value(0))), static_cast<int>(chipHeight())};
}

QSize TurnRow::minimumSizeHint() const
{
    return {static_cast<int>(chipsWidth()), sizeHint().height()};
}

double TurnRow::chipsWidth() const
{
    double width = 0;
    for (const TurnKind turn : m_state.turns)
        width += chipWidth(wordsOf(turn)) + Space::small;
    return width;
}

int TurnRow::heightForWidth(int width) const
{
    double four = besideWidth(tr("with more voice \u00B7 0:00"));
    for (const TurnKind turn : {TurnKind::listen, TurnKind::ready, TurnKind::withMe, TurnKind::yours})
        four += chipWidth(wordsOf(turn)) + Space::small;
    const double below = std::ceil(QFontMetricsF(Look::current().font(Type::control)).height());
    return static_cast<int>(four <= width ? chipHeight() : chipHeight() + below);
}

QString TurnRow::besideShown() const
{
    const bool under = height() > static_cast<int>(chipHeight());
    const double room = under ? width() : width() - chipsWidth();
    for (const QString& words : m_state.beside)
        if (besideWidth(words) - (under ? Space::wide : 0) <= room)
            return words;
    return m_state.beside.value(m_state.beside.size() - 1);
}

void TurnRow::paintEvent(QPaintEvent* /*event*/)
{
    const look::Palette& colours = Look::current().palette();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(Look::current().font(Type::control));
    double x = 0;
    for (std::size_t i = 0; i < m_state.turns.size(); ++i) {
        const QString words = wordsOf(m_state.turns[i]);
        const QRectF chip(x + 1, 1, chipWidth(words), chipHeight() - 2);
        const bool now = static_cast<int>(i) == m_state.current;
        painter.setPen(QPen(now ? colours.deep : colours.line, 1.5));
        painter.setBrush(now ? QBrush(colours.deep) : QBrush(Qt::NoBrush));
        painter.drawRoundedRect(chip, chip.height() / 2, chip.height() / 2);
        painter.setPen(now ? colours.onDeep : colours.secondInk);
        painter.drawText(chip, Qt::AlignCenter, words);
        x += chip.width() + Space::small;
    }
    painter.setPen(colours.ink);
    const bool under = height() > static_cast<int>(chipHeight());
    const double left = under ? 2 : x + Space::wide - Space::small;
    const double top = under ? chipHeight() : 0;
    painter.drawText(QRectF(left, top, width() - left, height() - top), Qt::AlignVCenter | Qt::AlignLeft,
                     besideShown());
}

} // namespace vh
