#include "app/pictures/send_page.h"

#include "app/look/look.h"
#include "app/pictures/picture_box.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"
#include "common/wire/limits.h"

#include <QLineEdit>
#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace vh::pictures
{

using look::Space;

namespace
{
constexpr int kColumn = 900;       // a line that is easy to read
constexpr int kAnswersWidth = 460; // all answers alike
constexpr int kSideWide = 500;
} // namespace

SendPage::SendPage(QWidget* parent) : QWidget(parent), m_pages(new QStackedLayout(this))
{
    m_asking = makeAsking();
    m_looking = makeLooking();
    m_pages->addWidget(m_asking);
    m_pages->addWidget(m_looking);
    auto* paste = new QShortcut(QKeySequence::Paste, this);
    connect(paste, &QShortcut::activated, this, [this] {
        if (m_view.stage == SendView::Stage::choosing || m_view.stage == SendView::Stage::looking)
            emit pasteRequested();
    });
}

BigButton* SendPage::makeButton(const QString& words, bool main, QWidget* parent)
{
    return new BigButton(words, main ? BigButton::Rank::main : BigButton::Rank::plain, BigButton::Size::touch, parent);
}

QWidget* SendPage::makeAsking()
{
    auto* page = new QWidget(this);
    page->setFocusPolicy(Qt::TabFocus);
    auto* row = new QHBoxLayout(page);
    row->setContentsMargins(Space::margin, Space::gap, Space::margin, Space::gap);
    auto* content = new QWidget(page);
    content->setMaximumWidth(kColumn);
    row->addStretch(1);
    row->addWidget(content, 1000);
    row->addStretch(1);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addStretch(2);
    m_heading = plainLabel(content, "question");
    m_words = plainLabel(content, "words");
    column->addWidget(m_heading);
    column->addWidget(m_words);
    column->addSpacing(Space::gap);
    m_choose = makeButton(tr("Choose a picture"), true, content);
    m_paste = makeButton(tr("Paste a picture"), false, content);
    m_paste->setCaption(tr("Ctrl and V"));
    m_yes = makeButton(tr("Yes, the group may see them"), false, content);
    m_no = makeButton(tr("No"), false, content);
    m_back = makeButton(tr("Back"), false, content);
    for (BigButton* button : {m_choose, m_paste, m_yes, m_no}) {
        button->setMinimumWidth(kAnswersWidth);
        column->addWidget(button, 0, Qt::AlignLeft);
    }
    column->addSpacing(Space::gap);
    column->addWidget(m_back, 0, Qt::AlignLeft);
    column->addStretch(3);
    connect(m_choose, &BigButton::pressRequested, this, &SendPage::chooseRequested);
    connect(m_paste, &BigButton::pressRequested, this, &SendPage::pasteRequested);
    connect(m_yes, &BigButton::pressRequested, this, [this] { emit agreementRequested(true); });
    connect(m_no, &BigButton::pressRequested, this, [this] { emit agreementRequested(false); });
    connect(m_back, &BigButton::pressRequested, this, &SendPage::backRequested);
    return page;
}

QWidget* SendPage::makeLooking()
{
    auto* page = new QWidget(this);
    page->setFocusPolicy(Qt::TabFocus);
    auto* row = new QHBoxLayout(page);
    row->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::wide);
    row->setSpacing(Space::margin);
    m_picture = new PictureBox(page);
    row->addWidget(m_picture, 1);
    auto* side = new QWidget(page);
    side->setFixedWidth(kSideWide);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    column->addStretch(1);
    column->addWidget(plainLabel(side, "question", tr("Send this picture?")));
    column->addWidget(
        plainLabel(side, "words", tr("A helper looks at it first. It is kept 30 days. You can take it back.")));
    column->addSpacing(Space::gap);
    auto* label = plainLabel(side, "words", tr("A few words with it, if you like"));
    m_caption = new QLineEdit(side);
    m_caption->setMaxLength(static_cast<int>(wire::kChatLength));
    m_caption->setMinimumHeight(Space::touch);
    m_caption->setAccessibleName(label->text());
    label->setBuddy(m_caption);
    column->addWidget(label);
    column->addWidget(m_caption);
    column->addSpacing(Space::gap);
    m_send = makeButton(tr("Send it"), true, side);
    auto* another = makeButton(tr("Choose another"), false, side);
    auto* no = makeButton(tr("Do not send"), false, side);
    for (BigButton* button : {m_send, another, no})
        column->addWidget(button);
    column->addStretch(1);
    row->addWidget(side);
    const auto send = [this] { emit sendRequested(m_caption->text()); };
    connect(m_send, &BigButton::pressRequested, this, send);
    connect(another, &BigButton::pressRequested, this, &SendPage::chooseRequested);
    connect(no, &BigButton::pressRequested, this, &SendPage::backRequested);
    connect(m_caption, &QLineEdit::returnPressed, this, [this] { m_send->setFocus(); }); // a second Enter sends it
    return page;
}

void SendPage::setState(const SendView& view)
{
    if (m_told && view == m_view)
        return;
    const bool otherStage = !m_told || view.stage != m_view.stage;
    const bool otherPicture = view.picture.cacheKey() != m_view.picture.cacheKey();
    m_told = true;
    m_view = view;
    if (otherPicture && view.stage != SendView::Stage::agreeing)
        m_caption->clear();
    if (view.stage == SendView::Stage::looking) {
        m_picture->setState({view.picture, tr("Your picture, as others will see it"), {}});
        setAccessibleName(tr("Send this picture?"));
    } else {
        showAsking(view);
    }
    QWidget* page = view.stage == SendView::Stage::looking ? m_looking : m_asking;
    m_pages->setCurrentWidget(page);
    if (otherStage) // on no answer: nothing is sent by chance
        page->setFocus();
}

void SendPage::showAsking(const SendView& view)
{
    using Stage = SendView::Stage;
    const bool choosing = view.stage == Stage::choosing;
    const bool agreeing = view.stage == Stage::agreeing;
    m_heading->setText(agreeing ? tr("May the group see pictures that you send?") : tr("Send a picture"));
    if (agreeing)
        m_words->setText(tr("Helpers look at each one first. It is kept 30 days, and you can take it back. You can "
                            "change this on any day under \"My choices\"."));
    else if (view.stage == Stage::preparing)
        m_words->setText(tr("One moment: your picture is being made ready."));
    else
        m_words->setText(!view.notice.isEmpty() ? view.notice
                                                : tr("A photograph or a drawing. You see it once more before it goes. "
                                                     "Where and when it was taken is not sent."));
    m_choose->setVisible(choosing);
    m_paste->setVisible(choosing);
    m_yes->setVisible(agreeing);
    m_no->setVisible(agreeing);
    m_back->setVisible(!agreeing);
    setAccessibleName(m_heading->text());
}

} // namespace vh::pictures
