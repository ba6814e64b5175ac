#pragma once
// Which of a helper's answers a person has put away: the relay says an answer again for a day, and tomorrow's class is
// within it. Kept in answers-read.json in the profile's folder, the newest kMost of each person. A file that cannot be
// read counts as empty. GUI thread.
#include "common/base/id.h"
#include "common/wire/fields.h"

#include <QString>

#include <cstdint>
#include <set>
#include <vector>

namespace vh::join
{

class AnswersRead
{
public:
    static constexpr std::size_t kMost = 50;
    static constexpr std::size_t kMostPeople = 200; ///< of one computer

    explicit AnswersRead(const QString& folder);
    [[nodiscard]] std::set<std::uint64_t> of(PersonId person) const;
    void keep(PersonId person, std::uint64_t item);

private:
    struct Entry {
        PersonId person;
        std::vector<std::uint64_t> items;
        void fields(auto& visit) { visit("person", person), visit("items", items, wire::atMost(kMost)); }
    };
    struct File {
        std::vector<Entry> entries;
        void fields(auto& visit) { visit("entries", entries, wire::atMost(kMostPeople)); }
    };
    void save() const;

    QString m_path;
    File m_file;
};

} // namespace vh::join
