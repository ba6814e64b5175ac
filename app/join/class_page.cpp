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

constexpr int kRailWide = 260;

/// What the sheet shows has changed: fitting its text anew costs milliseconds.
bool isSame(const ClassSheet::State& a, const ClassSheet::State& b)
{
    return a.cue == b.cue && a.text.text == b.text.text && a.text.stretches == b.text.stretches &&
           a.picture.cacheKey() == b.picture.cacheKey() && a.pictureDescription == b.pictureDescription &&
           a.caption == b.caption;
}

} // namespace

ClassPage::ClassPage(QWidget* parent)
    : QWidget(parent), m_title(plainLabel({}, "second", this)), m_rail(new ScriptRail(ScriptRail::Form::slim, this)),
      m_voice(new VoiceLine(this)), m_others(plainLabel({}, "second", this)), m_leads(plainLabel({}, "second", this)),
      m_sheet(new ClassSheet(this)), m_meter(new VoiceMeter(this)), m_notices(new NoticePanel(this)),
      m_sharing(plainLabel({}, "second", this))
{
    using look::Space;
    const auto button = [this](const QString& words, BigButton::Rank rank, void (ClassPage::*signal)()) {
        auto* made = new BigButton(words, rank, BigButton::Size::touch, this);
        connect(made, &BigButton::pressRequested, this, signal);
        return made;
    };
    m_help = button(tr("I need help"), BigButton::Rank::main, &ClassPage::helpRequested);
    m_hello = button({}, BigButton::Rank::plain, &ClassPage::helloRequested);
    m_write = button(tr("Board"), BigButton::Rank::plain, &ClassPage::writeRequested);
    m_choices = button(tr("My choices"), BigButton::Rank::plain, &ClassPage::choicesRequested);
    m_private = button({}, BigButton::Rank::plain, &ClassPage::privateRequested);
    m_leave = button(tr("Leave"), BigButton::Rank::plain, &ClassPage::leaveRequested); // last for the keyboard too
    connect(m_notices, &NoticePanel::actionRequested, this, [this] { emit noticeRequested(m_action); });

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin, Space::small, Space::margin, Space::small);
    column->setSpacing(Space::small);
    column->addLayout(head());
    column->addWidget(m_sheet, 1);
    column->addWidget(m_meter);
    QSizePolicy policy = m_rail->sizePolicy();
    policy.setRetainSizeWhenHidden(true); // nothing jumps when it comes or goes
    m_rail->setSizePolicy(policy);
    column->addWidget(m_notices);
    column->addLayout(controls());
    setFocusPolicy(Qt::TabFocus); // at first the keyboard stands on no control: nobody calls for help by chance
}

QLayout* ClassPage::head()
{
    using look::Space;
    for (QLabel* label : {m_title, m_others, m_leads})
        label->setWordWrap(false);
    m_title->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed); // it takes what there is
    for (QLabel* label : {m_others, m_leads})
        label->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    auto* left = new QVBoxLayout;
    left->setSpacing(0); // as the two lines at the right: what is below keeps all its room
    left->addStretch(1);
    left->addWidget(m_title);
    m_rail->setFixedWidth(kRailWide);
    auto* below = new QHBoxLayout;
    below->setSpacing(Space::wide);
    below->addWidget(m_rail);
    below->addWidget(m_voice, 1);
    left->addLayout(below);
    left->addStretch(1);
    auto* people = new QVBoxLayout;
    people->setSpacing(0);
    people->addStretch(1);
    people->addWidget(m_others);
    people->addWidget(m_leads);
    people->addStretch(1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::wide);
    row->addLayout(left, 1);
    row->addLayout(people);
    m_leave->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    row->addWidget(m_leave);
    return row;
}

QLayout* ClassPage::controls()
{
    const QString line = QStringLiteral(" "); // the first has a second line: all are as high
    m_hello->keepRoomFor(tr("Undo hello"), line);
    m_write->keepRoomFor({}, tr("to write"));
    m_choices->keepRoomFor({}, line);
    m_private->keepRoomFor(tr("Show my level"), line);
    m_choices->setAccessibleDescription(tr("what I agreed to"));
    m_sharing->setWordWrap(false);
    m_sharing->setMinimumWidth(1); // a narrower window gets fewer words, see fitControls
    auto* row = new QHBoxLayout;
    row->setSpacing(look::Space::gap);
    for (BigButton* each : {m_help, m_hello, m_write, m_choices, m_private})
        each->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed); // the window may become too narrow for signs
    for (BigButton* each : {m_help, m_hello, m_write, m_choices})
        row->addWidget(each);
    row->addStretch(1);
    row->addWidget(m_sharing);
    row->addWidget(m_private);
    return row;
}

