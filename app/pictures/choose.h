#pragma once
// The system's own way to choose a file, for a picture. GUI thread; does not wait.
#include <QString>

#include <functional>

class QWidget;

namespace vh::pictures
{

/// `done` hears the path once one was chosen; not at all otherwise, nor once `parent` is gone.
void choosePicture(QWidget* parent, std::function<void(const QString& path)> done);

} // namespace vh::pictures
