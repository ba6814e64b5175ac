#include "demo/stage/press.h"

#include <QAbstractButton>
#include <QCoreApplication>
#include <QEventLoop>
#include <QLineEdit>
#include <QTimer>

#include <algorithm>

namespace vh::stage
{

namespace
{

QAbstractButton* buttonWith(QWidget& room, const QString& words)
{
    for (QAbstractButton* button : room.findChildren<QAbstractButton*>())
        if (button->isVisibleTo(&room) && button->isEnabled() && button->text().startsWith(words))
            return button;
    return nullptr;
}

} // namespace

bool waitUntil(const std::function<bool()>& condition, std::chrono::milliseconds patience)
{
    const auto until = std::chrono::steady_clock::now() + patience;
    while (!condition()) {
        if (std::chrono::steady_clock::now() >= until)
            return false;
        letRun(std::chrono::milliseconds(5));
    }
    return true;
}

void letRun(std::chrono::milliseconds time)
{
    QEventLoop loop;
    QTimer::singleShot(time, &loop, &QEventLoop::quit);
    loop.exec();
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
}

bool press(QWidget& room, const QString& words)
{
    QAbstractButton* button = buttonWith(room, words);
    if (button)
        button->click();
    return button != nullptr;
}

bool canPress(QWidget& room, const QString& words)
{
    return buttonWith(room, words) != nullptr;
}

void fillIn(QWidget& room, const QStringList& texts)
{
    QList<QLineEdit*> edits;
    for (QLineEdit* edit : room.findChildren<QLineEdit*>())
        if (edit->isVisibleTo(&room))
            edits.append(edit);
    std::sort(edits.begin(), edits.end(), [&](QLineEdit* a, QLineEdit* b) {
        return a->mapTo(&room, QPoint()).y() < b->mapTo(&room, QPoint()).y();
    });
    for (qsizetype i = 0; i < std::min(edits.size(), texts.size()); ++i)
        edits[i]->setText(texts[i]);
}

} // namespace vh::stage
