#pragma once
// Runs a program once: gives it some bytes on its descriptor 0, takes what it writes to its descriptor 1, and sees it
// dead. It gets no other descriptor, no arguments and no environment. Blocks; thread: any, several at once.
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <vector>

namespace vh::photos
{

/// Nothing if it could not be started, ended other than with status 0, took longer than `patience`, or wrote more than
/// `most` bytes (it is killed then).
std::optional<std::vector<std::uint8_t>> oneLife(const std::filesystem::path& program,
                                                 std::vector<std::span<const std::byte>> in, std::size_t most,
                                                 std::chrono::milliseconds patience);

} // namespace vh::photos
