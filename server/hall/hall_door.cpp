// The door.
#include "server/hall/failure_counter.h"
#include "server/hall/hall_store.h"
#include "server/hall/shown_text.h"

#include <algorithm>

namespace vh::hall
{

namespace
{

constexpr std::ptrdiff_t kDoorOfOneAddress = 5;
constexpr std::uint8_t kDoorSlot = 0; ///< of the frames of which only the newest counts

const Error kNotWaiting{"door-empty", "This person is no longer waiting.", "door"};

} // namespace

// --- the door ------------------------------------------------------------------------------------------------------

void Hall::knock(Session& session, const std::string& name, const std::string& device)
{
    // The same device once more: its earlier line broke without a word.
    const auto earlier = atDoor(session.key());
    if (earlier != m_door.end()) {
        Session* old = earlier->second.session;
        m_door.erase(earlier);
        old->isOut();
        old->close(kCloseAnotherDevice, "You are at the door on another line.");
    }
    if (m_door.size() >= wire::kDoorWaiting)
        return session.close(kCloseTryLater, "Very many are waiting at the door. Please try again in a few minutes.");
    const std::string address = countedAddress(session.connection()->address());
    const auto fromThere =
        std::count_if(m_door.begin(), m_door.end(), [&](const auto& each) { return each.second.address == address; });
    if (isOneHousehold(address) && fromThere >= kDoorOfOneAddress)
        return session.close(kCloseTryLater, "Several are waiting at the door from where you are. Please try again.");
    const std::uint64_t door = m_nextDoor++;
    m_door[door] = {{door, name, device, now(), nameLike(name)}, session.key(), &session, address};
    session.isAtDoor(*this);
    session.send(wire::AtDoor{m_group.id, m_group.name, m_setup.keyWords});
    m_doorChanged = true;
}

/// A name that looks like a member's may be theirs, on another device, or somebody who would like to be taken for them.
std::string Hall::nameLike(const std::string& name) const
{
    const std::string skeleton = skeletonOf(name);
    for (const auto& [id, member] : m_members)
        if (member->skeleton == skeleton)
            return member->name;
    return {};
}

std::map<std::uint64_t, Hall::Waiting>::iterator Hall::atDoor(const wire::Key& key)
{
    return std::find_if(m_door.begin(), m_door.end(), [&](const auto& each) { return each.second.key == key; });
}

wire::Door Hall::doorNow() const
{
    wire::Door door;
    door.words = m_setup.keyWords;
    for (const auto& [id, waiting] : m_door)
        door.waiting.push_back(waiting.about);
    return door;
}

/// From the beat: however many come and go, each desk hears of it four times a second, the newest only.
void Hall::tellDoor()
{
    if (!std::exchange(m_doorChanged, false))
        return;
    const net::FrameBytes frame = net::makeFrame(wire::Opcode::text, wire::encode(doorNow()));
    for (Session* session : m_sessions)
        if ((kDesk & roleBit(session->role())) != 0 && session->connection())
            session->connection()->sendNewest(kDoorSlot, frame);
}

void Hall::on(Session& session, wire::LetIn& message)
{
    const Member* known = message.person ? memberById(*message.person) : nullptr;
    if (message.person && (!known || session.role() != Role::leader))
        return session.refuse(message.id, {"leader-only", "Only a leader can say who this is.", "person"});
    const auto found = m_door.find(message.door);
    const auto waiting = found == m_door.end() ? std::nullopt : std::optional(found->second);
    auto person = std::make_shared<store::PersonState>();
    durably(
        session, message,
        [group = m_group.id, by = session.member()->id, waiting, known = message.person, person,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (!waiting)
                return tl::unexpected<Error>(kNotWaiting);
            const wire::Key& key = waiting->key;
            PersonId id;
            std::string detail = hexOf(key);
            if (known) {
                id = *known;
                for (const store::DeviceRow& device : tables.devices.ofPerson(id))
                    if (!device.revokedAt) {
                        detail += " " + hexOf(device.key);
                        if (auto revoked = tables.devices.revoke(device.key, at); !revoked)
                            return tl::unexpected<Error>(revoked.error());
                    }
            } else {
                auto added = tables.people.add(group, waiting->about.name, store::Role::participant, at);
                if (!added)
                    return tl::unexpected<Error>(added.error());
                id = added->id;
            }
            if (auto bound = tables.devices.bind(id, key, waiting->about.device, at); !bound)
                return tl::unexpected<Error>(bound.error());
            tables.log.add({0, group, by, std::string(known ? kBindingLogged : "let-in"), id, detail, at, {}});
            *person = personState(tables, *tables.people.byId(id));
            return wire::Ack{};
        },
        [self = shared_from_this(), person, waiting] { self->letIn(*person, waiting->key); });
}

void Hall::letIn(const store::PersonState& person, const wire::Key& key)
{
    Member& member = adopt(person);
    // By the key, not the number: their line may have broken meanwhile, and they knocked again.
    const auto found = atDoor(key);
    Session* waiting = found == m_door.end() ? nullptr : found->second.session;
    if (found != m_door.end())
        m_door.erase(found);
    m_doorChanged = true;
    if (!waiting)
        return; // gone meanwhile: from now on a plain login is enough
    if (member.session && !member.owns(member.session->key()))
        member.session->close(kCloseRevoked, "This device has been removed from the group.");
    admit(*waiting, member, member.has(Role::participant) ? Role::participant : member.foremost());
}

void Hall::on(Session& session, wire::TurnAway& message)
{
    const auto found = m_door.find(message.door);
    if (found == m_door.end())
        return session.refuse(message.id, kNotWaiting);
    Session* waiting = found->second.session;
    m_door.erase(found);
    waiting->isOut();
    waiting->close(kCloseTurnedAway, "The helper could not let you in today. Please ask whoever gave you the code.");
    m_doorChanged = true;
    wire::Ack ack;
    ack.id = message.id;
    session.send(ack, m_log.end());
}

} // namespace vh::hall
