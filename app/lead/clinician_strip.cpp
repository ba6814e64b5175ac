#include "app/lead/clinician_strip.h"

#include "app/lead/page_parts.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QTextLayout>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace vh::lead
{

using look::Look;
using look::Space;
using look::Type;

namespace
{
constexpr int kLeastLines = 2;
} // namespace

/// As many lines as there is room for, two at least; the last one ends in an ellipsis where more would come.
class ClinicianStrip::FewLines : public QWidget
{
public:
    explicit FewLines(QWidget* parent) : QWidget(parent)
    {
        setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    }
    /// The name stands first, in bold.
    void setWords(const QString& name, const QString& words)
    {
        m_name = name + QLatin1Char(':');
        m_words = m_name + QLatin1Char(' ') + words;
        update();
    }
    [[nodiscard]] QSize sizeHint() const override
    {
        return {300, static_cast<int>(std::ceil(kLeastLines * QFontMetricsF(font()).height()))};
    }
    [[nodiscard]] QSize minimumSizeHint() const override { return {120, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent*) override
    {
        QPainter painter(this);
        painter.setPen(Look::current().palette().ink);
        const QFontMetricsF metrics(font());
        QTextLayout layout(m_words, font());
        QTextLayout::FormatRange name{0, static_cast<int>(m_name.size()), {}};
        name.format.setFontWeight(QFont::Bold);
        layout.setFormats({name});
        layout.beginLayout();
        for (double y = 0;;) {
            QTextLine line = layout.createLine();
            if (!line.isValid())
                break;
            line.setLineWidth(width());
            const bool last = y + 2 * metrics.height() > height() + 1;
            if (last && line.textStart() + line.textLength() < m_words.size()) {
                painter.setFont(font());
                painter.drawText(QPointF(0, y + metrics.ascent()),
                                 metrics.elidedText(m_words.mid(line.textStart()), Qt::ElideRight, width()));
                break;
            }
            line.draw(&painter, QPointF(0, y));
            y += metrics.height();
        }
        layout.endLayout();
    }

private:
    [[nodiscard]] static QFont font() { return Look::current().font(Type::body); }
    QString m_name;
    QString m_words;
};

ClinicianStrip::ClinicianStrip(QWidget* parent) : SpokenWidget(QAccessible::AlertMessage, parent)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::gap + Space::small, Space::hair, Space::small, Space::small);
    column->setSpacing(0);
    auto* head = new QHBoxLayout;
    head->setSpacing(Space::small);
    m_head = new OneLine(Type::title, OneLine::Ink::main, this);
    m_head->setBold();
    head->addWidget(m_head, 1);
    m_take = new BigButton(tr("Taken"), BigButton::Rank::main, BigButton::Size::desk, this);
    m_take->setKeyHint(QStringLiteral("N"));
    m_take->setFocusPolicy(Qt::TabFocus);
    connect(m_take, &BigButton::pressRequested, this, &ClinicianStrip::press);
    head->addWidget(m_take);
    column->addLayout(head);
    m_words = new FewLines(this);
    column->addWidget(m_words, 1);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    hide();
}

void ClinicianStrip::setState(const std::vector<DeskLine>& lines)
{
    const DeskLine line = lines.empty() ? DeskLine{} : lines.front();
    const auto more = static_cast<int>(lines.size()) - 1;
    m_head->setText(more <= 0 ? tr("Needs a clinician") : tr("Needs a clinician, and %1 more").arg(more));
    if (line == m_line)
        return;
    m_line = line;
    if (line.item == 0 && m_take->hasFocus())
        parentWidget()->setFocus();
    setVisible(line.item != 0);
    m_words->setWords(line.name, line.text.simplified());
    if (line.item == 0) {
        setToolTip({});
        return say({}); // the hall may be covered: nobody's name is left
    }
    setToolTip(line.text.toHtmlEscaped());
    m_take->setRank(line.taking ? BigButton::Rank::plain : BigButton::Rank::main);
    m_take->setAccessibleName(tr("Taken: %1 needs a clinician").arg(line.name));
    alert(tr("%1 needs a clinician. %2").arg(line.name, line.text.simplified()));
}

void ClinicianStrip::press()
{
    if (m_line.item != 0 && !m_line.taking)
        emit takeRequested(m_line.item);
}

void ClinicianStrip::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    paintHeavySheet(painter, QRectF(rect()));
}

} // namespace vh::lead
