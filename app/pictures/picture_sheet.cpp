#include "app/pictures/picture_sheet.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"
#include "common/wire/limits.h"

#include <QKeyEvent>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace vh::pictures
{

using look::Space;

namespace
{
constexpr int kSideWide = 400;
constexpr int kCaptionLines = 2;
constexpr int kAroundCaption = 24; // padding and outline
} // namespace

PictureSheet::PictureSheet(QWidget* parent) : QWidget(parent)
{
    setObjectName("room");
    setAttribute(Qt::WA_StyledBackground);
    auto* page = new QHBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0); // it stands within the desk
    page->setSpacing(Space::wide);
    page->addWidget(makeLarge(), 1);
    page->addWidget(makeSide());
    setTabOrder(m_picture, m_caption);
}

BigButton* PictureSheet::makeKey(const QString& words, const QString& key, QWidget* parent)
{
    auto* button = new BigButton(words, BigButton::Rank::plain, BigButton::Size::desk, parent);
    button->setKeyHint(key);
    button->setHintGivesWay();
    button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the picture
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    return button;
}

/// The picture, and below it what there is to say of it.
QWidget* PictureSheet::makeLarge()
{
    auto* large = new QWidget(this);
    auto* column = new QVBoxLayout(large);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_picture = new CutView(large);
    connect(m_picture, &CutView::frameRequested, this, &PictureSheet::frameRequested);
    m_notice = plainLabel(large);
    column->addWidget(m_picture, 1);
    column->addWidget(m_notice);
    return large;
}

QWidget* PictureSheet::makeSide()
{
    auto* area = new QScrollArea(this); // for large text, and beside calls for help
    area->setFixedWidth(kSideWide);
    area->setFrameShape(QFrame::NoFrame);
    area->setWidgetResizable(true);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setFocusPolicy(Qt::NoFocus);
    auto* side = new QWidget(area);
    area->setWidget(side);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_head = plainLabel(side, "title");
    m_aside = plainLabel(side, "second");
    m_caption = new QPlainTextEdit(side);
    m_caption->setTabChangesFocus(true);
    m_caption->document()->setDocumentMargin(0); // whole lines
    m_caption->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_caption->setAccessibleName(tr("Caption"));
    m_caption->setPlaceholderText(tr("Caption"));
    m_caption->installEventFilter(this);
    connect(m_caption, &QPlainTextEdit::textChanged, this,
            [this] { emit captionRequested(m_caption->toPlainText().left(int(wire::kChatLength))); });
    m_how = plainLabel(side, nullptr,
                       tr("Arrow keys move the thick edge, with Shift in small steps. Space takes the next edge. Or "
                          "move an edge by the mouse."));
    for (QWidget* each : {static_cast<QWidget*>(m_head), static_cast<QWidget*>(m_aside),
                          static_cast<QWidget*>(m_caption), makeChanges(side), static_cast<QWidget*>(m_how)})
        column->addWidget(each);
    column->addStretch(1);
    m_board = makeKey(tr("To the board"), "1", side);
    m_board->setRank(BigButton::Rank::main);
    m_setAside = makeKey(tr("Set aside"), "2", side);
    m_window = makeKey(tr("To the group's window"), "3", side);
    m_close = makeKey(tr("Back"), tr("Esc"), side);
    connect(m_board, &BigButton::pressRequested, this, [this] { emit becomesRequested(Becomes::board); });
    connect(m_setAside, &BigButton::pressRequested, this, [this] { emit becomesRequested(Becomes::aside); });
    connect(m_window, &BigButton::pressRequested, this, [this] { emit becomesRequested(Becomes::window); });
    connect(m_close, &BigButton::pressRequested, this,
            [this] { m_cutting ? endCutting(false) : emit closeRequested(); });
    for (BigButton* button : {m_board, m_setAside, m_window, m_close})
        column->addWidget(button);
    return area;
}

QWidget* PictureSheet::makeChanges(QWidget* parent)
{
    auto* both = new QWidget(parent);
    auto* grid = new QGridLayout(both);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(Space::small);
    m_left = makeKey(tr("Turn left"), "L", both);
    m_right = makeKey(tr("Turn right"), "R", both);
    m_cut = makeKey(tr("Cut"), "C", both);
    m_undo = makeKey(tr("Undo"), "U", both);
    connect(m_left, &BigButton::pressRequested, this, [this] { emit turnRequested(-1); });
    connect(m_right, &BigButton::pressRequested, this, [this] { emit turnRequested(1); });
    connect(m_cut, &BigButton::pressRequested, this, [this] {
        if (m_cutting)
            return endCutting(true);
        emit cutBegan();
        setCutting(true);
    });
    connect(m_undo, &BigButton::pressRequested, this, &PictureSheet::undoRequested);
    grid->addWidget(m_left, 0, 0);
    grid->addWidget(m_right, 0, 1);
    grid->addWidget(m_cut, 1, 0);
    grid->addWidget(m_undo, 1, 1);
    return both;
}

