#include "app/lead/jump_list.h"

#include "app/look/look.h"
#include "app/widgets/big_button.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QListWidget>
#include <QPainter>
#include <QStyledItemDelegate>
#include <QVBoxLayout>

#include <algorithm>

namespace vh::lead
{

using look::Look;
using look::Space;
using look::Type;

namespace
{

constexpr int kBesideRole = Qt::UserRole;
constexpr int kWhenRole = Qt::UserRole + 1;
constexpr int kRowPadding = 7;
constexpr int kLeastList = 90; ///< px: two steps, so that there is something to choose from
constexpr int kTitle = -1;     ///< kWhenRole of a section's title

bool isTitle(const QModelIndex& index)
{
    return index.data(kWhenRole).toInt() == kTitle;
}

} // namespace

/// Lets the keys that lead the class through; Enter goes to the chosen step.
class JumpList::List : public QListWidget
{
public:
    List(JumpList* list) : QListWidget(list), m_owner(list) {}

protected:
    void keyPressEvent(QKeyEvent* event) override
    {
        switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            if (!event->isAutoRepeat())
                m_owner->ask(ChangeRequest::Kind::jump);
            return;
        case Qt::Key_Space:
        case Qt::Key_Left:
        case Qt::Key_Right:
        case Qt::Key_Escape:
            return event->ignore();
        default:
            QListWidget::keyPressEvent(event);
        }
    }

private:
    JumpList* m_owner;
};

/// The step's words, what stands beside them at the right, and faint what has been or is left out.
class JumpList::RowDelegate : public QStyledItemDelegate
{
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const override
    {
        const QFontMetrics metrics(fontOf(index));
        return {100, metrics.height() + (isTitle(index) ? kRowPadding : 2 * kRowPadding)};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const look::Palette& colours = Look::current().palette();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        if (option.state & QStyle::State_Selected) {
            painter->setPen(QPen(colours.deep2, 2));
            painter->setBrush(colours.quiet);
            painter->drawRoundedRect(QRectF(option.rect).adjusted(5, 1, -3, -1), 8, 8);
        }
        const QRect room = option.rect.adjusted(Space::gap, 0, -Space::gap, 0);
        const QString beside = index.data(kBesideRole).toString();
        painter->setPen(inkOf(index));
        painter->setFont(Look::current().font(Type::note));
        painter->drawText(room, Qt::AlignRight | Qt::AlignVCenter, beside);
        const int taken = beside.isEmpty() ? 0 : painter->fontMetrics().horizontalAdvance(beside) + Space::gap;
        painter->setFont(fontOf(index));
        const QRect words = room.adjusted(isTitle(index) ? 0 : Space::small, 0, -taken, 0);
        painter->drawText(words, Qt::AlignLeft | (isTitle(index) ? Qt::AlignBottom : Qt::AlignVCenter),
                          painter->fontMetrics().elidedText(index.data().toString(), Qt::ElideRight, words.width()));
        painter->restore();
    }

private:
    static bool isNow(const QModelIndex& index)
    {
        return index.data(kWhenRole).toInt() == static_cast<int>(StepRow::When::now);
    }
    static QFont fontOf(const QModelIndex& index)
    {
        return Look::current().font(isTitle(index) ? Type::note : Type::body,
                                    isTitle(index) || isNow(index) ? look::Weight::bold : look::Weight::regular);
    }
    static QColor inkOf(const QModelIndex& index)
    {
        const look::Palette& colours = Look::current().palette();
        const int when = index.data(kWhenRole).toInt();
        return when == static_cast<int>(StepRow::When::coming) || isNow(index) ? colours.ink : colours.secondInk;
    }
};

