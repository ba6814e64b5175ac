#pragma once
// Result<T>: a value, or an Error that says what went wrong, where, and what to do. Readers and codecs return it;
// nothing in common throws for bad input.
#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace vh
{

/// What went wrong, in words fit for the person who can mend it. `code` is stable and fit for tests and logs
/// (lower-case, hyphens); `where` names the place in the input, or is empty.
struct Error {
    std::string code;
    std::string message;
    std::string where;

    friend bool operator==(const Error&, const Error&) = default;
};

template <class T>
using Result = tl::expected<T, Error>;

inline tl::unexpected<Error> fail(std::string code, std::string message, std::string where = {})
{
    return tl::unexpected<Error>(Error{std::move(code), std::move(message), std::move(where)});
}

} // namespace vh
