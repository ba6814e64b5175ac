#pragma once
// Somebody who writes a class: types text, presses keys and buttons on the real page, by real key events, and counts
// what is pressed. Letters of the text itself are not counted; a key with its modifiers, or a button, is one. GUI
// thread.
#include <QApplication>
#include <QPushButton>
#include <QTest>

namespace vh::testing
{

class WritingHand
{
public:
    explicit WritingHand(QWidget& page) : m_page(page)
    {
        page.window()->show();
        page.window()->activateWindow();
        (void)QTest::qWaitForWindowActive(page.window());
    }

    [[nodiscard]] int presses() const { return m_presses; }
    [[nodiscard]] QWidget& focus() const { return QApplication::focusWidget() ? *QApplication::focusWidget() : m_page; }

    void key(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier)
    {
        ++m_presses;
        QTest::keyClick(&focus(), key, with);
        QApplication::processEvents();
    }

    /// New lines are typed as Shift+Enter, and counted.
    void type(const QString& text)
    {
        for (const QChar letter : text)
            if (letter == u'\n')
                key(Qt::Key_Return, Qt::ShiftModifier);
            else
                QTest::sendKeyEvent(QTest::Click, &focus(), Qt::Key_unknown, QString(letter), Qt::NoModifier);
        QApplication::processEvents();
    }

    /// By the mouse.
    void click(QWidget& control)
    {
        ++m_presses;
        QTest::mouseClick(&control, Qt::LeftButton, {}, QPoint(control.width() / 8, control.height() / 4));
        QApplication::processEvents();
    }

    /// The button with these words, by the mouse. False: there is none that can be pressed.
    bool press(const QString& words)
    {
        for (auto* button : m_page.findChildren<QPushButton*>())
            if (button->text() == words && button->isVisible() && button->isEnabled()) {
                ++m_presses;
                QTest::mouseClick(button, Qt::LeftButton);
                QApplication::processEvents();
                return true;
            }
        return false;
    }

private:
    QWidget& m_page;
    int m_presses = 0;
};

} // namespace vh::testing
