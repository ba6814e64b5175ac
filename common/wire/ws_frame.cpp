#include "common/wire/ws_frame.h"

#include "common/base/text.h"

#include <algorithm>
#include <cstring>

namespace vh::wire
{

namespace
{

constexpr std::uint8_t kFinBit = 0x80;
constexpr std::uint8_t kRsvBits = 0x70;
constexpr std::uint8_t kOpcodeBits = 0x0F;
constexpr std::uint8_t kMaskBit = 0x80;

bool isControl(Opcode opcode)
{
    return (static_cast<std::uint8_t>(opcode) & 0x8) != 0;
}

bool isKnown(std::uint8_t opcode)
{
    return opcode <= 0x2 || (opcode >= 0x8 && opcode <= 0xA);
}

void appendHeader(std::string& out, Opcode opcode, std::uint64_t length, bool fin, std::uint8_t maskBit)
{
    out.push_back(static_cast<char>((fin ? kFinBit : 0) | static_cast<std::uint8_t>(opcode)));
    int lengthBytes = 0;
    if (length <= kMaxControlBytes) {
        out.push_back(static_cast<char>(maskBit | length));
    } else if (length <= 0xFFFF) {
        out.push_back(static_cast<char>(maskBit | 126));
        lengthBytes = 2;
    } else {
        out.push_back(static_cast<char>(maskBit | 127));
        lengthBytes = 8;
    }
    for (int i = lengthBytes - 1; i >= 0; --i)
        out.push_back(static_cast<char>((length >> (8 * i)) & 0xFF));
}

/// Codes a peer may put into a close frame (section 7.4.2 and the registry of section 11.7).
bool mayBeSent(unsigned code)
{
    return (code >= 1000 && code <= 1003) || (code >= 1007 && code <= 1014) || (code >= 3000 && code <= 4999);
}

MessageReader::Event violation(CloseCode code, const char* wrong)
{
    return {MessageReader::Kind::violation, {}, code, wrong};
}

} // namespace

void appendFrame(std::string& out, Opcode opcode, std::string_view payload)
{
    appendHeader(out, opcode, payload.size(), true, 0);
    out.append(payload);
}

void appendMaskedFrame(std::string& out, Opcode opcode, std::string_view payload, MaskKey key, bool fin)
{
    appendHeader(out, opcode, payload.size(), fin, kMaskBit);
    for (const auto byte : key)
        out.push_back(static_cast<char>(byte));
    const auto start = out.size();
    out.append(payload);
    applyMask(std::span(out).subspan(start), key);
}

std::string closePayload(CloseCode code, std::string_view reason)
{
    if (code == CloseCode::none)
        return {};
    const auto value = static_cast<unsigned>(code);
    std::string payload{static_cast<char>(value >> 8), static_cast<char>(value & 0xFF)};
    auto length = std::min(reason.size(), kMaxControlBytes - 2);
    while (length > 0 && length < reason.size() && (static_cast<unsigned char>(reason[length]) & 0xC0) == 0x80)
        --length;
    payload.append(reason.substr(0, length));
    return payload;
}

void applyMask(std::span<char> bytes, MaskKey key)
{
    // Eight bytes at a time: the key repeats every four, so two of it side by side are one word.
    std::uint64_t word = 0;
    std::memcpy(&word, key.data(), key.size());
    std::memcpy(reinterpret_cast<char*>(&word) + key.size(), key.data(), key.size());
    std::size_t i = 0;
    for (; i + sizeof word <= bytes.size(); i += sizeof word) {
        std::uint64_t piece = 0;
        std::memcpy(&piece, bytes.data() + i, sizeof piece);
        piece ^= word;
        std::memcpy(bytes.data() + i, &piece, sizeof piece);
    }
    for (; i < bytes.size(); ++i)
        bytes[i] = static_cast<char>(static_cast<std::uint8_t>(bytes[i]) ^ key[i % key.size()]);
}

MessageReader::HeaderState MessageReader::readHeader(std::string_view bytes, Header& header, Event& wrong) const
{
    const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(bytes[i]); };
    const auto refuse = [&](CloseCode code, const char* why) {
        wrong = violation(code, why);
        return HeaderState::wrong;
    };
    if (bytes.size() < 2)
        return HeaderState::incomplete;
    const bool masked = (byte(1) & kMaskBit) != 0;
    if ((byte(0) & kRsvBits) != 0)
        return refuse(CloseCode::protocolError, "reserved bits are set");
    if (!isKnown(byte(0) & kOpcodeBits))
        return refuse(CloseCode::protocolError, "unknown opcode");
    if (masked != (m_from == From::client))
        return refuse(CloseCode::protocolError, masked ? "frame is masked" : "frame is not masked");
    header.fin = (byte(0) & kFinBit) != 0;
    header.opcode = static_cast<Opcode>(byte(0) & kOpcodeBits);

    const std::uint8_t shortLength = byte(1) & 0x7F;
    if (isControl(header.opcode) && (shortLength > kMaxControlBytes || !header.fin))
        return refuse(CloseCode::protocolError, "control frame is long or in pieces");
    if (!isControl(header.opcode) && (header.opcode == Opcode::continuation) != m_inMessage)
        return refuse(CloseCode::protocolError, "fragments are out of order");

