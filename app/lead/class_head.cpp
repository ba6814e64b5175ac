#include "app/lead/class_head.h"

#include "app/lead/page_parts.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

namespace vh::lead
{

using look::Space;

namespace
{
constexpr int kAir = 60; ///< left free before a button is shown that could be missed
} // namespace

ClassHead::ClassHead(QWidget* parent) : QWidget(parent)
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(Space::gap);
    row->addLayout(makeNames(), 1);
    row->addLayout(makeVoice());
    row->addSpacing(Space::gap);
    m_groupWindow = makeKey(tr("Group's window"), QStringLiteral("F"), &ClassHead::groupWindowRequested);
    m_groupWindow->setToolTip(tr("F shows and hides it. Shift+F fills its display, Shift+D takes the next display."));
    m_cover = makeKey(tr("Cover the hall"), QStringLiteral("C"), &ClassHead::coverRequested);
    m_end = makeKey(tr("End the class"), {}, &ClassHead::endRequested);
    for (BigButton* each : {m_groupWindow, m_cover, m_end})
        row->addWidget(each);
}

BigButton* ClassHead::makeKey(const QString& words, const QString& key, void (ClassHead::*request)())
{
    auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, this);
    button->setKeyHint(key);
    button->setHintGivesWay();
    button->setFocusPolicy(Qt::TabFocus);
    connect(button, &BigButton::pressRequested, this, request);
    return button;
}

QBoxLayout* ClassHead::makeNames()
{
    auto* names = new QVBoxLayout;
    names->setSpacing(0);
    m_title = new OneLine(look::Type::title, OneLine::Ink::main, this);
    m_title->setBold();
    m_title->setShorten(OneLine::Shorten::middle);
    names->addWidget(m_title);
    auto* second = new QHBoxLayout;
    second->setSpacing(Space::gap);
    m_code = plainLabel(this, "note");
    m_code->setWordWrap(false);
    m_code->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    second->addWidget(m_code);
    m_clock = new OneLine(look::Type::note, OneLine::Ink::second, this);
    second->addWidget(m_clock, 1);
    names->addLayout(second);
    return names;
}

QBoxLayout* ClassHead::makeVoice()
{
    auto* voice = new QHBoxLayout;
    voice->setSpacing(0);
    m_level = new LevelBar(this);
    m_level->keepRoomFor(OwnVoice::allWords());
    voice->addWidget(m_level);
    voice->addSpacing(Space::hair);
    m_mute = makeKey(tr("Speak"), QStringLiteral("M"), &ClassHead::muteRequested);
    m_mute->keepRoomFor(tr("Go silent"), {});
    m_bell = makeKey(tr("Bell"), QStringLiteral("B"), &ClassHead::bellRequested);
    m_bell->setAccessibleName(tr("Ring the bell"));
    m_play = makeKey(tr("Play"), QStringLiteral("R"), &ClassHead::recordingRequested);
    m_play->keepRoomFor(tr("Stop"), {});
    for (BigButton* each : {m_mute, m_bell, m_play})
        voice->addWidget(each);
    return voice;
}

void ClassHead::setState(const LeadView& view)
{
    m_title->setText(view.title);
    m_code->setText(view.way.code.isEmpty() ? QString() : tr("code %1").arg(view.way.code));
    m_code->setVisible(!view.way.code.isEmpty());
    if (!view.hall.covered) // covered, its room stays free: nothing moves
        m_codeRoom = view.way.code.isEmpty() ? 0 : m_code->sizeHint().width() + Space::gap;
    m_clock->setTexts(view.clock);
    m_level->setState(view.level);
    m_level->setVisible(!view.level.words.isEmpty());
    setVoice(view.voice);
    m_covered = view.hall.covered;
    m_cover->setVisible(view.role == Role::leader);
    m_cover->setAccessibleName(m_covered ? tr("Uncover the hall") : tr("Cover the hall"));
    m_groupWindow->setAccessibleName(view.groupWindowShown ? tr("Hide the group's window")
                                                           : tr("Show the group's window"));
    m_endArmed = view.endArmed;
    m_rehearsal = view.rehearsal;
    if (m_rehearsal)
        m_end->setAccessibleName(m_endArmed ? tr("End the rehearsal? Press once more.") : tr("End the rehearsal"));
    else
        m_end->setAccessibleName(m_endArmed ? tr("End the class for everybody? Press once more.")
                                            : tr("End the class"));
    m_end->setVisible(view.hold == Hold::mine);
    fit();
}

void ClassHead::setVoice(const VoiceView& voice)
{
    const bool open = voice.mouth == OwnVoice::Mouth::open;
    m_mute->setVisible(voice.offered);
    m_mute->setText(open ? tr("Go silent") : tr("Speak"));
    m_mute->setAccessibleName(open ? tr("Go silent, so that nobody hears you") : tr("Let them hear you"));
    m_mute->setRank(open ? BigButton::Rank::plain : BigButton::Rank::main);
    m_bell->setVisible(voice.offered);
    m_bell->setEnabled(voice.mayRing);
    m_play->setVisible(voice.offered && !voice.recording.isEmpty());
    m_play->setEnabled(voice.mayRing || voice.plays);
    m_play->setText(voice.plays ? tr("Stop") : tr("Play"));
    m_play->setAccessibleName(voice.plays ? tr("Stop the recording")
                                          : tr("Play the recording: %1").arg(voice.recording));
}

/// What all of the row takes where every button has the room it asks for; without the group's window.
int ClassHead::wanted() const
{
    int wide = m_codeRoom;
    wide = std::max(wide + m_clock->minimumSizeHint().width(), m_title->minimumSizeHint().width());
    wide += 2 * Space::gap + Space::hair;
    for (const QWidget* each : std::array<const QWidget*, 4>{m_level, m_mute, m_bell, m_play})
        wide += each->isHidden() ? 0 : each->sizeHint().width();
    for (const QWidget* each : std::array<const QWidget*, 2>{m_cover, m_end})
        wide += each->isHidden() ? 0 : each->sizeHint().width() + Space::gap;
    return wide;
}

/// A button that says one of two things, in one place and as wide as either.
void ClassHead::sayOne(BigButton* button, bool second, const QString& one, const QString& other)
{
    button->keepRoomFor(second ? one : other, {});
    button->setText(second ? other : one);
}

void ClassHead::fit()
{
    sayOne(m_cover, m_covered, tr("Cover the hall"), tr("Uncover the hall"));
    sayOne(m_end, m_endArmed, m_rehearsal ? tr("End rehearsal") : tr("End the class"),
           m_rehearsal ? tr("End it now?") : tr("End it for all?"));
    if (wanted() > width())
        sayOne(m_cover, m_covered, tr("Cover"), tr("Uncover"));
    if (wanted() > width())
        sayOne(m_end, m_endArmed, tr("End class"), tr("End it?"));
    m_groupWindow->setVisible(wanted() + Space::gap + m_groupWindow->sizeHint().width() + kAir <= width());
}

/// The row never asks for a wider room: it makes do with what there is.
QSize ClassHead::minimumSizeHint() const
{
    return {0, QWidget::minimumSizeHint().height()};
}

void ClassHead::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    fit();
}

void ClassHead::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange)
        fit();
}

} // namespace vh::lead
