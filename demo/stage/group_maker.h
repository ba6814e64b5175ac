#pragma once
// What the operator does before the first class, for demos and tests: makes a group in a relay's folder and one-time
// links for its people. May be used beside a running relay. Blocks; never on a loop.
#include "common/base/result.h"
#include "common/wire/join_link.h"
#include "server/ops/config.h"

namespace vh::stage
{

struct MadeGroup {
    GroupId id;
    std::string code;
};

Result<MadeGroup> makeGroup(const ops::Config& config, const std::string& name);
Result<wire::Token> makeLink(const ops::Config& config, GroupId group, Role role);

} // namespace vh::stage
