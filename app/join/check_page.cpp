#include "app/join/check_page.h"

#include "app/join/ask_page.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/fitted_text.h"
#include "app/widgets/level_bar.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QVBoxLayout>

namespace vh::join
{

CheckPage::CheckPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "heading", this)), m_words(plainLabel({}, "", this)),
      m_line(new FittedText(this)), m_level(new LevelBar(this)), m_progress(new QProgressBar(this)),
      m_devices(new QComboBox(this)), m_notice(plainLabel({}, "note", this)),
      m_skip(new BigButton(tr("Not now"), BigButton::Rank::plain, BigButton::Size::touch, this))
{
    using look::Space;
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin * 2, Space::margin, Space::margin * 2, Space::margin);
    column->setSpacing(Space::gap);
    column->addWidget(m_heading);
    column->addWidget(m_words);
    column->addWidget(m_line, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(Space::wide);
    row->addWidget(m_level);
    m_progress->setRange(0, 1000);
    m_progress->setTextVisible(false);
    m_progress->setAccessibleName(tr("How far the check is"));
    row->addWidget(m_progress, 1);
    column->addLayout(row);
    column->addWidget(m_notice);
    auto* below = new QHBoxLayout;
    below->setSpacing(Space::gap);
    auto* goOn = new BigButton(tr("Go on"), BigButton::Rank::main, BigButton::Size::touch, this);
    connect(goOn, &BigButton::pressRequested, this, &CheckPage::goOnRequested);
    connect(m_skip, &BigButton::pressRequested, this, &CheckPage::skipRequested);
    below->addWidget(goOn);
    below->addWidget(m_skip);
    below->addStretch(1);
    auto* label = plainLabel(tr("Microphone"), "second", this);
    label->setWordWrap(false);
    m_devices->setMinimumHeight(Space::touch);
    m_devices->setMinimumWidth(320);
    m_devices->setAccessibleName(tr("Microphone"));
    connect(m_devices, &QComboBox::activated, this, &CheckPage::deviceRequested);
    below->addWidget(label);
    below->addWidget(m_devices);
    column->addLayout(below);
}

void CheckPage::setState(const CheckView& view)
{
    m_heading->setText(view.heading);
    m_words->setText(view.words);
    FittedText::State line;
    line.text = view.line.toStdString();
    m_line->setState(line);
    m_level->setState({tr("What the microphone hears"), view.levelDbfsA});
    m_progress->setValue(static_cast<int>(view.progress * 1000));
    m_notice->setText(view.notice);
    m_skip->setVisible(view.canSkip);
    if (view.devices != m_shownDevices) {
        m_shownDevices = view.devices;
        m_devices->clear();
        m_devices->addItems(view.devices);
    }
    if (m_devices->currentIndex() != view.device)
        m_devices->setCurrentIndex(view.device);
    m_devices->setEnabled(m_devices->count() > 1);
}

} // namespace vh::join