void PictureSheet::setState(const SheetView& view)
{
    if (view.item != m_view.item || view.busy || view.picture.isNull())
        m_cutting = false;
    m_view = view;
    show(view);
}

/// Made anew only when it is another one: this is told twice a second.
QImage PictureSheet::shownOf(const SheetView& view)
{
    PictureEdit edit = view.edit;
    edit.caption.clear();
    if (m_cutting)
        edit.cut = QRectF(0, 0, 1, 1);
    if (m_shownOf != view.picture.cacheKey() || m_shownEdit != edit) {
        m_shownOf = view.picture.cacheKey();
        m_shownEdit = edit;
        m_shown = applied(view.picture, edit);
    }
    return m_shown;
}

void PictureSheet::show(const SheetView& view)
{
    m_head->setText(view.head);
    m_aside->setText(view.aside);
    m_aside->setVisible(!view.aside.isEmpty());
    if (m_caption->toPlainText() != view.edit.caption) {
        const QSignalBlocker quietly(m_caption);
        m_caption->setPlainText(view.edit.caption);
    }
    m_caption->setReadOnly(view.busy);
    m_caption->setFixedHeight(kCaptionLines * QFontMetrics(look::Look::current().font(look::Type::body)).lineSpacing() +
                              kAroundCaption);
    const QString caption = view.edit.caption.simplified();
    m_picture->setState({shownOf(view), framed(view.edit), m_cutting,
                         caption.isEmpty() ? view.head : QStringLiteral("%1: %2").arg(view.head, caption), view.words});
    m_notice->setText(view.notice);
    m_notice->setVisible(!view.notice.isEmpty() && !m_cutting);
    showKeys(view);
}

/// While a frame is moved there is nothing else to press.
void PictureSheet::showKeys(const SheetView& view)
{
    m_how->setVisible(m_cutting);
    for (QWidget* each : {static_cast<QWidget*>(m_caption), static_cast<QWidget*>(m_left),
                          static_cast<QWidget*>(m_right), static_cast<QWidget*>(m_undo), static_cast<QWidget*>(m_board),
                          static_cast<QWidget*>(m_setAside), static_cast<QWidget*>(m_window)})
        each->setVisible(!m_cutting);
    m_cut->setText(m_cutting ? tr("Done") : tr("Cut"));
    m_cut->setKeyHint(m_cutting ? tr("Enter") : QStringLiteral("C"));
    m_cut->setRank(m_cutting ? BigButton::Rank::main : BigButton::Rank::plain);
    m_close->setText(m_cutting ? tr("As it was") : tr("Back"));
    const bool has = !view.picture.isNull() && !view.busy;
    for (BigButton* button : {m_left, m_right, m_cut, m_board, m_window})
        button->setEnabled(has);
    m_undo->setEnabled(view.canUndo && !view.busy);
    m_setAside->setEnabled(!view.busy);
}

void PictureSheet::setCutting(bool cutting)
{
    m_cutting = cutting;
    show(m_view);
    m_picture->setFocus();
}

void PictureSheet::endCutting(bool kept)
{
    setCutting(false);
    emit cutEnded(kept);
}

/// One key each, in any case of letter.
bool PictureSheet::pressLetter(int key)
{
    BigButton* const buttons[] = {m_left, m_right, m_cut, m_undo, m_board, m_setAside, m_window};
    constexpr int kKeys[] = {Qt::Key_L, Qt::Key_R, Qt::Key_C, Qt::Key_U, Qt::Key_1, Qt::Key_2, Qt::Key_3};
    for (std::size_t i = 0; i < std::size(kKeys); ++i)
        if (key == kKeys[i]) {
            if (buttons[i]->isVisibleTo(this))
                buttons[i]->click(); // nothing where it cannot be pressed now
            return true;
        }
    return false;
}

void PictureSheet::keyPressEvent(QKeyEvent* event)
{
    const bool bare = !(event->modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier));
    const int key = event->key();
    if (bare && m_cutting && (key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Escape)) {
        event->accept();
        return endCutting(key != Qt::Key_Escape);
    }
    if (bare && key == Qt::Key_Escape) {
        event->accept();
        if (m_caption->hasFocus())
            return m_picture->setFocus();
        emit closeRequested();
        return;
    }
    if (bare && !event->isAutoRepeat() && pressLetter(key))
        return event->accept();
    QWidget::keyPressEvent(event);
}

void PictureSheet::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_picture->setFocus();
}

/// A caption is one line of text: Enter goes back to the picture.
bool PictureSheet::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_caption && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            m_picture->setFocus();
            return true;
        }
    }
    if (watched == m_caption && event->type() == QEvent::FocusOut)
        emit captionEnded();
    return QWidget::eventFilter(watched, event);
}

} // namespace vh::pictures
