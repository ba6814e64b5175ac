#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

namespace
{

PersonRow readPerson(const Query& row)
{
    PersonRow person;
    person.id = row.id<PersonId>(0);
    person.group = row.id<GroupId>(1);
    person.name = row.text(2);
    if (const auto seat = row.maybeNumber(3))
        person.seat = static_cast<int>(*seat);
    person.createdAt = row.instant(4);
    person.removedAt = row.maybeInstant(5);
    return person;
}

Result<void> orPersonUnknown(int changed)
{
    if (changed == 0)
        return fail("person-unknown", "There is no such person in the group.");
    return {};
}

} // namespace

Result<PersonRow> People::add(GroupId group, const std::string& name, Role role, Instant now)
{
    if (!m_statements->exists("SELECT 1 FROM groups WHERE id = ?", group))
        return fail("group-unknown", "There is no such group.");
    PersonRow person{PersonId::random(), group, name, std::nullopt, now, std::nullopt};
    // The lowest seat that nobody has: 0, or one above a taken seat whose neighbour is free.
    m_statements->exec("INSERT INTO people SELECT ?1, ?2, ?3,"
                       " (SELECT min(seat) FROM (SELECT 0 AS seat UNION ALL"
                       "   SELECT seat + 1 FROM people WHERE group_id = ?2 AND seat IS NOT NULL)"
                       "  WHERE seat NOT IN (SELECT seat FROM people WHERE group_id = ?2 AND seat IS NOT NULL)),"
                       " ?4, NULL",
                       person.id, group, name, now);
    grant(person.id, role);
    return *byId(person.id);
}

std::optional<PersonRow> People::byId(PersonId id) const
{
    return m_statements->row(readPerson, "SELECT * FROM people WHERE id = ?", id);
}

std::vector<PersonRow> People::ofGroup(GroupId group) const
{
    return m_statements->rows(readPerson,
                              "SELECT * FROM people WHERE group_id = ? AND removed_at IS NULL ORDER BY seat", group);
}

Result<void> People::rename(PersonId id, const std::string& name)
{
    return orPersonUnknown(m_statements->exec("UPDATE people SET name = ? WHERE id = ?", name, id));
}

Result<void> People::remove(PersonId id, Instant now)
{
    m_statements->exec("UPDATE devices SET revoked_at = ? WHERE person = ? AND revoked_at IS NULL", now, id);
    return orPersonUnknown(m_statements->exec(
        "UPDATE people SET seat = NULL, removed_at = ? WHERE id = ? AND removed_at IS NULL", now, id));
}

Result<void> People::erase(PersonId id)
{
    m_statements->noteErased();
    const auto pictures =
        m_statements->rows([](const Query& row) { return row.array<32>(0); },
                           "SELECT DISTINCT picture FROM board WHERE author = ? AND picture IS NOT NULL", id);
    auto erased = orPersonUnknown(m_statements->exec("DELETE FROM people WHERE id = ?", id));
    for (const Hash& picture : pictures)
        m_statements->dropUnusedPart(picture);
    return erased;
}

void People::grant(PersonId id, Role role)
{
    m_statements->exec("INSERT INTO roles VALUES (?, ?) ON CONFLICT DO NOTHING", id, role);
}

void People::withdraw(PersonId id, Role role)
{
    m_statements->exec("DELETE FROM roles WHERE person = ? AND role = ?", id, role);
}

std::vector<Role> People::rolesOf(PersonId id) const
{
    return m_statements->rows([](const Query& row) { return row.value<Role>(0); },
                              "SELECT role FROM roles WHERE person = ? ORDER BY role", id);
}

void People::setBand(const BandRow& band)
{
    m_statements->exec("INSERT OR REPLACE INTO bands VALUES (?, ?, ?, ?)", band.person, band.offsetTenthsDb, band.setBy,
                       band.at);
}

std::optional<BandRow> People::bandOf(PersonId id) const
{
    return m_statements->row(
        [](const Query& row) {
            return BandRow{row.id<PersonId>(0), static_cast<int>(row.number(1)), row.id<PersonId>(2), row.instant(3)};
        },
        "SELECT * FROM bands WHERE person = ?", id);
}

void People::setContact(const ContactRow& contact)
{
    // Confirmed each day: only other words make the old ones go, and for good.
    if (m_statements->exec("UPDATE contacts SET at = ? WHERE person = ? AND whereabouts = ? AND whom_to_ring = ?",
                           contact.at, contact.person, contact.whereabouts, contact.whomToRing) > 0)
        return;
    m_statements->noteErased();
    m_statements->exec("INSERT OR REPLACE INTO contacts VALUES (?, ?, ?, ?)", contact.person, contact.whereabouts,
                       contact.whomToRing, contact.at);
}

std::optional<ContactRow> People::contactOf(PersonId id) const
{
    return m_statements->row(
        [](const Query& row) {
            return ContactRow{row.id<PersonId>(0), row.text(1), row.text(2), row.instant(3)};
        },
        "SELECT * FROM contacts WHERE person = ?", id);
}

} // namespace vh::store
