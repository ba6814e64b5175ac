#pragma once
// Every screen of the participant, reached as a person reaches it, through the model: for pictures and for what must
// hold on all of them. GUI thread.
#include "tests/app/join/class_here.h"

#include <functional>
#include <vector>

namespace vh::testing
{

struct Scene {
    const char* name;
    std::function<void(join::JoinModel&, ClassHere&)> arrange;
};
std::vector<Scene> joinScenes();
// Which are among them:
std::vector<Scene> beforeScenes(); ///< the way in
std::vector<Scene> checkScenes();  ///< the mic check
std::vector<Scene> boardScenes();  ///< words

/// Into class, with a voice that is `voice` today.
void joinFully(join::JoinModel& model, ClassHere& here, int voice = 0);

/// A class with a picture in it.
struct SceneClass : ClassHere {
    SceneClass();
};

} // namespace vh::testing
