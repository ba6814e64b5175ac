#pragma once
// Answers about agreements that the relay has not acknowledged yet: a withdrawal made while the line is down must not
// be lost with the program. Kept in agreements-to-send.json in the profile's folder, at most one for each person and
// kind, until acknowledged. GUI thread. A file that cannot be read counts as empty.
#include "common/base/id.h"
#include "common/wire/to_relay.h"

#include <QString>

#include <optional>
#include <vector>

namespace vh::join
{

class PendingAgreements
{
public:
    explicit PendingAgreements(const QString& folder);

    [[nodiscard]] std::vector<wire::Agree> of(PersonId person) const;
    /// The newest answer takes the place of an earlier one of its kind, whose id is given back.
    std::optional<RequestId> keep(PersonId person, const wire::Agree& answer);
    /// The relay has taken or refused it; other ids change nothing.
    void settled(const RequestId& id);

private:
    struct Entry {
        PersonId person;
        wire::Agree answer;
        void fields(auto& visit) { visit("person", person), answer.fields(visit); }
    };
    struct File {
        std::vector<Entry> entries;
        void fields(auto& visit) { visit("entries", entries, wire::atMost(2000)); }
    };
    void save() const;

    QString m_path;
    File m_file;
};

} // namespace vh::join
