#pragma once
// Words that belong to programs for calls and for slides, and to no class of voices: none of them stands on a screen or
// is said by a reader. GUI thread.
#include <QAbstractButton>
#include <QLabel>
#include <QRegularExpression>
#include <QWidget>

namespace vh::testing
{

/// What is written on a screen, or said of it, in such words; empty: nothing.
inline QStringList borrowedWordsIn(const QWidget& screen)
{
    static const QRegularExpression words(QStringLiteral("\\b(mute|muted|unmute|copy|copied|meeting|slide|slides)\\b"),
                                          QRegularExpression::CaseInsensitiveOption);
    QStringList all;
    for (const QWidget* each : screen.findChildren<QWidget*>()) {
        const auto* label = qobject_cast<const QLabel*>(each);
        const auto* button = qobject_cast<const QAbstractButton*>(each);
        for (const QString& text : {label ? label->text() : QString(), button ? button->text() : QString(),
                                    each->accessibleName(), each->accessibleDescription(), each->toolTip()})
            if (text.contains(words))
                all << text;
    }
    return all;
}

} // namespace vh::testing
