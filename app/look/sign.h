#pragma once
// The few signs that help somebody with weak sight to find a control again; always beside words, never instead of them.
// Drawn for Voicehall as SVG (app/look/signs) in one colour, which is given when they are painted. GUI thread.
#include <QtGlobal>

class QColor;
class QPainter;
class QRectF;

namespace vh::look
{

enum class Sign : quint8 {
    help,
    hello,
    write,
    choices,
    seen,
    unseen,
    leave,
    tick,
    undo,
    carried,
    heard,
    unheard,
    paper
};
inline constexpr int kSignCount = 13;

/// As large as fits into the middle of `where`, in `colour`.
void paintSign(QPainter& painter, Sign sign, const QRectF& where, const QColor& colour);

} // namespace vh::look
