#pragma once
// The states of the writing room's screens that pictures are made of and tests walk through: one list. Each part of
// the room adds its own.
#include <QString>
#include <QWidget>

#include <functional>
#include <memory>
#include <vector>

namespace vh::testing
{

struct WriteScene {
    QString name;
    std::function<std::unique_ptr<QWidget>()> make;
};

std::vector<WriteScene> editorScenes();
std::vector<WriteScene> libraryScenes();

inline std::vector<WriteScene> writeScenes()
{
    std::vector<WriteScene> all;
    for (const auto& part : {libraryScenes, editorScenes})
        for (WriteScene& scene : part())
            all.push_back(std::move(scene));
    return all;
}

} // namespace vh::testing
