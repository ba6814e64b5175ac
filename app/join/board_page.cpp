#include "app/join/board_page.h"

#include "app/join/ask_page.h"
#include "app/join/board_list.h"
#include "app/join/words_field.h"
#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "common/wire/limits.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QVBoxLayout>

namespace vh::join
{

using look::Space;

namespace
{
constexpr int kLinesWritten = 2; ///< that are seen while somebody writes
} // namespace

BoardPage::BoardPage(QWidget* parent)
    : QWidget(parent), m_heading(plainLabel({}, "question", this)), m_words(plainLabel({}, "second", this)),
      m_cue(new CueBadge(this)), m_list(new BoardList(this)), m_nothing(plainLabel({}, "words", this)),
      m_field(new WordsField(wire::kChatLength, this)),
      m_send(new BigButton(tr("Send"), BigButton::Rank::main, BigButton::Size::touch, this)),
      m_notice(new NoticeLine(this, look::Type::body)),
      m_hint(plainLabel(tr("Write to the group here, and press Send."), "second", this)), m_controls(new QHBoxLayout),
      m_back(new BigButton({}, BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_people(new BigButton(tr("Who is here"), BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_picture(new BigButton(tr("Send a picture"), BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_earlier(new BigButton(tr("Earlier"), BigButton::Rank::plain, BigButton::Size::touch, this)),
      m_later(new BigButton(tr("Later"), BigButton::Rank::plain, BigButton::Size::touch, this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(Space::margin, Space::small, Space::margin, Space::hair);
    column->setSpacing(Space::small);
    auto* head = new QHBoxLayout;
    head->setSpacing(Space::wide);
    m_heading->setWordWrap(false);
    head->addWidget(m_heading);
    head->addWidget(m_words, 1);
    head->addWidget(m_cue);
    column->addLayout(head);
    column->addWidget(m_nothing, 1, Qt::AlignVCenter);
    column->addWidget(m_list, 1);
    auto* writing = new QHBoxLayout;
    writing->setSpacing(Space::gap);
    writing->addWidget(m_field, 1);
    m_send->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Expanding);
    writing->addWidget(m_send);
    column->addLayout(writing);
    m_hint->setMinimumHeight(Space::control);
    column->addWidget(m_notice);
    column->addWidget(m_hint);
    m_controls->setSpacing(Space::gap);
    for (BigButton* each : {m_back, m_people, m_picture})
        m_controls->addWidget(each);
    m_controls->addStretch(1);
    for (BigButton* each : {m_earlier, m_later})
        m_controls->addWidget(each);
    column->addLayout(m_controls);

    m_field->setAccessibleName(tr("Your words"));
    m_send->setAccessibleDescription(tr("to the group"));
    m_send->setSign(look::Sign::write);
    m_earlier->setAccessibleDescription(tr("Page Up"));
    m_later->setAccessibleDescription(tr("Page Down"));
    connect(m_field, &WordsField::wordsChanged, this, &BoardPage::draftChanged);
    connect(m_field, &WordsField::sendRequested, this, &BoardPage::sendRequested);
    connect(m_send, &BigButton::pressRequested, this, [this] {
        emit sendRequested();
        m_field->setFocus(); // for the next line
    });
    connect(m_list, &BoardList::pressRequested, this, &BoardPage::lineRequested);
    connect(m_list, &BoardList::turned, this, &BoardPage::showTurning);
    connect(m_people, &BigButton::pressRequested, this, &BoardPage::peopleRequested);
    connect(m_picture, &BigButton::pressRequested, this, &BoardPage::pictureRequested);
    connect(m_back, &BigButton::pressRequested, this, &BoardPage::backRequested);
    connect(m_earlier, &BigButton::pressRequested, m_list, &BoardList::earlier);
    connect(m_later, &BigButton::pressRequested, m_list, &BoardList::later);
    setFocusPolicy(Qt::TabFocus);
    fitField();
    showTurning();
}

void BoardPage::setClock(const Clock& clock)
{
    m_field->setClock(clock);
}

void BoardPage::setState(const BoardView& view)
{
    m_field->setWords(view.draft); // also where it is the same view: the field may have been another's
    if (view == m_view)
        return;
    m_view = view;
    m_heading->setText(view.heading);
    m_words->setText(view.words);
    m_cue->setState(view.cue);
    m_cue->setVisible(view.cue.turn || !view.cue.words.isEmpty());
    m_list->setRows(view.rows);
    m_list->setVisible(!view.rows.empty());
    m_nothing->setText(view.nothing);
    m_nothing->setVisible(view.rows.empty());
    m_back->setText(view.back);
    m_people->setVisible(view.canSeePeople);
    m_notice->setState(view.notice);
    m_notice->setVisible(!view.notice.words.isEmpty());
    showWriting();
    showTurning();
    setAccessibleName(view.heading);
}

void BoardPage::showWriting()
{
    const bool open = m_view.writing == BoardView::Writing::open;
    if (!open && (m_field->hasFocus() || m_send->hasFocus() || m_picture->hasFocus()))
        setFocus();
    m_picture->setVisible(open);
    m_hint->setVisible(open && m_view.notice.words.isEmpty());
    m_field->setVisible(open);
    m_send->setVisible(open);
}

/// What there is to turn to.
void BoardPage::showTurning()
{
    for (const auto& [button, there] :
         {std::pair{m_earlier, m_list->hasEarlier()}, std::pair{m_later, m_list->hasLater()}}) {
        if (!there && button->hasFocus())
            m_back->setFocus();
        button->setVisible(there && m_list->isVisibleTo(this));
    }
}

void BoardPage::fitField()
{
    m_field->setFixedHeight(std::max(m_field->heightOf(kLinesWritten), int(Space::touch)));
}

void BoardPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_PageUp)
        m_list->earlier();
    else if (event->key() == Qt::Key_PageDown)
        m_list->later();
    else
        QWidget::keyPressEvent(event);
}

/// Somebody came to write: the keyboard stands in the field.
void BoardPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (m_view.writing == BoardView::Writing::open)
        m_field->setFocus();
}

void BoardPage::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::StyleChange)
        fitField();
    QWidget::changeEvent(event);
}

} // namespace vh::join
