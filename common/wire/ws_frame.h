#pragma once
// RFC 6455 framing, both directions, and nothing else: bytes in, messages out; messages in, bytes out. No socket, no
// clock. Lengths are bytes. Text is checked to be UTF-8. One reader belongs to one connection and to one thread. A
// violation is an event with the close code the RFC asks for; after it the reader must not be fed again.
// Source: RFC 6455 sections 5.2 to 5.5 and 7.4.
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace vh::wire
{

enum class Opcode : std::uint8_t { continuation = 0x0, text = 0x1, binary = 0x2, close = 0x8, ping = 0x9, pong = 0xA };

/// Section 7.4.1. `none` stands for a close frame without a code and is never sent.
enum class CloseCode : std::uint16_t {
    none = 0,
    normal = 1000,
    goingAway = 1001,
    protocolError = 1002,
    unacceptable = 1003,
    notUtf8 = 1007,
    policy = 1008,
    tooBig = 1009,
    internalError = 1011,
    tryLater = 1013,
};

using MaskKey = std::array<std::uint8_t, 4>;
constexpr std::size_t kMaxControlBytes = 125;

/// Appends one whole, unmasked frame (what a server sends).
void appendFrame(std::string& out, Opcode opcode, std::string_view payload);
/// Appends one frame masked with `key` (what a client sends). `fin` false: more fragments follow.
void appendMaskedFrame(std::string& out, Opcode opcode, std::string_view payload, MaskKey key, bool fin = true);
/// The payload of a close frame; the reason is cut at a code point so that it fits.
std::string closePayload(CloseCode code, std::string_view reason);
/// Masking and unmasking are the same operation (section 5.3), starting at the key's first byte.
void applyMask(std::span<char> bytes, MaskKey key);

/// Turns a stream of bytes into messages. Whole frames are unmasked where they lie and handed out without a copy; only
/// a frame that has not fully arrived, and the fragments of an unfinished message, are kept.
class MessageReader
{
public:
    enum class From { client, server }; ///< who sent the bytes: a client masks, a server must not
    enum class Kind { needMore, text, binary, ping, pong, close, violation };

    struct Event {
        Kind kind = Kind::needMore;
        /// Message or control payload; for `close` the reason. Valid until the next call or until `bytes` changes.
        std::string_view payload;
        /// For `close` the peer's code, for `violation` the code to close with.
        CloseCode code = CloseCode::none;
        /// For `violation`: what was wrong, fit for a close frame.
        const char* wrong = "";
    };

    MessageReader(From from, std::size_t maxMessageBytes) : m_from(from), m_maxMessageBytes(maxMessageBytes) {}

    /// Takes bytes off the front of `bytes` up to the end of one message or control frame. `needMore`: all taken.
    Event next(std::span<char>& bytes);

    /// Counts for every frame whose header has not been read yet.
    void setMaxMessageBytes(std::size_t bytes) { m_maxMessageBytes = bytes; }
    /// Bytes kept for what has not fully arrived.
    [[nodiscard]] std::size_t keptBytes() const { return m_kept.size() + m_fragments.size(); }

private:
    struct Header {
        Opcode opcode = Opcode::continuation;
        bool fin = false;
        MaskKey key{};
        std::size_t size = 0;   ///< of the header itself
        std::size_t length = 0; ///< of the payload
    };
    enum class HeaderState { incomplete, complete, wrong };

    HeaderState readHeader(std::string_view bytes, Header& header, Event& wrong) const;
    Event finish(const Header& header, std::span<char> payload);
    Event finishData(const Header& header, std::string_view payload);
    static Event finishClose(std::string_view payload);

    From m_from;
    bool m_inMessage = false;
    Opcode m_messageOpcode = Opcode::continuation;
    std::size_t m_maxMessageBytes;
    std::string m_kept;      ///< an incomplete frame, header and all, as it came
    std::string m_whole;     ///< what the last event's payload points into, when it was kept
    std::string m_fragments; ///< payloads of the unfinished message
};

} // namespace vh::wire
