#include "server/hall/state_codec.h"

#include "common/live/class_moves.h"
#include "common/wire/names.h"

namespace vh
{

static void fieldsOf(Lease& lease, auto& visit)
{
    visit("holder", lease.holder), visit("epoch", lease.epoch), visit("lastSeen", lease.lastSeen);
}

static void fieldsOf(ClassState& state, auto& visit)
{
    visit("phase", state.phase), visit("place", state.place), visit("revision", state.revision);
    visit("serial", state.serial), visit("turnSerial", state.turnSerial), visit("pressedSerial", state.pressedSerial);
    visit("turnStartedAt", state.turnStartedAt), visit("turnSpent", state.turnSpent);
    visit("leftOut", state.leftOut, wire::noneOrAtMost(kMostLeftOut));
    visit("turnLength", state.turnLength), visit("startedAt", state.startedAt), visit("endedAt", state.endedAt);
    visit("leader", state.leader), visit("standIns", state.standIns, wire::atMost(1000));
    visit("lease", state.lease), visit("silentSince", state.silentSince);
}

} // namespace vh

namespace vh::hall
{

std::vector<std::uint8_t> encodeState(const ClassState& state)
{
    wire::json::object object;
    wire::FieldWriter writer(object);
    wire::visitFields(const_cast<ClassState&>(state), writer); // the writer only reads
    const std::string text = wire::json::serialize(object);
    return {text.begin(), text.end()};
}

Result<ClassState> decodeState(const std::vector<std::uint8_t>& bytes)
{
    wire::json::error_code error;
    const wire::json::value value =
        wire::json::parse({reinterpret_cast<const char*>(bytes.data()), bytes.size()}, error);
    if (error || !value.is_object())
        return fail("malformed", "the stored place cannot be read");
    ClassState state;
    wire::FieldReader reader(value.get_object());
    wire::visitFields(state, reader);
    if (reader.error())
        return tl::unexpected<Error>(*reader.error());
    return state;
}

} // namespace vh::hall
