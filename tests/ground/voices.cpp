#include "tests/ground/voices.h"

#include <samplerate.h>
#include <sndfile.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>
#include <numbers>

namespace vh::ground
{

namespace
{

Samples fromPcm16(const std::vector<char>& bytes, std::size_t skip)
{
    Samples out;
    for (std::size_t at = skip; at + 1 < bytes.size(); at += 2) {
        std::int16_t value = 0;
        std::memcpy(&value, bytes.data() + at, 2);
        out.push_back(static_cast<float>(value) / 32768.0F);
    }
    return out;
}

std::vector<char> outputOf(const std::string& command)
{
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::vector<char> bytes;
    std::array<char, 65536> block{};
    while (pipe) {
        const std::size_t got = std::fread(block.data(), 1, block.size(), pipe.get());
        if (got == 0)
            break;
        bytes.insert(bytes.end(), block.begin(), block.begin() + static_cast<std::ptrdiff_t>(got));
    }
    return bytes;
}

Samples readSound(const std::filesystem::path& path)
{
    SF_INFO info{};
    if (path.extension() == ".raw") {
        info.samplerate = kVoiceRateHz;
        info.channels = 1;
        info.format = SF_FORMAT_RAW | SF_FORMAT_PCM_16 | SF_ENDIAN_LITTLE;
    }
    const std::unique_ptr<SNDFILE, int (*)(SNDFILE*)> file(sf_open(path.c_str(), SFM_READ, &info), sf_close);
    if (!file || info.channels != 1)
        return {};
    Samples out(static_cast<std::size_t>(info.frames));
    out.resize(static_cast<std::size_t>(sf_readf_float(file.get(), out.data(), info.frames)));
    return atVoiceRate(out, info.samplerate);
}

} // namespace

Samples atVoiceRate(const Samples& samples, int fromHz)
{
    if (fromHz == kVoiceRateHz || samples.empty())
        return samples;
    const double ratio = static_cast<double>(kVoiceRateHz) / fromHz;
    Samples out(static_cast<std::size_t>(static_cast<double>(samples.size()) * ratio) + 16);
    SRC_DATA data{};
    data.data_in = samples.data();
    data.input_frames = static_cast<long>(samples.size());
    data.data_out = out.data();
    data.output_frames = static_cast<long>(out.size());
    data.src_ratio = ratio;
    if (src_simple(&data, SRC_SINC_FASTEST, 1) != 0)
        return {};
    out.resize(static_cast<std::size_t>(data.output_frames_gen));
    return out;
}

std::span<const char* const> espeakVariants()
{
    static constexpr std::array kAll{"en-gb+m1", "en-gb+f2", "en-us+m3",      "en-gb+f4",      "en-gb+grandma", "en-us+grandpa",
                                     "en-gb+m7", "en-us+f3", "en-gb+klatt2", "en-us+croak", "en-gb+f5",      "en-us+klatt4"};
    return kAll;
}

std::span<const char* const> sentences()
{
    static constexpr std::array kAll{
        "The loaf comes out golden and warm.",       "Bring it to the table and call everybody in.",
        "We walked along the harbour after lunch.",  "One, two, three, four, five, six, seven.",
        "Good morning, how are you today?",          "The kettle is on and the garden is green.",
        "My neighbour keeps a dozen brown hens.",    "Please hand me the other blue cup.",
        "Nine, ten, eleven, twelve, thirteen.",      "A cake, a cook, a kitchen, a good king.",
        "It rained all night and the river rose.",   "Can you hear me at the back of the room?",
        "Our train leaves at a quarter to eleven.",  "She told the long story once again.",
        "Open the window and let in some air.",      "Mondays are for music and Tuesdays for tea.",
    };
    return kAll;
}

Samples espeakSays(std::string_view text, std::string_view variant, int wordsPerMinute, int pitch)
{
    constexpr std::size_t kHeader = 44;
    constexpr int kEspeakRateHz = 22'050;
    const std::string command = "espeak-ng -v " + std::string(variant) + " -s " + std::to_string(wordsPerMinute) +
                                " -p " + std::to_string(pitch) + " --stdout \"" + std::string(text) + "\" 2>/dev/null";
    return atVoiceRate(fromPcm16(outputOf(command), kHeader), kEspeakRateHz);
}

std::vector<Recording> recordings()
{
    namespace fs = std::filesystem;
    std::vector<Recording> all;
    std::error_code ignored;
    for (const auto& entry : fs::recursive_directory_iterator("/usr/share/pocketsphinx/test/data", ignored)) {
        const auto extension = entry.path().extension();
        if (extension != ".wav" && extension != ".raw")
            continue;
        Samples samples = readSound(entry.path());
        if (!samples.empty())
            all.push_back({entry.path().filename().string(), std::move(samples)});
    }
    std::sort(all.begin(), all.end(), [](const Recording& a, const Recording& b) { return a.name < b.name; });
    return all;
}

} // namespace vh::ground
