#include "server/hall/hall_image.h"

#include "common/live/place.h"
#include "common/wire/limits.h"
#include "common/wire/script_json.h"
#include "server/hall/state_codec.h"

#include <set>

namespace vh::hall
{

store::PersonState personState(const store::Tables& tables, const store::PersonRow& row)
{
    return {row, tables.people.rolesOf(row.id), tables.devices.ofPerson(row.id), tables.agreements.current(row.id),
            tables.people.bandOf(row.id)};
}

namespace
{

/// How the class has gone so far, from what is stored: all calls, and the turns of those who share and keep.
wire::Summary summaryOf(const store::Tables& tables, const HallImage& image)
{
    wire::Summary summary;
    const ClassId id = image.state.openClass->id;
    summary.calls = static_cast<std::uint32_t>(tables.calls.countOf(id));
    std::set<std::int64_t> alone; // turns in which people spoke alone
    for (const ClassState& state : image.states)
        if (const auto at = turnAt(*image.script, state.place); at && at->turn->kind == TurnKind::yours)
            alone.insert(state.turnSerial);
    for (const store::TurnResultRow& row : tables.results.ofClass(id)) {
        if (!alone.contains(row.turnSerial) ||
            tables.agreements.valueOf(row.person, store::AgreementKind::levelVisible) == "nobody")
            continue;
        ++summary.judgedTurns;
        summary.easyTurns += row.standing == nameOf(Standing::inBand);
        summary.cantTellTurns += row.standing == nameOf(Standing::cantTell);
    }
    return summary;
}

} // namespace

Result<HallImage> loadImage(store::Tables& tables, GroupId group, Instant now)
{
    Result<store::HallState> state = tables.loadHall(group, static_cast<int>(wire::kBoardTail), now);
    if (!state)
        return tl::unexpected<Error>(state.error());
    HallImage image;
    image.state = std::move(*state);
    for (const store::PersonState& person : image.state.people)
        if (const auto contact = tables.people.contactOf(person.person.id))
            image.contacts.push_back(*contact);
    if (image.state.openClass) {
        const auto part = tables.classes.part(image.state.openClass->script);
        auto script = part ? wire::decodeScript({reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size()})
                           : Result<ClassScript>(fail("part-unknown", "the script of the open class is gone"));
        if (!script)
            return tl::unexpected<Error>(script.error());
        image.script = std::make_shared<const ClassScript>(std::move(*script));
        image.parts.push_back(image.state.openClass->script);
        for (const auto& hash : tables.classes.partsOf(image.state.openClass->id))
            if (hash != image.state.openClass->script)
                image.parts.push_back(hash);
        for (const store::PlaceRow& row : tables.classes.places(image.state.openClass->id))
            if (auto was = decodeState(row.state))
                image.states.push_back(std::move(*was));
        for (const store::AttendanceRow& row : tables.classes.attendance(image.state.openClass->id))
            image.nameless += !row.person && !row.byHand;
        image.summary = summaryOf(tables, image);
    }
    return image;
}

} // namespace vh::hall
