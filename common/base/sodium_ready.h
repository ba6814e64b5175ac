#pragma once
// libsodium wants to be started once, from any thread, before its first use; without a random source nothing can go on.
#include <cstdlib>
#include <sodium.h>

namespace vh
{

inline void readySodium()
{
    static const bool ready = sodium_init() >= 0;
    if (!ready)
        std::abort();
}

} // namespace vh
