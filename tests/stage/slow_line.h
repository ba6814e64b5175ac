#pragma once
// A TCP line with the internet's bad days in it: listens on a free port of loopback, carries every connection on to
// another port, both ways, as a LineModel says. Bytes come unaltered and in order, only late. Each read counts as a
// segment. Runs on a thread of its own from construction to destruction; port() from any thread. Throws
// boost::system::system_error when it cannot listen. At most 4 MB wait in each direction; then it reads no further.
#include "tests/stage/line_model.h"

#include <cstdint>
#include <memory>

namespace vh::stage
{

class SlowLine
{
public:
    SlowLine(std::uint16_t toPort, const LineTraits& traits, std::uint64_t seed = 1);
    SlowLine(const SlowLine&) = delete;
    SlowLine& operator=(const SlowLine&) = delete;
    ~SlowLine();

    [[nodiscard]] std::uint16_t port() const;

private:
    class Impl;
    std::unique_ptr<Impl> m_impl;
};

} // namespace vh::stage