JumpList::JumpList(QWidget* parent) : QWidget(parent), m_list(new List(this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    m_list->setItemDelegate(new RowDelegate(m_list));
    m_list->setMinimumHeight(Space::wide);
    m_list->setAccessibleName(tr("Steps of the class"));
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    column->addWidget(m_list, 1);
    auto* buttons = m_buttons = new QGridLayout;
    buttons->setSpacing(Space::small);
    using Kind = ChangeRequest::Kind;
    const auto button = [&](const QString& words, const QString& key, BigButton::Rank rank, Kind kind) {
        auto* made = new BigButton(words, rank, BigButton::Size::desk, this);
        made->setKeyHint(key);
        made->setHintGivesWay();
        connect(made, &BigButton::pressRequested, this, [this, kind] { ask(kind); });
        return made;
    };
    m_jump = button(tr("Go there"), tr("Enter"), BigButton::Rank::main, Kind::jump);
    m_jump->setAccessibleName(tr("Go to the chosen step"));
    m_correct = button(tr("Correct"), "E", BigButton::Rank::plain, Kind::showText);
    m_correct->setAccessibleName(tr("Correct the text of the chosen step"));
    m_more = button(tr("10 s more"), "X", BigButton::Rank::plain, Kind::moreTime);
    m_more->setAccessibleName(tr("Ten seconds more for this turn"));
    m_trim = button(tr("End on time"), "I", BigButton::Rank::plain, Kind::showTrim);
    buttons->addWidget(m_jump, 0, 0);
    buttons->addWidget(m_correct, 0, 1);
    buttons->addWidget(m_more, 1, 0);
    buttons->addWidget(m_trim, 1, 1);
    column->addLayout(buttons);
}

void JumpList::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    const bool roomy = height() >= kLeastList + 2 * (m_jump->sizeHint().height() + Space::small);
    m_more->setVisible(roomy);
    m_trim->setVisible(roomy);
}

void JumpList::ask(ChangeRequest::Kind kind)
{
    emit changeRequested({kind, chosen(), {}});
}

std::optional<StepAt> JumpList::chosen() const
{
    const auto found = std::ranges::find(m_items, m_list->currentItem());
    return found == m_items.end() ? std::nullopt
                                  : std::optional(m_rows[static_cast<std::size_t>(found - m_items.begin())].at);
}

void JumpList::fill(const std::vector<StepRow>& rows)
{
    const bool sameSteps = std::ranges::equal(
        rows, m_rows, [](const StepRow& a, const StepRow& b) { return a.at == b.at && a.section == b.section; });
    const auto before = chosen();
    m_rows = rows;
    if (!sameSteps) {
        m_list->clear();
        m_items.clear();
        for (const StepRow& row : rows) {
            if (!row.section.isEmpty()) {
                auto* title = new QListWidgetItem(row.section, m_list);
                title->setData(kWhenRole, kTitle);
                title->setFlags(Qt::NoItemFlags);
            }
            m_items.push_back(new QListWidgetItem(m_list));
        }
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        m_items[i]->setText(rows[i].words);
        m_items[i]->setData(kBesideRole, rows[i].beside);
        m_items[i]->setData(kWhenRole, static_cast<int>(rows[i].when));
        m_items[i]->setData(Qt::AccessibleTextRole, QStringLiteral("%1, %2").arg(rows[i].words, rows[i].beside));
    }
    if (!sameSteps && before)
        point(*before);
}

void JumpList::point(StepAt at)
{
    const auto row = std::ranges::find(m_rows, at, &StepRow::at);
    if (row == m_rows.end())
        return;
    m_list->setCurrentItem(m_items[static_cast<std::size_t>(row - m_rows.begin())]);
    m_list->scrollToItem(m_list->currentItem(), QAbstractItemView::PositionAtCenter);
}

void JumpList::setState(const ChangesView& view, bool fresh)
{
    if (view.steps != m_rows)
        fill(view.steps);
    if (view.mayCorrect == m_correct->isHidden()) {
        m_correct->setHidden(!view.mayCorrect);
        m_buttons->addWidget(m_jump, 0, 0, 1, view.mayCorrect ? 1 : 2);
    }
    if (fresh)
        point(view.wanted);
}

void JumpList::takeFocus()
{
    m_list->setFocus();
}

} // namespace vh::lead
