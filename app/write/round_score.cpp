#include "app/write/round_score.h"

#include "app/look/look.h"
#include "app/widgets/cue_badge.h"

#include <QKeyEvent>
#include <QLocale>
#include <QPainter>

#include <array>
#include <cmath>
#include <numeric>

namespace vh::write
{

using look::Look;
using look::Type;

namespace
{

constexpr double kGap = 4;
constexpr double kLeast = 30; // px of a box
constexpr int kRowPad = 16;

struct Key {
    RoundEdit edit;
    int key;
    Qt::KeyboardModifiers with;
    const char* words;
};
constexpr std::array<Key, kRoundEdits> kKeys{{{RoundEdit::listen, Qt::Key_L, Qt::NoModifier, "L"},
                                              {RoundEdit::ready, Qt::Key_R, Qt::NoModifier, "R"},
                                              {RoundEdit::withMe, Qt::Key_W, Qt::NoModifier, "W"},
                                              {RoundEdit::yours, Qt::Key_Y, Qt::NoModifier, "Y"},
                                              {RoundEdit::shorter, Qt::Key_Minus, Qt::NoModifier, "-"},
                                              {RoundEdit::longer, Qt::Key_Plus, Qt::NoModifier, "+"},
                                              {RoundEdit::addTurn, Qt::Key_Insert, Qt::NoModifier, "Ins"},
                                              {RoundEdit::dropTurn, Qt::Key_Delete, Qt::NoModifier, "Del"},
                                              {RoundEdit::addRound, Qt::Key_N, Qt::NoModifier, "N"},
                                              {RoundEdit::dropRound, Qt::Key_Delete, Qt::ShiftModifier, "Shift+Del"},
                                              {RoundEdit::moreVoice, Qt::Key_V, Qt::NoModifier, "V"},
                                              {RoundEdit::byText, Qt::Key_T, Qt::NoModifier, "T"}}};

QString secondsOf(Millis length)
{
    return QLocale().toString(std::chrono::duration<double>(length).count(), 'g', 6);
}

Millis lengthOf(const Round& round)
{
    return std::accumulate(round.turns.begin(), round.turns.end(), Millis{0},
                           [](Millis sum, const Turn& turn) { return sum + turn.planned; });
}

} // namespace

QString RoundScore::keyOf(RoundEdit edit)
{
    return tr(kKeys[static_cast<std::size_t>(edit)].words);
}

RoundScore::RoundScore(QWidget* parent) : SpokenWidget(QAccessible::List, parent)
{
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void RoundScore::setState(const std::vector<Round>& rounds)
{
    if (rounds == m_rounds)
        return;
    const bool otherHeight = rounds.size() != m_rounds.size();
    m_rounds = rounds;
    m_at = nearestTurn(m_rounds, m_at);
    if (otherHeight)
        updateGeometry();
    tell();
    update();
}

void RoundScore::choose(TurnSpot at)
{
    m_at = nearestTurn(m_rounds, at);
    m_seconds.clear();
    tell();
    update();
}

void RoundScore::tell()
{
    if (m_rounds.empty() || m_rounds[static_cast<std::size_t>(m_at.round)].turns.empty())
        return say(tr("No turns"));
    const Round& round = m_rounds[static_cast<std::size_t>(m_at.round)];
    const Turn& turn = round.turns[static_cast<std::size_t>(m_at.turn)];
    const QString sentence = tr("Round %1 of %2%3, turn %4 of %5: %6, %7 seconds")
                                 .arg(m_at.round + 1)
                                 .arg(m_rounds.size())
                                 .arg(round.moreVoice ? tr(", with more voice") : QString())
                                 .arg(m_at.turn + 1)
                                 .arg(round.turns.size())
                                 .arg(wordsOf(turn.kind), secondsOf(turn.planned));
    hasFocus() ? alert(sentence) : say(sentence);
}

QFont RoundScore::inkFont() const
{
    return Look::current().font(Type::note);
}

double RoundScore::rowHeight() const
{
    return QFontMetricsF(inkFont()).height() + kRowPad;
}

double RoundScore::nameWidth() const
{
    const QFontMetricsF metrics(inkFont());
    return std::max(metrics.horizontalAdvance(tr("more voice")), metrics.horizontalAdvance(tr("round 10"))) + 12;
}

QSize RoundScore::sizeHint() const
{
    const double rows = static_cast<double>(std::max<std::size_t>(m_rounds.size(), 1));
    return {420, static_cast<int>(std::ceil(rows * (rowHeight() + kGap) + 8))};
}

QRectF RoundScore::boxOf(TurnSpot at) const
{
    Millis longest{1};
    std::size_t most = 1;
    for (const Round& round : m_rounds) {
        longest = std::max(longest, lengthOf(round));
        most = std::max(most, round.turns.size());
    }
    const double room = std::max(0.0, width() - 8 - nameWidth() - static_cast<double>(most) * (kLeast + kGap));
    const auto& turns = m_rounds[static_cast<std::size_t>(at.round)].turns;
    double x = 4 + nameWidth();
    for (int i = 0; i <= at.turn; ++i) {
        const double wide = kLeast + room * static_cast<double>(turns[static_cast<std::size_t>(i)].planned.count()) /
                                         static_cast<double>(longest.count());
        if (i == at.turn)
            return {x, 4 + at.round * (rowHeight() + kGap), wide, rowHeight()};
        x += wide + kGap;
    }
    return {};
}

void RoundScore::paintTurn(QPainter& painter, TurnSpot at, const Turn& turn) const
{
    const look::Palette& colours = Look::current().palette();
    const QRectF box = boxOf(at).adjusted(1, 1, -1, -1);
    const bool asks = turn.kind == TurnKind::withMe || turn.kind == TurnKind::yours;
    painter.setPen(QPen(turn.kind == TurnKind::ready ? colours.dashes : colours.deep2, 1.5,
                        turn.kind == TurnKind::ready ? Qt::DashLine : Qt::SolidLine));
    painter.setBrush(asks ? colours.deep : colours.sheet);
    painter.drawRoundedRect(box, 6, 6);
    if (at == m_at) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colours.deep, hasFocus() ? 3 : 2));
        painter.drawRoundedRect(box.adjusted(-3, -3, 3, 3), 8, 8);
    }
    const QString seconds = at == m_at && !m_seconds.isEmpty() ? m_seconds + QChar(0x2026) : secondsOf(turn.planned);
    const QFontMetricsF metrics(inkFont());
    QString words = QStringLiteral("%1 %2").arg(wordsOf(turn.kind), seconds);
    if (metrics.horizontalAdvance(words) > box.width() - 8)
        words = seconds; // whose turn it is, is seen by its box and heard
    painter.setFont(inkFont());
    painter.setPen(asks ? colours.onDeep : colours.ink);
    painter.drawText(box, Qt::AlignCenter, words);
}

