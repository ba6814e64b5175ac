#pragma once
// Gives up everything that making a picture anew does not need, for the rest of this process's life: no files, no
// network, no other processes, kMostMemory of memory, kMostSeconds of computing. What is left is reading from and
// writing to descriptors that are already open. Once, before the first byte is read. Linux only (seccomp).
#include <cstddef>

namespace vh::photos
{

inline constexpr std::size_t kMostMemory = std::size_t{128} << 20;
#ifdef VH_SANITIZED
inline constexpr unsigned kMostSeconds = 15; // it is that much slower
#else
inline constexpr unsigned kMostSeconds = 3;
#endif

/// False: could not, and nothing should be read. Where the program is built with a sanitizer, which needs more than
/// that to report, only the seconds are limited.
[[nodiscard]] bool lockIn(std::size_t mostMemory = kMostMemory);

} // namespace vh::photos
