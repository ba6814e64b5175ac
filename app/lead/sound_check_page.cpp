#include "app/lead/sound_check_page.h"

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
    m_level = new LevelBar(sheet);
    column->addWidget(m_level, 0, Qt::AlignLeft);
    column->addSpacing(Space::gap);
    auto* facts = new QGridLayout;
    facts->setHorizontalSpacing(Space::wide);
    facts->setVerticalSpacing(Space::small);
    facts->setColumnStretch(1, 1);
    for (int i = 0; i < 3; ++i) {
        m_what.push_back(plainLabel(sheet));
        m_what.back()->setWordWrap(false);
        m_what.back()->setFont(Look::current().font(look::Type::body, look::Weight::bold));
        m_found.push_back(plainLabel(sheet));
        facts->addWidget(m_what.back(), i, 0, Qt::AlignTop);
        facts->addWidget(m_found.back(), i, 1);
    }
    column->addLayout(facts);
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
