#include "app/help/acts_page.h"

#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QKeyEvent>
#include <QVBoxLayout>

namespace vh::help
{

using look::Space;

ActsPage::ActsPage(QWidget* parent)
    : QWidget(parent), m_note(plainLabel(this, "note")), m_rows(new RowList(tr("What was done at the desk"), this))
{
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->setSpacing(Space::small);
    page->addWidget(plainLabel(this, "title", tr("What was done at the desk")));
    page->addWidget(m_note);
    page->addWidget(m_rows, 1);
    auto* close = new BigButton(tr("Close"), BigButton::Rank::plain, BigButton::Size::desk, this);
    close->setKeyHint(tr("Esc"));
    connect(close, &BigButton::pressRequested, this, &ActsPage::closeRequested);
    page->addWidget(close, 0, Qt::AlignLeft);
    connect(m_rows, &RowList::rowRequested, this, [this](int row) {
        RowList::State state = m_rows->state();
        state.chosen = row;
        m_rows->setState(state);
    });
    m_note->setText(tr("Nothing was done in the last day."));
}

void ActsPage::open()
{
    m_rows->setFocus();
}

void ActsPage::setState(const std::vector<RowList::Row>& acts)
{
    if (acts == m_rows->state().rows)
        return;
    m_note->setText(acts.empty() ? tr("Nothing was done in the last day.")
                                 : tr("In the last day, oldest first. It is kept with the class."));
    m_rows->setState({acts, static_cast<int>(acts.size()) - 1});
}

void ActsPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) {
        emit closeRequested();
        return event->accept();
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        return event->accept();
    QWidget::keyPressEvent(event);
}

} // namespace vh::help