void ClassPage::setState(const ClassView& view)
{
    const bool otherHead =
        view.title != m_wholeTitle || view.leads != m_leads->text() || view.others != m_others->text();
    m_wholeTitle = view.title;
    m_others->setText(view.others);
    m_leads->setText(view.leads);
    m_voice->setState(view.voice);
    if (otherHead)
        fitTitle();
    m_leads->setVisible(!view.leads.isEmpty());
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
    m_action = view.action;
    m_notices->setState({view.notice, view.alsoNotice, view.calmWords,
                         view.action == NoticeAction::takeBackCall      ? tr("Take it back")
                         : view.action == NoticeAction::checkMicrophone ? tr("Check again")
                         : view.action == NoticeAction::handout         ? view.handout
                         : view.action == NoticeAction::readAnswer      ? tr("Read it")
                                                                        : QString(),
                         view.action == NoticeAction::checkMicrophone ? look::Sign::heard
                         : view.action == NoticeAction::handout       ? look::Sign::paper
                         : view.action == NoticeAction::readAnswer    ? look::Sign::seen
                                                                      : look::Sign::undo});
    showControls(view);
}

void ClassPage::showControls(const ClassView& view)
{
    m_write->setCaption(view.boardWords);
    m_hello->setText(view.saidHello ? tr("Undo hello") : tr("Say hello"));
    m_private->setText(view.isPrivate ? tr("Show my level") : tr("Keep it private"));
    if (m_isPrivate == view.isPrivate && m_sharingWords == view.sharing && m_helpWords == view.helpWords)
        return;
    m_helpWords = view.helpWords;
    m_isPrivate = view.isPrivate;
    m_sharingWords = view.sharing;
    fitControls();
}

/// With their signs where there is room for all of them, else all without; then with fewer words beside them.
void ClassPage::fitControls()
{
    using look::Sign;
    using look::Space;
    const std::pair<BigButton*, Sign> all[] = {{m_help, Sign::help},
                                               {m_hello, Sign::hello},
                                               {m_write, Sign::write},
                                               {m_choices, Sign::choices},
                                               {m_private, m_isPrivate ? Sign::seen : Sign::unseen}};
    const auto wide = [&](const QString& sharing, bool signs) {
        m_sharing->setText(sharing);
        int sum = 2 * Space::margin + m_sharing->sizeHint().width();
        for (const auto& [button, sign] : all) {
            button->setSign(signs ? std::optional(sign) : std::nullopt);
            sum += button->sizeHint().width() + Space::gap;
        }
        return sum;
    };
    const auto help = [this](qsizetype which, const QString& widest) {
        m_help->keepRoomFor(m_help->text(), widest); // nothing moves when somebody comes or goes
        m_help->setCaption(m_helpWords.value(which));
    };
    help(0, tr("one helper and the leader"));
    if (wide(m_sharingWords.value(0), true) > width()) {
        if (wide(m_sharingWords.value(0), false) > width())
            help(1, tr("nobody is here"));
        qsizetype shorter = 0;
        while (wide(m_sharingWords.value(shorter), false) > width() && shorter + 1 < m_sharingWords.size())
            ++shorter;
    }
    m_sharing->setAccessibleName(m_sharingWords.value(0).replace('\n', ' '));
    m_leave->setSign(Sign::leave);
}

/// As much of it as there is room for; a reader says all of it.
void ClassPage::fitTitle()
{
    const QFontMetrics metrics(look::Look::current().font(look::Type::body));
    const int people = std::max(m_others->sizeHint().width(), m_leads->sizeHint().width());
    const int room = width() - 2 * (look::Space::margin + look::Space::wide) - people - m_leave->sizeHint().width();
    m_title->setText(metrics.elidedText(m_wholeTitle, Qt::ElideRight, room));
    m_title->setAccessibleName(m_wholeTitle);
}

void ClassPage::resizeEvent(QResizeEvent* event)
{
    fitControls();
    fitTitle();
    QWidget::resizeEvent(event);
}

void ClassPage::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange) {
        m_calm = {}; // drawn in the look's colours
        fitControls();
        fitTitle();
    }
    QWidget::changeEvent(event);
}

} // namespace vh::join
