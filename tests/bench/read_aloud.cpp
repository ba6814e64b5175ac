#include "tests/bench/read_aloud.h"

#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <memory>
#include <unistd.h>
#include <vector>

namespace vh::bench
{

namespace
{

constexpr std::size_t kHead = 44; // of a WAV file as espeak-ng writes it: 22,050 samples a second, 16 bit, one channel
constexpr double kRate = 22'050;
constexpr int kAudible = 100; // of 32,767

std::string soundOf(const std::string& file, std::string_view language, int wordsPerMinute)
{
    const std::string voice = language.starts_with("en") ? "en-us" : std::string(language.substr(0, 2));
    const std::string command =
        "espeak-ng -v " + voice + " -s " + std::to_string(wordsPerMinute) + " -f " + file + " --stdout 2>/dev/null";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string bytes;
    std::array<char, 65'536> some{};
    while (pipe) {
        const std::size_t got = fread(some.data(), 1, some.size(), pipe.get());
        if (got == 0)
            break;
        bytes.append(some.data(), got);
    }
    return bytes;
}

Millis audibleLength(const std::string& wav)
{
    std::vector<std::int16_t> samples(wav.size() > kHead ? (wav.size() - kHead) / 2 : 0);
    if (samples.empty())
        return Millis{0};
    std::memcpy(samples.data(), wav.data() + kHead, samples.size() * 2);
    const auto audible = [](std::int16_t sample) { return std::abs(int{sample}) >= kAudible; };
    std::size_t first = 0;
    std::size_t end = samples.size();
    while (first < end && !audible(samples[first]))
        ++first;
    while (end > first && !audible(samples[end - 1]))
        --end;
    return Millis{static_cast<std::int64_t>(1000 * static_cast<double>(end - first) / kRate)};
}

} // namespace

Result<Millis> ReadAloud::of(const std::string& text, std::string_view language, int wordsPerMinute)
{
    const std::string key = std::string(language) + std::to_string(wordsPerMinute) + text;
    if (const auto known = m_known.find(key); known != m_known.end())
        return known->second;
    std::string file = "/tmp/voicehall-read-aloud-XXXXXX";
    const int handle = mkstemp(file.data());
    if (handle < 0)
        return tl::unexpected(Error{"no-file", "A temporary file could not be made.", {}});
    close(handle);
    std::ofstream(file, std::ios::binary) << text << '\n';
    const Millis length = audibleLength(soundOf(file, language, wordsPerMinute));
    std::remove(file.c_str());
    if (length <= Millis{0})
        return tl::unexpected(Error{"no-sound", "espeak-ng wrote no sound; is it installed?", text});
    return m_known[key] = length;
}

} // namespace vh::bench
