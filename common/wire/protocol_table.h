#pragma once
// The protocol's own table: for every message that a client may send, which roles may send it, at which stage, and how
// long it may be. The relay obeys it (what is not in it is refused), the tests walk it, docs/protocol.md prints it.
#include "common/base/role.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace vh::wire
{

/// How far a line has come: connected; said hello; waiting at the door; in.
enum class Stage : std::uint8_t { fresh, greeted, atDoor, in };

struct Rule {
    std::string_view message; ///< "type" of a text message, or the name of a binary one
    bool binary = false;
    std::uint8_t stages = 0; ///< bits, 1 << Stage
    RoleSet roles = 0;       ///< who may, once in
    std::size_t mostBytes = 0;
};

std::span<const Rule> rulesForClients();
/// Nothing for a message that is not in the table.
const Rule* ruleFor(std::string_view message);
bool mayBeSent(const Rule& rule, Stage stage, Role role);

} // namespace vh::wire
