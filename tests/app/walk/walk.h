#pragma once
// A screen as somebody meets it who has only a keyboard, or only a reader: which controls the Tab key reaches, and what
// is wrong with the names and roles in the accessibility tree. Findings are lines in words. The screen must be the
// active window. GUI thread.
#include "app/widgets/spoken_widget.h"
#include "tests/app/widgets/fits.h"

#include <QAccessible>
#include <QApplication>
#include <QSet>
#include <QTest>

namespace vh::testing
{

/// Everything the keyboard stands on, one Tab after the other, until it has gone round twice.
inline QSet<QWidget*> reachedByTab(QWidget& screen)
{
    QSet<QWidget*> reached;
    if (!QApplication::focusWidget())
        screen.setFocus();
    for (qsizetype presses = 0; presses < 2 * reached.size() + 3 && presses < 300; ++presses) {
        QWidget* focus = QApplication::focusWidget();
        if (!focus)
            break;
        reached.insert(focus);
        QTest::keyClick(focus, Qt::Key_Tab);
    }
    return reached;
}

/// Controls that neither Tab reaches nor a key of their own drives.
inline QStringList outOfReachIn(QWidget& screen)
{
    const QSet<QWidget*> reached = reachedByTab(screen);
    QStringList all;
    for (QWidget* each : shownIn(screen))
        if (isControl(*each) && each->isEnabled() && !reached.contains(each) &&
            !each->accessibleDescription().startsWith("Key "))
            all.append(nameOf(*each) + " is out of reach of the keyboard, which went to " +
                       QString::number(reached.size()) + " places and stands on " +
                       (QApplication::focusWidget() ? nameOf(*QApplication::focusWidget()) : QString()));
    return all;
}

/// Every interface under one, itself first.
inline void collect(QAccessibleInterface* face, QList<QAccessibleInterface*>& all, int depth = 0)
{
    if (!face || depth > 30)
        return;
    all.append(face);
    for (int i = 0; i < std::min(face->childCount(), 300); ++i)
        collect(face->child(i), all, depth + 1);
}

/// What a reader would stumble over: controls that it cannot find, press or name, and words that it does not say.
inline QStringList unspokenIn(QWidget& screen)
{
    QList<QAccessibleInterface*> tree;
    collect(QAccessible::queryAccessibleInterface(&screen), tree);
    QHash<const QObject*, QAccessibleInterface*> found;
    for (QAccessibleInterface* face : tree)
        if (face->object())
            found.insert(face->object(), face);
    QStringList all;
    for (const QWidget* each : shownIn(screen)) {
        QAccessibleInterface* face = found.value(each);
        if (isControl(*each)) {
            if (!face) {
                all.append(nameOf(*each) + " is not in the accessibility tree");
                continue;
            }
            const QString name = face->text(QAccessible::Name);
            if (name.trimmed().isEmpty())
                all.append(nameOf(*each) + " has no name");
            if (const auto* button = qobject_cast<const QAbstractButton*>(each)) {
                auto* actions = face->actionInterface();
                if (button->isEnabled() && // one that cannot be pressed now offers nothing
                    (!actions || !actions->actionNames().contains(QAccessibleActionInterface::pressAction())))
                    all.append(nameOf(*each) + " cannot be pressed by a reader");
                if (face->role() != QAccessible::Button && face->role() != QAccessible::CheckBox)
                    all.append(nameOf(*each) + " is no button to a reader");
                if (button->isEnabled() != !face->state().disabled)
                    all.append(nameOf(*each) + " says wrongly whether it can be pressed");
            }
            if (const auto* edit = qobject_cast<const QLineEdit*>(each);
                edit && (face->role() != QAccessible::EditableText || face->text(QAccessible::Value) != edit->text()))
                all.append(nameOf(*each) + " does not say what stands in it");
        }
        if (const auto* label = qobject_cast<const QLabel*>(each); label && !label->text().isEmpty() && !label->buddy())
            if (!face || (face->text(QAccessible::Name) != label->text() && label->accessibleName().isEmpty()))
                all.append(nameOf(*each) + " is not read");
        if (const auto* spoken = qobject_cast<const SpokenWidget*>(each);
            spoken && face && face->role() != spoken->role())
            all.append(nameOf(*each) + " has another role in the tree");
    }
    return all;
}

/// What readers are told to say on a screen, in order. (Qt passes accessibility events on only while a reader is there;
/// SpokenWidget::announced stands for them.)
class Announced
{
public:
    explicit Announced(QWidget& screen)
    {
        for (SpokenWidget* each : screen.findChildren<SpokenWidget*>())
            QObject::connect(each, &SpokenWidget::announced, &m_context,
                             [this](const QString& sentence) { m_alerts.append(sentence); });
    }
    [[nodiscard]] const QStringList& alerts() const { return m_alerts; }
    void clear() { m_alerts.clear(); }

private:
    QObject m_context;
    QStringList m_alerts;
};

} // namespace vh::testing
