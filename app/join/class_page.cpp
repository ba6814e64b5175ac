#include "app/join/class_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPainterPath>
#include <QVBoxLayout>

namespace vh::join
{

namespace
{

/// A still picture for water pauses: a glass with water in it, in the look's own colours.
QImage glassOfWater()
{
    constexpr int kSize = 640;
    const look::Palette& colours = look::Look::current().palette();
    QImage image(kSize, kSize, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    QPainterPath glass;
    glass.moveTo(170, 90);
    glass.lineTo(215, 560);
    glass.quadTo(218, 585, 245, 585);
    glass.lineTo(395, 585);
    glass.quadTo(422, 585, 425, 560);
    glass.lineTo(470, 90);
    QPainterPath level;
    level.addRect(0, 270, kSize, kSize);
    QColor water = colours.deep2;
    water.setAlpha(70);
    QPainterPath closed = glass;
    closed.closeSubpath();
    painter.fillPath(closed.intersected(level), water);
    painter.setPen(QPen(colours.deep2, 14, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPath(glass);
    painter.drawLine(QPointF(192, 270), QPointF(448, 270));
    return image;
}

/// What the sheet shows has changed: fitting its text anew costs milliseconds.
bool isSame(const ClassSheet::State& a, const ClassSheet::State& b)
{
    return a.cue == b.cue && a.text.text == b.text.text && a.text.stretches == b.text.stretches &&
           a.picture.cacheKey() == b.picture.cacheKey() && a.pictureDescription == b.pictureDescription;
}

} // namespace

ClassPage::ClassPage(QWidget* parent)
    : QWidget(parent), m_title(plainLabel({}, "second", this)), m_rail(new ScriptRail(ScriptRail::Form::slim, this)),
      m_others(plainLabel({}, "second", this)), m_sheet(new ClassSheet(this)), m_meter(new VoiceMeter(this)),
      m_notice(new NoticeLine(this, look::Type::touch)), m_helpWords(plainLabel({}, "second", this)),
      m_sharing(plainLabel({}, "second", this))
{
    using look::Space;
    for (QLabel* label : {m_title, m_others, m_helpWords, m_sharing})
        label->setWordWrap(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin, Space::small, Space::margin, Space::small);
    column->setSpacing(Space::small);

    auto* head = new QHBoxLayout;
    head->setSpacing(Space::wide);
    head->addWidget(m_title);
    m_rail->setFixedWidth(260);
    head->addWidget(m_rail);
    head->addStretch(1);
    head->addWidget(m_others);
    column->addLayout(head);
    column->addWidget(m_sheet, 1);
    column->addWidget(m_meter);
    for (QWidget* keeps : {static_cast<QWidget*>(m_meter), static_cast<QWidget*>(m_rail)}) {
        QSizePolicy policy = keeps->sizePolicy();
        policy.setRetainSizeWhenHidden(true); // nothing jumps when it comes or goes
        keeps->setSizePolicy(policy);
    }
    column->addWidget(m_notice);
    fixNotice();
    column->addLayout(controls());
    auto* foot = new QHBoxLayout;
    foot->addWidget(m_helpWords);
    foot->addStretch(1);
    foot->addWidget(m_sharing);
    column->addLayout(foot);
    setFocusPolicy(Qt::TabFocus); // at first the keyboard stands on no control: nobody calls for help by chance
}

QLayout* ClassPage::controls()
{
    const auto button = [&](const QString& words, BigButton::Rank rank, void (ClassPage::*signal)()) {
        auto* made = new BigButton(words, rank, BigButton::Size::touch, this);
        connect(made, &BigButton::pressRequested, this, signal);
        return made;
    };
    auto* row = new QHBoxLayout;
    row->setSpacing(look::Space::gap);
    row->addWidget(button(tr("I need help"), BigButton::Rank::main, &ClassPage::helpRequested));
    row->addWidget(button(tr("Write"), BigButton::Rank::plain, &ClassPage::writeRequested));
    row->addWidget(button(tr("What I agreed to"), BigButton::Rank::plain, &ClassPage::agreementsRequested));
    row->addWidget(button(tr("Leave"), BigButton::Rank::plain, &ClassPage::leaveRequested));
    row->addStretch(1);
    m_private = button({}, BigButton::Rank::plain, &ClassPage::privateRequested);
    row->addWidget(m_private);
    return row;
}

void ClassPage::setState(const ClassView& view)
{
    m_title->setText(view.title);
    m_others->setText(view.others);
    m_rail->setState(view.rail);
    m_rail->setVisible(!view.rail.parts.empty());
    ClassSheet::State sheet = view.sheet;
    if (view.calm) {
        if (m_calm.isNull())
            m_calm = glassOfWater();
        sheet.picture = m_calm;
    }
    if (!m_shown || !isSame(*m_shown, sheet)) {
        m_shown = sheet;
        m_sheet->setState(sheet);
    }
    m_meter->setVisible(view.showMeter);
    m_meter->setState(view.meter);
    m_notice->setState(view.notice);
    m_helpWords->setText(view.helpWords);
    m_sharing->setText(view.sharing);
    m_private->setText(view.isPrivate ? tr("Show the leader") : tr("Keep it private"));
}

/// As high as its longest words need, always: the sheet above it never moves.
void ClassPage::fixNotice()
{
    const look::Look& look = look::Look::current();
    const int lines = look.textSize() == look::TextSize::usual ? 1 : 2;
    m_notice->setFixedHeight(lines * QFontMetrics(look.font(look::Type::touch)).lineSpacing() + look::Space::gap);
}

void ClassPage::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange) {
        m_calm = {}; // drawn in the look's colours
        fixNotice();
    }
    QWidget::changeEvent(event);
}

} // namespace vh::join
