#include "app/help/replies_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

RepliesPage::RepliesPage(QWidget* parent) : QWidget(parent)
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->setSpacing(Space::small);
    page->addWidget(plainLabel(this, "title", tr("Ready-made answers")));
    page->addWidget(plainLabel(this, "note", tr("They are yours, and stay on this computer.")));
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* inside = new QWidget(scroll);
    auto* grid = new QGridLayout(inside);
    grid->setContentsMargins(0, 0, Space::small, 0);
    grid->setVerticalSpacing(Space::hair);
    for (int at = 0; at < kReadyReplies; ++at) {
        auto* line = new QLineEdit(inside);
        line->setProperty(look::kRoleProperty, "desk");
        line->setMaxLength(500);
        line->setAccessibleName(tr("Ready-made answer %1").arg(at + 1));
        connect(line, &QLineEdit::returnPressed, this, &RepliesPage::done);
        grid->addWidget(plainLabel(inside, nullptr, QString::number(at + 1)), at, 0);
        grid->addWidget(line, at, 1);
        m_lines[static_cast<std::size_t>(at)] = line;
    }
    grid->setColumnStretch(1, 1);
    grid->setRowStretch(kReadyReplies, 1);
    scroll->setWidget(inside);
    page->addWidget(scroll, 1);
    auto* close = new BigButton(tr("Done"), BigButton::Rank::main, BigButton::Size::desk, this);
    close->setKeyHint(tr("Esc"));
    connect(close, &BigButton::pressRequested, this, &RepliesPage::done);
    page->addWidget(close, 0, Qt::AlignLeft);
}

void RepliesPage::open(const QStringList& replies)
{
    for (std::size_t at = 0; at < m_lines.size(); ++at) {
        m_lines[at]->setText(replies.value(static_cast<qsizetype>(at)));
        m_lines[at]->setCursorPosition(0);
    }
    m_lines[0]->setFocus();
}

void RepliesPage::done()
{
    QStringList replies;
    for (const QLineEdit* line : m_lines)
        replies << line->text().simplified();
    emit doneRequested(replies);
}

void RepliesPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) {
        done();
        return event->accept();
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return event->accept();
    QWidget::keyPressEvent(event);
}

} // namespace vh::help
