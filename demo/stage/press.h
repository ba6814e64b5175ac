#pragma once
// Using the program as a person would: wait until something is so, press what is on the screen, take a picture of it.
// GUI thread.
#include <QString>
#include <QWidget>

#include <chrono>
#include <functional>

namespace vh::stage
{

/// Lets events run until `condition` holds; false when it does not within `patience`.
[[nodiscard]] bool waitUntil(const std::function<bool()>& condition,
                             std::chrono::milliseconds patience = std::chrono::seconds(20));
/// Lets events run for a while: for what has no condition, such as a repaint.
void letRun(std::chrono::milliseconds time);
/// Presses the visible, enabled control with these words under `room`; false when there is none.
[[nodiscard]] bool press(QWidget& room, const QString& words);
/// Whether such a control is there to be pressed.
[[nodiscard]] bool canPress(QWidget& room, const QString& words);
/// Writes into the visible line edits under `room`, in their order on the screen.
void fillIn(QWidget& room, const QStringList& texts);

} // namespace vh::stage