    const std::size_t lengthBytes = shortLength == 126 ? 2 : shortLength == 127 ? 8 : 0;
    header.size = 2 + lengthBytes + (masked ? header.key.size() : 0);
    if (bytes.size() < header.size)
        return HeaderState::incomplete;
    std::uint64_t length = lengthBytes == 0 ? shortLength : 0;
    for (std::size_t i = 0; i < lengthBytes; ++i)
        length = (length << 8) | byte(2 + i);
    if ((lengthBytes == 2 && length < 126) || (lengthBytes == 8 && (length <= 0xFFFF || (length >> 63) != 0)))
        return refuse(CloseCode::protocolError, "length is not in its shortest form");
    if (!isControl(header.opcode) && (length > m_maxMessageBytes || m_fragments.size() > m_maxMessageBytes - length))
        return refuse(CloseCode::tooBig, "message is too big");
    header.length = length;
    if (masked)
        std::memcpy(header.key.data(), bytes.data() + 2 + lengthBytes, header.key.size());
    return HeaderState::complete;
}

MessageReader::Event MessageReader::next(std::span<char>& bytes)
{
    constexpr std::size_t kMaxHeader = 14;
    while (!bytes.empty()) {
        Header header;
        Event wrong;
        if (m_kept.empty()) {
            const auto state = readHeader({bytes.data(), bytes.size()}, header, wrong);
            if (state == HeaderState::wrong)
                return wrong;
            if (state == HeaderState::incomplete || bytes.size() - header.size < header.length)
                break;
            const auto payload = bytes.subspan(header.size, header.length);
            bytes = bytes.subspan(header.size + header.length);
            if (auto event = finish(header, payload); event.kind != Kind::needMore)
                return event;
            continue;
        }
        // A frame is under way: take no byte beyond its end.
        auto state = readHeader(m_kept, header, wrong);
        if (state == HeaderState::incomplete) {
            const auto before = m_kept.size();
            m_kept.append(bytes.data(), std::min(bytes.size(), kMaxHeader - before));
            state = readHeader(m_kept, header, wrong);
            const auto used = state == HeaderState::complete
                                  ? std::min(m_kept.size(), header.size + header.length) - before
                                  : m_kept.size() - before;
            m_kept.resize(before + used);
            bytes = bytes.subspan(used);
        }
        if (state == HeaderState::wrong)
            return wrong;
        if (state == HeaderState::incomplete)
            continue;
        const auto missing = header.size + header.length - m_kept.size();
        const auto taken = std::min(missing, bytes.size());
        m_kept.append(bytes.data(), taken);
        bytes = bytes.subspan(taken);
        if (taken < missing)
            continue;
        m_whole = std::move(m_kept);
        m_kept = {};
        if (auto event = finish(header, std::span(m_whole).subspan(header.size)); event.kind != Kind::needMore)
            return event;
    }
    m_kept.append(bytes.data(), bytes.size());
    bytes = {};
    m_whole = {};
    return {};
}

MessageReader::Event MessageReader::finish(const Header& header, std::span<char> payload)
{
    if (m_from == From::client)
        applyMask(payload, header.key);
    const std::string_view text(payload.data(), payload.size());
    switch (header.opcode) {
    case Opcode::ping:
        return {Kind::ping, text, CloseCode::none, ""};
    case Opcode::pong:
        return {Kind::pong, text, CloseCode::none, ""};
    case Opcode::close:
        return finishClose(text);
    default:
        return finishData(header, text);
    }
}

MessageReader::Event MessageReader::finishData(const Header& header, std::string_view payload)
{
    const auto opcode = m_inMessage ? m_messageOpcode : header.opcode;
    if (m_inMessage || !header.fin) {
        m_inMessage = true;
        m_messageOpcode = opcode;
        m_fragments.append(payload);
        if (!header.fin)
            return {};
        m_inMessage = false;
        m_whole = std::move(m_fragments);
        m_fragments = {};
        payload = m_whole;
    }
    if (opcode == Opcode::binary)
        return {Kind::binary, payload, CloseCode::none, ""};
    if (!isUtf8(payload))
        return violation(CloseCode::notUtf8, "text is not UTF-8");
    return {Kind::text, payload, CloseCode::none, ""};
}

MessageReader::Event MessageReader::finishClose(std::string_view payload)
{
    if (payload.empty())
        return {Kind::close, {}, CloseCode::none, ""};
    if (payload.size() < 2)
        return violation(CloseCode::protocolError, "close frame is cut");
    const unsigned code = (static_cast<unsigned char>(payload[0]) << 8U) | static_cast<unsigned char>(payload[1]);
    if (!mayBeSent(code))
        return violation(CloseCode::protocolError, "close code may not be sent");
    if (!isUtf8(payload.substr(2)))
        return violation(CloseCode::notUtf8, "close reason is not UTF-8");
    return {Kind::close, payload.substr(2), static_cast<CloseCode>(code), ""};
}

} // namespace vh::wire
