#pragma once
// Finding classes by what one remembers of them. Pure; any thread. A thousand classes are gone through for each letter
// typed: no table of words is kept beside their text.
#include "app/write/class_entry.h"

namespace vh::write
{

struct Found {
    std::size_t entry = 0; ///< index into the entries
    QString line;          ///< the first line of the class with a word that neither title nor theme has; or empty
    friend bool operator==(const Found&, const Found&) = default;
};

/// Those in which every word of the query begins a word of title, theme or text. Best first: the fewest words that
/// stand in the text alone, then titles that begin with the first word; those alike stay in the order of `entries`.
/// An empty query finds all.
std::vector<Found> found(const std::vector<ClassEntry>& entries, const QString& query);

} // namespace vh::write
