#include "server/store/tables.h"

#include "server/store/statements.h"

#include <sodium.h>

namespace vh::store
{

Hash sha256(std::span<const std::uint8_t> bytes)
{
    Hash hash{};
    crypto_hash_sha256(hash.data(), bytes.data(), bytes.size());
    return hash;
}

Hash sha256(std::string_view text)
{
    Hash hash{};
    crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(text.data()), text.size());
    return hash;
}

Tables::Tables(Statements& statements)
    : groups(statements), people(statements), devices(statements), links(statements), agreements(statements),
      classes(statements), handouts(statements), board(statements), calls(statements), lines(statements),
      results(statements), log(statements), m_statements(&statements)
{
}

Result<OnceAnswer> Tables::once(PersonId person, RequestId request, const Hash& payload, Instant now,
                                const std::function<Result<std::string>()>& work)
{
    struct Stored {
        Hash payload;
        std::string answer;
    };
    const auto known = m_statements->row(
        [](const Query& row) {
            return Stored{row.array<32>(0), row.text(1)};
        },
        "SELECT payload, answer FROM requests WHERE person = ? AND id = ?", person, request);
    if (known && known->payload != payload)
        return fail("conflict", "This request id was used for something else.");
    if (known)
        return OnceAnswer{known->answer, true};
    auto answer = work();
    if (!answer)
        return tl::unexpected(answer.error());
    m_statements->exec("INSERT INTO requests VALUES (?, ?, ?, ?, ?)", person, request, payload, *answer, now);
    return OnceAnswer{std::move(*answer), false};
}

std::optional<std::string> Tables::answerTo(PersonId person, RequestId request) const
{
    return m_statements->row([](const Query& row) { return row.text(0); },
                             "SELECT answer FROM requests WHERE person = ? AND id = ?", person, request);
}

Result<HallState> Tables::loadHall(GroupId group, int boardLimit, Instant now) const
{
    auto row = groups.byId(group);
    if (!row)
        return fail("group-unknown", "There is no such group.");
    HallState hall;
    hall.group = std::move(*row);
    for (PersonRow& person : people.ofGroup(group)) {
        const PersonId id = person.id;
        hall.people.push_back(
            {std::move(person), people.rolesOf(id), devices.ofPerson(id), agreements.current(id), people.bandOf(id)});
    }
    hall.openClass = classes.openOf(group);
    if (hall.openClass)
        hall.place = classes.latestPlace(hall.openClass->id);
    hall.handout = handouts.ofGroup(group);
    hall.board = board.newestShown(group, boardLimit);
    hall.gone = board.newestGone(group, boardLimit);
    hall.boardChange = board.lastChange();
    hall.desk = board.onDesk(group, now);
    hall.replies = board.replies(group, now);
    hall.inWindow = board.inWindow(group);
    hall.rests = board.rests(group, now);
    hall.calls = calls.notDone(group);
    hall.lines = lines.ofGroup(group);
    hall.whomToRing = lines.whomToRing(group);
    return hall;
}

} // namespace vh::store
