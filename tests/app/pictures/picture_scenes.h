#pragma once
// The screens with pictures in their states, with invented people and drawn pictures: to be looked at, and for what
// must hold on all of them. GUI thread.
#include <QImage>
#include <QWidget>

#include <functional>
#include <memory>
#include <vector>

namespace vh::testing
{

/// A garden by a lake, drawn; like a photograph in its colours.
QImage gardenPicture(QSize size = {1600, 1200});

struct PictureScene {
    const char* name;
    bool participants = false; ///< large controls
    std::function<std::unique_ptr<QWidget>()> make;
};
std::vector<PictureScene> pictureScenes();

} // namespace vh::testing
