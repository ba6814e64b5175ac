#include "demo/stage/group_maker.h"

#include "server/hall/member.h"
#include "server/ops/relay.h"

namespace vh::stage
{

namespace
{

template <class Work>
auto beside(const ops::Config& config, Work work) -> std::invoke_result_t<Work&, store::Tables&>
{
    std::error_code error;
    std::filesystem::create_directories(config.data, error);
    auto opening = store::Store::open(ops::storeOptions(config, store::StoreOptions::Hold::alongside));
    if (!opening.store)
        return fail("store", opening.message);
    return opening.store->run(std::move(work));
}

} // namespace

Result<MadeGroup> makeGroup(const ops::Config& config, const std::string& name)
{
    return beside(config, [name](store::Tables& tables) -> Result<MadeGroup> {
        const store::GroupRow row = tables.groups.add(name, SystemClock().now());
        return MadeGroup{row.id, row.code};
    });
}

Result<wire::Token> makeLink(const ops::Config& config, GroupId group, Role role)
{
    return beside(config, [group, role](store::Tables& tables) -> Result<wire::Token> {
        return tables.links.make(group, hall::toStore(role), {}, SystemClock().now()).bytes;
    });
}

} // namespace vh::stage
