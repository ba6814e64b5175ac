#pragma once
// What a screen's labels and controls want and what they are given: words that do not fit, controls that are too small
// or too near each other, things that lie outside. Each finding is a line in words; none: all is well. Use it beside
// tests/app/look/paint_record.h, which sees what is really painted. The screen must be shown. GUI thread.
#include "app/look/look.h"
#include "app/widgets/cue_badge.h"
#include "app/widgets/fitted_text.h"
#include "app/widgets/notice_line.h"

#include <QAbstractButton>
#include <QAbstractScrollArea>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QScrollBar>

namespace vh::testing
{

inline QString nameOf(const QWidget& widget)
{
    if (const auto* label = qobject_cast<const QLabel*>(&widget))
        return '"' + label->text() + '"';
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget))
        return '"' + button->text() + '"';
    return widget.accessibleName().isEmpty() ? QString::fromLatin1(widget.metaObject()->className())
                                             : '"' + widget.accessibleName() + '"';
}

/// Whether a key beside a button's words may give way to them (BigButton::setHintGivesWay()).
enum class KeyHints { stay, mayGo };

/// The least room in which all of a widget's words are seen, where it is known; else its own size.
inline QSize wantedBy(const QWidget& widget, KeyHints hints = KeyHints::stay)
{
    const QSize given = widget.size();
    if (const auto* label = qobject_cast<const QLabel*>(&widget)) {
        if (label->text().isEmpty() || !label->wordWrap())
            return label->text().isEmpty() ? given : label->sizeHint();
        int longest = 0;
        const QFontMetrics metrics(label->font());
        for (const QString& word : label->text().split(' '))
            longest = std::max(longest, metrics.horizontalAdvance(word));
        return {longest, label->heightForWidth(given.width())};
    }
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget); button && hints == KeyHints::mayGo)
        return button->minimumSizeHint();
    if (qobject_cast<const QAbstractButton*>(&widget) || qobject_cast<const CueBadge*>(&widget) ||
        qobject_cast<const TurnRow*>(&widget))
        return widget.sizeHint();
    if (const auto* notice = qobject_cast<const NoticeLine*>(&widget))
        return notice->state().words.isEmpty() ? given : QSize(given.width(), notice->heightForWidth(given.width()));
    if (const auto* text = qobject_cast<const FittedText*>(&widget))
        return text->lines().fits ? given : QSize(given.width(), text->heightForWidth(given.width()));
    if (const auto* edit = qobject_cast<const QLineEdit*>(&widget)) {
        const int words = QFontMetrics(edit->font()).horizontalAdvance(edit->placeholderText());
        return {words + 40, QFontMetrics(edit->font()).height()};
    }
    return given;
}

inline bool isControl(const QWidget& widget)
{
    return qobject_cast<const QAbstractButton*>(&widget) || qobject_cast<const QLineEdit*>(&widget) ||
           qobject_cast<const QComboBox*>(&widget);
}

/// The widgets of a screen that are shown; not the parts of a combo box or of a scroll bar.
inline QList<QWidget*> shownIn(const QWidget& screen)
{
    QList<QWidget*> shown;
    for (QWidget* each : screen.findChildren<QWidget*>()) {
        bool inside = each->isVisible();
        for (const QWidget* up = each->parentWidget(); inside && up && up != &screen; up = up->parentWidget())
            inside = !qobject_cast<const QComboBox*>(up);
        if (inside)
            shown.append(each);
    }
    return shown;
}

/// Words for which there is not enough room, and what lies outside `screen` (a scroll area may be higher).
inline QStringList tooLittleRoomIn(const QWidget& screen, KeyHints hints = KeyHints::stay)
{
    QStringList all;
    for (const QWidget* each : shownIn(screen)) {
        const QSize wanted = wantedBy(*each, hints);
        if (wanted.width() > each->width() || wanted.height() > each->height())
            all.append(QStringLiteral("%1 wants %2x%3 and has %4x%5")
                           .arg(nameOf(*each))
                           .arg(wanted.width())
                           .arg(wanted.height())
                           .arg(each->width())
                           .arg(each->height()));
        bool scrolls = false;
        for (const QWidget* up = each->parentWidget(); up && up != &screen; up = up->parentWidget())
            scrolls = scrolls || qobject_cast<const QAbstractScrollArea*>(up);
        const QRect place(each->mapTo(&screen, QPoint()), each->size());
        const bool wide = place.left() < 0 || place.right() >= screen.width();
        const bool high = place.top() < 0 || place.bottom() >= screen.height();
        if (wide || (high && !scrolls))
            all.append(nameOf(*each) + " lies outside");
    }
    return all;
}

/// Parts of a screen that can be seen only by scrolling; not of a field that follows whoever writes in it.
inline QStringList scrolledAwayIn(const QWidget& screen)
{
    QStringList all;
    for (const QWidget* each : shownIn(screen))
        if (const auto* area = qobject_cast<const QAbstractScrollArea*>(each);
            area && !qobject_cast<const QPlainTextEdit*>(each) &&
            (area->verticalScrollBar()->maximum() > 0 || area->horizontalScrollBar()->maximum() > 0))
            all.append(QStringLiteral("%1 px have to be scrolled to").arg(area->verticalScrollBar()->maximum()));
    return all;
}

/// Controls under 60x60 px, and pairs with less than 12 px between them.
inline QStringList tooSmallOrCloseIn(const QWidget& screen)
{
    using look::Space;
    QStringList all;
    QList<std::pair<QRect, QString>> places;
    for (const QWidget* each : shownIn(screen)) {
        if (!isControl(*each))
            continue;
        const QRect place(each->mapTo(&screen, QPoint()), each->size());
        if (place.width() < Space::touch || place.height() < Space::touch)
            all.append(QStringLiteral("%1 is %2x%3").arg(nameOf(*each)).arg(place.width()).arg(place.height()));
        for (const auto& [other, name] : places)
            if (other.adjusted(1 - Space::gap, 1 - Space::gap, Space::gap - 1, Space::gap - 1).intersects(place))
                all.append(nameOf(*each) + " is too near " + name);
        places.append({place, nameOf(*each)});
    }
    return all;
}

} // namespace vh::testing