void RoundScore::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int round = 0; round < static_cast<int>(m_rounds.size()); ++round) {
        const Round& here = m_rounds[static_cast<std::size_t>(round)];
        painter.setFont(inkFont());
        painter.setPen(Look::current().palette().secondInk);
        painter.drawText(QRectF(4, 4 + round * (rowHeight() + kGap), nameWidth(), rowHeight()),
                         Qt::AlignLeft | Qt::AlignVCenter,
                         here.moreVoice ? tr("more voice") : tr("round %1").arg(round + 1));
        for (int turn = 0; turn < static_cast<int>(here.turns.size()); ++turn)
            paintTurn(painter, {round, turn}, here.turns[static_cast<std::size_t>(turn)]);
    }
}

void RoundScore::mousePressEvent(QMouseEvent* event)
{
    for (int round = 0; round < static_cast<int>(m_rounds.size()); ++round)
        for (int turn = 0; turn < static_cast<int>(m_rounds[static_cast<std::size_t>(round)].turns.size()); ++turn)
            if (boxOf({round, turn}).contains(event->position()))
                choose({round, turn});
}

bool RoundScore::event(QEvent* event)
{
    // Its letters are its own while the keyboard is on it.
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        for (const Key& each : kKeys)
            if (key->key() == each.key && key->modifiers() == each.with)
                event->accept();
    }
    return SpokenWidget::event(event);
}

bool RoundScore::typeSeconds(const QKeyEvent& event)
{
    const bool digit = event.key() >= Qt::Key_0 && event.key() <= Qt::Key_9;
    const bool point = event.key() == Qt::Key_Period || event.key() == Qt::Key_Comma;
    if (digit || (point && !m_seconds.contains(u'.'))) {
        if (m_seconds.size() < 5)
            m_seconds += point ? QChar(u'.') : QChar(static_cast<char16_t>(u'0' + (event.key() - Qt::Key_0)));
    } else if (event.key() == Qt::Key_Backspace && !m_seconds.isEmpty()) {
        m_seconds.chop(1);
    } else if ((event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter) && !m_seconds.isEmpty()) {
        const double seconds = std::exchange(m_seconds, {}).toDouble();
        emit secondsRequested(seconds);
    } else {
        return false;
    }
    update();
    return true;
}

void RoundScore::keyPressEvent(QKeyEvent* event)
{
    if (typeSeconds(*event))
        return;
    const Qt::KeyboardModifiers with = event->modifiers() & ~Qt::KeypadModifier;
    switch (event->key()) {
    case Qt::Key_Left:
        return choose({m_at.round, m_at.turn - 1});
    case Qt::Key_Right:
        return choose({m_at.round, m_at.turn + 1});
    case Qt::Key_Up:
        return choose({m_at.round - 1, m_at.turn});
    case Qt::Key_Down:
        return choose({m_at.round + 1, m_at.turn});
    default:
        break;
    }
    for (const Key& each : kKeys) {
        const bool shifted = each.key == Qt::Key_Plus && with == Qt::ShiftModifier; // as some keyboards have it
        if (event->key() == each.key && (with == each.with || shifted))
            return emit editRequested(each.edit);
    }
    SpokenWidget::keyPressEvent(event);
}

void RoundScore::focusInEvent(QFocusEvent*)
{
    update();
}

void RoundScore::focusOutEvent(QFocusEvent*)
{
    m_seconds.clear();
    update();
}

} // namespace vh::write
