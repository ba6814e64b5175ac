#include "app/pictures/large_page.h"

#include "app/look/look.h"
#include "app/pictures/picture_box.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

namespace vh::pictures
{

using look::Space;

namespace
{
constexpr int kSideWide = 400;

/// A link has no spaces: it may go on in the next line after so many letters.
QString breakable(const QString& text)
{
    constexpr int kRun = 12;
    QString all;
    int run = 0;
    for (const QChar c : text) {
        run = c.isSpace() ? 0 : run + 1;
        if (run > kRun && !c.isLowSurrogate() && !c.isMark()) {
            all += QChar(0x200b);
            run = 1;
        }
        all += c;
    }
    return all;
}
} // namespace

LargePage::LargePage(QWidget* parent) : QWidget(parent)
{
    setFocusPolicy(Qt::TabFocus);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(Space::margin, Space::wide, Space::margin, Space::wide);
    row->setSpacing(Space::margin);
    m_picture = new PictureBox(this, look::Type::touch);
    row->addWidget(m_picture, 1);
    auto* side = new QWidget(this);
    side->setFixedWidth(kSideWide);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::gap);
    auto* area = new QScrollArea(side); // a caption may be long
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* words = new QWidget(area);
    auto* lines = new QVBoxLayout(words);
    lines->setContentsMargins(0, 0, 0, 0);
    lines->setSpacing(Space::gap);
    m_name = plainLabel(words, "words");
    m_name->setFont(look::Look::current().font(look::Type::touch, look::Weight::bold));
    m_caption = plainLabel(words, "words");
    m_state = plainLabel(words, "words");
    lines->addStretch(1);
    for (QLabel* label : {m_name, m_caption, m_state})
        lines->addWidget(label);
    lines->addStretch(1);
    area->setWidget(words);
    column->addWidget(area, 1);
    m_takeBack = new BigButton(tr("Take it back"), BigButton::Rank::plain, BigButton::Size::touch, side);
    m_takeBack->setSign(look::Sign::undo);
    m_back = new BigButton(tr("Back"), BigButton::Rank::main, BigButton::Size::touch, side);
    column->addWidget(m_takeBack);
    column->addWidget(m_back);
    row->addWidget(side);
    connect(m_takeBack, &BigButton::pressRequested, this, &LargePage::takeBackRequested);
    connect(m_back, &BigButton::pressRequested, this, &LargePage::backRequested);
    auto* back = new QShortcut(QKeySequence(Qt::Key_Escape), this);
    connect(back, &QShortcut::activated, this, &LargePage::backRequested);
}

void LargePage::setState(const LargeView& view)
{
    const QString whose = view.own              ? tr("Your picture")
                          : view.name.isEmpty() ? tr("A picture")
                                                : tr("From %1").arg(view.name);
    m_picture->setState(
        {view.picture, view.caption.isEmpty() ? whose : QStringLiteral("%1: %2").arg(whose, view.caption), view.words});
    m_name->setText(whose);
    m_caption->setText(breakable(view.caption));
    m_caption->setAccessibleName(view.caption);
    m_caption->setVisible(!view.caption.isEmpty());
    m_state->setText(view.state);
    m_state->setVisible(!view.state.isEmpty());
    m_takeBack->setVisible(view.canTakeBack);
    setAccessibleName(whose);
}

} // namespace vh::pictures
