// Any bytes in any pieces: the reader must not crash, must never hand out more than its limit or text that is not
// UTF-8, and must say the same however the stream is cut.
#include "common/base/text.h"
#include "common/wire/ws_frame.h"

#include <cstdlib>
#include <vector>

using namespace vh::wire;

namespace
{

constexpr std::size_t kLimit = 512;

struct Outcome {
    std::vector<std::string> messages;
    CloseCode violation = CloseCode::none;
    friend bool operator==(const Outcome&, const Outcome&) = default;
};

void require(bool condition)
{
    if (!condition)
        std::abort();
}

Outcome run(std::string stream, MessageReader::From from, std::size_t piece)
{
    using Kind = MessageReader::Kind;
    MessageReader reader(from, kLimit);
    Outcome outcome;
    for (std::size_t at = 0; at < stream.size(); at += piece) {
        auto rest = std::span(stream).subspan(at, std::min(piece, stream.size() - at));
        while (!rest.empty()) {
            const auto event = reader.next(rest);
            if (event.kind == Kind::needMore)
                break;
            if (event.kind == Kind::violation) {
                outcome.violation = event.code;
                return outcome;
            }
            require(event.payload.size() <= kLimit);
            require(event.kind != Kind::text || vh::isUtf8(event.payload));
            outcome.messages.push_back(static_cast<char>('0' + static_cast<int>(event.kind)) +
                                       std::string(event.payload));
        }
        require(reader.keptBytes() <= 2 * kLimit + 14);
    }
    return outcome;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    if (size < 2)
        return 0;
    const auto from = (data[0] & 1) != 0 ? MessageReader::From::client : MessageReader::From::server;
    const std::size_t piece = 1 + data[1];
    const std::string stream(reinterpret_cast<const char*>(data) + 2, size - 2);
    require(run(stream, from, piece) == run(stream, from, stream.size() + 1));
    return 0;
}
