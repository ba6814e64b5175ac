#include "app/lead/worth_box.h"

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

constexpr int kInset = 14;

int lineOf(Type type)
{
    return static_cast<int>(std::ceil(QFontMetricsF(Look::current().font(type)).height()));
}

/// In the largest type the room between lines goes to the hall above.
bool isTight()
{
    return Look::current().textSize() == look::TextSize::largest;
}

int rowHeight()
{
    return lineOf(Type::note) + (isTight() ? 0 : 4);
}

int padding()
{
    return isTight() ? Space::hair : Space::small;
}

} // namespace

/// One line: its key in a box, the words, and whether its word has gone out.
class WorthBox::Line : public QAbstractButton
{
public:
    Line(int number, QWidget* parent) : QAbstractButton(parent), m_number(number) { setFocusPolicy(Qt::TabFocus); }

    void setState(const WorthLineState* state)
    {
        setVisible(state != nullptr);
        if (!state || *state == m_state)
            return;
        m_state = *state;
        setAccessibleName(m_state.said ? tr("%1. Word sent.").arg(m_state.words.value(0)) : m_state.words.value(0));
        setAccessibleDescription(tr("Key %1 sends: %2").arg(m_number).arg(m_state.word));
        setToolTip(
            tr("%1\nKey %2 sends: %3").arg(m_state.words.value(0)).arg(m_number).arg(m_state.word).toHtmlEscaped());
        update();
    }
    [[nodiscard]] int wordsRoom() const { return width() - keyWidth() - Space::small - asideWidth(); }
    [[nodiscard]] QString shown() const
    {
        const QFontMetrics metrics(Look::current().font(Type::note));
        for (const QString& words : m_state.words)
            if (metrics.horizontalAdvance(words) <= wordsRoom())
                return words;
        return metrics.elidedText(m_state.words.value(m_state.words.size() - 1), Qt::ElideMiddle, wordsRoom());
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        const look::Palette& colours = Look::current().palette();
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        const QRectF key(1, 3, keyWidth() - 2, height() - 6);
        painter.setPen(QPen(m_state.said ? colours.line : colours.deep2, 1.5));
        painter.setBrush(isDown() ? colours.quiet : colours.sheet);
        painter.drawRoundedRect(key, 6, 6);
        painter.setFont(Look::current().font(Type::fine));
        painter.setPen(m_state.said ? colours.secondInk : colours.deep);
        painter.drawText(key, Qt::AlignCenter, QString::number(m_number));
        painter.setFont(Look::current().font(Type::note));
        painter.setPen(colours.ink);
        const QRect words(keyWidth() + Space::small, 0, wordsRoom(), height());
        const QString line = shown();
        painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter, line);
        if (m_state.said && asideWidth() > 0) {
            painter.setPen(colours.secondInk);
            painter.drawText(rect(), Qt::AlignRight | Qt::AlignVCenter, tr("sent"));
        }
        if (hasFocus()) {
            painter.setPen(QPen(colours.deep, Space::focusRing));
            painter.setBrush(Qt::NoBrush);
            painter.drawRoundedRect(QRectF(rect()).adjusted(1.5, 1.5, -1.5, -1.5), 8, 8);
        }
    }

private:
    [[nodiscard]] static int keyWidth() { return rowHeight() - 4; }
    [[nodiscard]] int asideWidth() const
    {
        return m_state.said
                   ? QFontMetrics(Look::current().font(Type::note)).horizontalAdvance(tr("sent")) + Space::small
                   : 0;
    }
    int m_number;
    WorthLineState m_state;
};

/// The head of the box, and after a private word what came of it; readers hear that at once.
class WorthBox::Status : public SpokenWidget
{
public:
    explicit Status(QWidget* parent) : SpokenWidget(QAccessible::AlertMessage, parent) {}
    void setState(const QString& sent, bool anybody)
    {
        if (sent == m_sent && anybody == m_anybody)
            return;
        const bool news = sent != m_sent && !sent.isEmpty();
        m_sent = sent;
        m_anybody = anybody;
        if (news)
            alert(sent);
        else
            say(sent.isEmpty() ? tr("Worth a word") : sent);
        update();
    }

protected:
    void paintEvent(QPaintEvent*) override
    {
        const look::Palette& colours = Look::current().palette();
        QPainter painter(this);
        painter.setFont(Look::current().font(Type::note, look::Weight::bold));
        painter.setPen(colours.ink);
        const QString head = tr("Worth a word");
        const int wide = painter.fontMetrics().horizontalAdvance(head) + Space::gap;
        painter.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, head);
        painter.setFont(Look::current().font(Type::note));
        painter.setPen(colours.secondInk);
        const QString words = !m_sent.isEmpty() ? m_sent : m_anybody ? QString() : tr("Nobody just now.");
        painter.drawText(rect().adjusted(wide, 0, 0, 0), Qt::AlignRight | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(words, Qt::ElideMiddle, width() - wide));
    }

private:
    QString m_sent;
    bool m_anybody = true;
};

WorthBox::WorthBox(QWidget* parent) : QWidget(parent), m_status(new Status(this))
{
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    for (int i = 0; i < static_cast<int>(kWorthAtMost); ++i) {
        auto* line = new Line(i + 1, this);
        connect(line, &QAbstractButton::clicked, this, [this, i] { emit wordRequested(i); });
        line->hide();
        m_lines.push_back(line);
    }
}

void WorthBox::setState(const std::vector<WorthLineState>& lines, const QString& sent)
{
    for (std::size_t i = 0; i < m_lines.size(); ++i)
        m_lines[i]->setState(i < lines.size() ? &lines[i] : nullptr);
    m_status->setState(sent, !lines.empty());
}

QSize WorthBox::sizeHint() const
{
    return {500, lineOf(Type::note) + static_cast<int>(kWorthAtMost) * rowHeight() + 2 * padding() + 2};
}

void WorthBox::place()
{
    const int wide = width() - 2 * kInset;
    int y = padding();
    m_status->setGeometry(kInset, y, wide, lineOf(Type::note));
    y += lineOf(Type::note) + 2;
    for (Line* line : m_lines) {
        line->setGeometry(kInset, y, wide, rowHeight());
        y += rowHeight();
    }
}

void WorthBox::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    place();
}

void WorthBox::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) {
        updateGeometry();
        place();
    }
}

void WorthBox::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    look::paintSheet(painter, QRectF(rect()), Look::current().palette().sheet);
}

} // namespace vh::lead
