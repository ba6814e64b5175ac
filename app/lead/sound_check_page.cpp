#include "app/lead/sound_check_page.h"

#include "app/lead/page_parts.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QAccessible>
#include <QFrame>
#include <QGridLayout>
#include <QKeyEvent>
#include <QProgressBar>
#include <QVBoxLayout>

namespace vh::lead
{

using look::Look;
using look::Space;

SoundCheckPage::SoundCheckPage(QWidget* parent) : QWidget(parent)
{
    setFocusPolicy(Qt::StrongFocus);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::wide);
    page->setSpacing(Space::gap);
    page->addWidget(plainLabel(this, "title", tr("Your own sound")));
    auto* sheet = new QFrame(this);
    sheet->setProperty(look::kRoleProperty, "sheet");
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::wide);
    column->setSpacing(Space::gap);
    m_heading = plainLabel(sheet, "heading");
    column->addWidget(m_heading);
    m_words = plainLabel(sheet, "second");
    column->addWidget(m_words);
    m_progress = new QProgressBar(sheet);
    m_progress->setTextVisible(false);
    m_progress->setRange(0, 100);
    m_progress->setAccessibleName(tr("How far the check has come"));
    column->addWidget(m_progress);
    auto* halves = new QHBoxLayout;
    halves->setSpacing(Space::margin);
    halves->addWidget(makeFound(sheet), 1);
    halves->addWidget(makeChoices(sheet), 1);
    column->addLayout(halves);
    column->addStretch();
    page->addWidget(sheet, 1);
    auto* foot = new QHBoxLayout;
    foot->addStretch();
    m_again = new BigButton(tr("Once more"), BigButton::Rank::plain, BigButton::Size::touch, this);
    connect(m_again, &BigButton::pressRequested, this, &SoundCheckPage::againRequested);
    foot->addWidget(m_again);
    m_close = new BigButton(tr("Back to the class"), BigButton::Rank::main, BigButton::Size::touch, this);
    m_close->setKeyHint(tr("Esc"));
    connect(m_close, &BigButton::pressRequested, this, &SoundCheckPage::closeRequested);
    foot->addWidget(m_close);
    page->addLayout(foot);
}

QWidget* SoundCheckPage::makeFound(QWidget* parent)
{
    auto* box = new QWidget(parent);
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    m_level = new LevelBar(box);
    m_level->keepRoomFor(OwnVoice::allWords());
    column->addWidget(m_level, 0, Qt::AlignLeft);
    auto* facts = new QGridLayout;
    facts->setHorizontalSpacing(Space::wide);
    facts->setVerticalSpacing(Space::small);
    facts->setColumnStretch(1, 1);
    for (int i = 0; i < 3; ++i) {
        m_what.push_back(plainLabel(box));
        m_what.back()->setWordWrap(false);
        m_what.back()->setFont(Look::current().font(look::Type::body, look::Weight::bold));
        m_found.push_back(plainLabel(box));
        facts->addWidget(m_what.back(), i, 0, Qt::AlignTop);
        facts->addWidget(m_found.back(), i, 1);
    }
    column->addLayout(facts);
    column->addStretch();
    return box;
}

QWidget* SoundCheckPage::makeChoices(QWidget* parent)
{
    auto* box = new QWidget(parent);
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::hair);
    const auto button = [&](const QString& words, QHBoxLayout* row, auto request) {
        auto* made = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, box);
        made->setHintGivesWay();
        connect(made, &BigButton::pressRequested, this, request);
        row->addWidget(made);
        return made;
    };
    column->addWidget(plainLabel(box, "second", tr("Your voice goes to the group")));
    auto* ways = new QHBoxLayout;
    ways->setSpacing(0);
    m_here = button(tr("through Voicehall"), ways, [this] { emit wayRequested(VoiceWay::voicehall); });
    m_elsewhere = button(tr("by another call"), ways, [this] { emit wayRequested(VoiceWay::elsewhere); });
    ways->addStretch();
    column->addLayout(ways);
    m_wayWords = plainLabel(box, "note");
    column->addWidget(m_wayWords);
    column->addSpacing(Space::small);
    m_recording = new OneLine(look::Type::body, OneLine::Ink::second, box);
    m_recording->setShorten(OneLine::Shorten::middle);
    column->addWidget(m_recording);
    auto* files = new QHBoxLayout;
    files->setSpacing(0);
    m_file = button(tr("Choose a recording\u2026"), files, [this] { emit recordingFileRequested(); });
    m_drop = button(tr("Play nothing"), files, [this] { emit recordingDropRequested(); });
    m_drop->setAccessibleName(tr("Play no recording in class"));
    files->addStretch();
    column->addLayout(files);
    column->addStretch();
    return box;
}

void SoundCheckPage::setVoice(const VoiceView& voice)
{
    const bool here = voice.way == VoiceWay::voicehall;
    m_here->setRank(here ? BigButton::Rank::main : BigButton::Rank::plain);
    m_here->setAccessibleName(here ? tr("Your voice goes through Voicehall, as now")
                                   : tr("Your voice through Voicehall"));
    m_elsewhere->setRank(here ? BigButton::Rank::plain : BigButton::Rank::main);
    m_elsewhere->setAccessibleName(here ? tr("Your voice by another call")
                                        : tr("Your voice goes by another call, as now"));
    m_wayWords->setText(
        here ? tr("If the group also uses a call, be silent there: they would hear you twice.")
             : tr("For a group with a call of its own. Voicehall plays nothing; going silent and the bell "
                  "are the call's."));
    m_recording->setText(voice.recording.isEmpty() ? tr("To play in class: nothing chosen")
                                                   : tr("To play in class: %1").arg(voice.recording));
    m_file->setText(voice.recording.isEmpty() ? tr("Choose a recording\u2026") : tr("Another one\u2026"));
    m_file->setEnabled(here);
    m_drop->setVisible(!voice.recording.isEmpty());
}

void SoundCheckPage::setState(const SoundCheckView& view)
{
    if (view == m_shown)
        return;
    const bool news = view.heading != m_shown.heading;
    m_shown = view;
    m_heading->setText(view.heading);
    m_words->setText(view.words);
    m_progress->setValue(static_cast<int>(view.progress * 100));
    m_progress->setVisible(!view.done);
    m_level->setState(view.level);
    for (std::size_t i = 0; i < m_what.size() && i < view.facts.size(); ++i) {
        m_what[i]->setText(view.facts[i].what);
        m_found[i]->setText(view.facts[i].found);
        QPalette ink = m_found[i]->palette();
        const look::Palette& colours = Look::current().palette();
        ink.setColor(QPalette::WindowText, view.facts[i].known ? colours.ink : colours.secondInk);
        m_found[i]->setPalette(ink);
    }
    m_again->setVisible(view.done);
    if (news) {
        QAccessibleEvent alert(m_heading, QAccessible::Alert);
        QAccessible::updateAccessibility(&alert);
    }
}

void SoundCheckPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    setFocus();
}

void SoundCheckPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() != Qt::Key_Escape)
        return QWidget::keyPressEvent(event);
    if (!event->isAutoRepeat())
        emit closeRequested();
}

} // namespace vh::lead
