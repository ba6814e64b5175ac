#pragma once
// What a hall comes back from when the relay starts, read from the store in one job. Values; made on the store's
// thread.
#include "common/live/class_state.h"
#include "common/script/script.h"
#include "common/wire/to_desk.h"
#include "server/store/store.h"

#include <memory>

namespace vh::hall
{

/// What a hall comes back from: the store's rows, and the frozen script of the open class, if one is open.
struct HallImage {
    store::HallState state;
    std::shared_ptr<const ClassScript> script;
    std::vector<wire::Hash> parts;
    std::vector<ClassState> states; ///< of the open class, oldest first; the last is where it is
    std::size_t nameless = 0;       ///< people in its attendance without a name
    wire::Summary summary;          ///< of the open class so far
    std::vector<store::ContactRow> contacts;
};
/// Inside a job of the store: everything about one person, as loadHall() gives it for all.
store::PersonState personState(const store::Tables& tables, const store::PersonRow& row);
/// Inside a job of the store. group-unknown.
Result<HallImage> loadImage(store::Tables& tables, GroupId group, Instant now);

} // namespace vh::hall
