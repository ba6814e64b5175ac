#include "server/store/statements.h"
#include "server/store/tables.h"

#include <algorithm>

namespace vh::store
{

namespace
{

AgreementRow readAgreement(const Query& row)
{
    return {row.id<PersonId>(0), row.value<AgreementKind>(1),
            row.text(2),         static_cast<int>(row.number(3)),
            row.maybeHash(4),    row.instant(5)};
}

} // namespace

const std::vector<std::string_view>& valuesOf(AgreementKind kind)
{
    static const std::vector<std::string_view> kLevels{"nobody", "leader", "leader-and-helpers"};
    static const std::vector<std::string_view> kWords{"not", "kind", "prompts"};
    static const std::vector<std::string_view> kNoYes{"no", "yes"};
    switch (kind) {
    case AgreementKind::levelVisible:
        return kLevels;
    case AgreementKind::addressed:
        return kWords;
    default:
        return kNoYes;
    }
}

Result<void> Agreements::add(const AgreementRow& row)
{
    const auto& values = valuesOf(row.kind);
    if (std::find(values.begin(), values.end(), row.value) == values.end())
        return fail("value-unknown", "This is not one of the answers to this agreement.", row.value);
    m_statements->exec("INSERT INTO agreements (person, kind, value, wording_version, device, at)"
                       " VALUES (?, ?, ?, ?, ?, ?)",
                       row.person, row.kind, row.value, row.wordingVersion, row.device, row.at);
    return {};
}

std::string Agreements::valueOf(PersonId person, AgreementKind kind) const
{
    const auto value = m_statements->row([](const Query& row) { return row.text(0); },
                                         "SELECT value FROM agreements WHERE person = ? AND kind = ?"
                                         " ORDER BY id DESC LIMIT 1",
                                         person, kind);
    return value.value_or(std::string(valuesOf(kind).front()));
}

std::vector<AgreementRow> Agreements::current(PersonId person) const
{
    return m_statements->rows(readAgreement,
                              "SELECT person, kind, value, wording_version, device, at FROM agreements WHERE id IN"
                              " (SELECT max(id) FROM agreements WHERE person = ? GROUP BY kind) ORDER BY kind",
                              person);
}

std::vector<AgreementRow> Agreements::history(PersonId person) const
{
    return m_statements->rows(
        readAgreement,
        "SELECT person, kind, value, wording_version, device, at FROM agreements WHERE person = ? ORDER BY id", person);
}

} // namespace vh::store
