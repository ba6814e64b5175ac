#include "common/wire/ws_frame.h"

#include <QtTest>

#include <random>

using namespace vh::wire;
using Kind = MessageReader::Kind;
using From = MessageReader::From;

namespace
{

constexpr MaskKey kKey{0x37, 0xfa, 0x21, 0x3d};

std::string bytes(std::initializer_list<int> values)
{
    std::string out;
    for (const int value : values)
        out.push_back(static_cast<char>(value));
    return out;
}

struct Message {
    Kind kind;
    std::string payload;
    CloseCode code;
    friend bool operator==(const Message&, const Message&) = default;
};

using Messages = std::vector<Message>;

/// Everything the reader makes of `stream`, handed over in pieces of `piece` bytes; stops after a violation.
std::vector<Message> readAll(MessageReader& reader, std::string stream, std::size_t piece)
{
    std::vector<Message> messages;
    for (std::size_t at = 0; at < stream.size(); at += piece) {
        auto rest = std::span(stream).subspan(at, std::min(piece, stream.size() - at));
        while (!rest.empty()) {
            const auto event = reader.next(rest);
            if (event.kind == Kind::needMore)
                break;
            messages.push_back({event.kind, std::string(event.payload), event.code});
            if (event.kind == Kind::violation)
                return messages;
        }
    }
    return messages;
}

std::vector<Message> readAll(From from, const std::string& stream, std::size_t max = 1 << 20)
{
    MessageReader reader(from, max);
    return readAll(reader, stream, stream.size());
}

CloseCode violationOf(From from, const std::string& stream, std::size_t max = 1 << 20)
{
    const auto messages = readAll(from, stream, max);
    return !messages.empty() && messages.back().kind == Kind::violation ? messages.back().code : CloseCode::none;
}

std::string masked(Opcode opcode, std::string_view payload, bool fin = true)
{
    std::string out;
    appendMaskedFrame(out, opcode, payload, kKey, fin);
    return out;
}

} // namespace

class TestWsFrame : public QObject
{
    Q_OBJECT
private slots:
    // The worked examples of RFC 6455 section 5.7, byte for byte.
    void theExamplesOfTheRfcAreMade()
    {
        std::string out;
        appendFrame(out, Opcode::text, "Hello");
        QCOMPARE(out, bytes({0x81, 0x05, 0x48, 0x65, 0x6c, 0x6c, 0x6f}));
        QCOMPARE(masked(Opcode::text, "Hello"),
                 bytes({0x81, 0x85, 0x37, 0xfa, 0x21, 0x3d, 0x7f, 0x9f, 0x4d, 0x51, 0x58}));
        QCOMPARE(masked(Opcode::pong, "Hello"),
                 bytes({0x8a, 0x85, 0x37, 0xfa, 0x21, 0x3d, 0x7f, 0x9f, 0x4d, 0x51, 0x58}));
        out.clear();
        appendFrame(out, Opcode::ping, "Hello");
        QCOMPARE(out, bytes({0x89, 0x05, 0x48, 0x65, 0x6c, 0x6c, 0x6f}));
        out.clear();
        appendFrame(out, Opcode::binary, std::string(256, 'x'));
        QCOMPARE(out.substr(0, 4), bytes({0x82, 0x7e, 0x01, 0x00}));
        out.clear();
        appendFrame(out, Opcode::binary, std::string(65536, 'x'));
        QCOMPARE(out.substr(0, 10), bytes({0x82, 0x7f, 0, 0, 0, 0, 0, 1, 0, 0}));
    }

    void theExamplesOfTheRfcAreRead()
    {
        const Message hello{Kind::text, "Hello", CloseCode::none};
        QCOMPARE(readAll(From::server, bytes({0x81, 0x05, 0x48, 0x65, 0x6c, 0x6c, 0x6f})), Messages{hello});
        QCOMPARE(readAll(From::client, bytes({0x81, 0x85, 0x37, 0xfa, 0x21, 0x3d, 0x7f, 0x9f, 0x4d, 0x51, 0x58})),
                 Messages{hello});
        // "A fragmented unmasked text message"
        QCOMPARE(readAll(From::server, bytes({0x01, 0x03, 0x48, 0x65, 0x6c, 0x80, 0x02, 0x6c, 0x6f})), Messages{hello});
    }

    void anyCutGivesTheSameMessages()
    {
        std::mt19937 random(6455);
        std::string stream;
        std::vector<Message> expected;
        for (const std::size_t size : {0, 1, 7, 8, 125, 126, 127, 4000, 65535, 65536}) {
            std::string payload(size, '\0');
            for (auto& byte : payload)
                byte = static_cast<char>(random());
            stream += masked(Opcode::binary, payload);
            expected.push_back({Kind::binary, payload, CloseCode::none});
            // in two fragments, a ping between them
            stream += masked(Opcode::binary, payload.substr(0, size / 3), false);
            stream += masked(Opcode::ping, "still there?");
            stream += masked(Opcode::continuation, payload.substr(size / 3));
            expected.push_back({Kind::ping, "still there?", CloseCode::none});
            expected.push_back({Kind::binary, payload, CloseCode::none});
        }
        for (const std::size_t piece : {std::size_t{1}, std::size_t{2}, std::size_t{3}, std::size_t{13},
                                        std::size_t{64}, std::size_t{4096}, stream.size()}) {
            MessageReader reader(From::client, 70'000);
            QVERIFY(readAll(reader, stream, piece) == expected);
            QCOMPARE(reader.keptBytes(), std::size_t{0});
        }
    }

    void violationsAreNamed_data()
    {
        QTest::addColumn<QByteArray>("stream");
        QTest::addColumn<int>("code");
        const auto row = [](const char* name, const std::string& stream, CloseCode code) {
            QTest::newRow(name) << QByteArray::fromStdString(stream) << static_cast<int>(code);
        };
        const auto protocol = CloseCode::protocolError;
        row("unmasked from a client", bytes({0x81, 0x01, 0x41}), protocol);
        row("reserved bit 1", bytes({0xC1, 0x80, 1, 2, 3, 4}), protocol);
        row("reserved bit 3", bytes({0x91, 0x80, 1, 2, 3, 4}), protocol);
        row("unknown data opcode", bytes({0x83, 0x80, 1, 2, 3, 4}), protocol);
        row("unknown control opcode", bytes({0x8B, 0x80, 1, 2, 3, 4}), protocol);
        row("ping in pieces", bytes({0x09, 0x80, 1, 2, 3, 4}), protocol);
        row("long ping", bytes({0x89, 0xFE, 0, 126}), protocol);
        row("continuation of nothing", masked(Opcode::continuation, "x"), protocol);
        row("new message inside one", masked(Opcode::text, "x", false) + masked(Opcode::text, "y"), protocol);
        row("length in two bytes for 5", bytes({0x82, 0xFE, 0, 5, 1, 2, 3, 4}), protocol);
        row("length in eight bytes for 300", bytes({0x82, 0xFF, 0, 0, 0, 0, 0, 0, 1, 44, 1, 2, 3, 4}), protocol);
        row("length with its top bit", bytes({0x82, 0xFF, 0x80, 0, 0, 0, 0, 1, 0, 0, 1, 2, 3, 4}), protocol);
        row("close of one byte", masked(Opcode::close, "x"), protocol);
        row("close with 1005", masked(Opcode::close, bytes({0x03, 0xED})), protocol);
        row("close with 1006", masked(Opcode::close, bytes({0x03, 0xEE})), protocol);
        row("close with 999", masked(Opcode::close, bytes({0x03, 0xE7})), protocol);
        row("close reason not UTF-8", masked(Opcode::close, bytes({0x03, 0xE8, 0xFF})), CloseCode::notUtf8);
        row("text not UTF-8", masked(Opcode::text, "\xC0\x80"), CloseCode::notUtf8);
        row("text cut in a code point", masked(Opcode::text, "\xE2\x89"), CloseCode::notUtf8);
        row("too big", masked(Opcode::binary, std::string(1001, 'x')), CloseCode::tooBig);
        row("too big, announced only", bytes({0x82, 0xFF, 0x7F, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 4}), CloseCode::tooBig);
        row("too big in pieces",
            masked(Opcode::binary, std::string(600, 'x'), false) + masked(Opcode::continuation, std::string(401, 'x')),
            CloseCode::tooBig);
    }
    void violationsAreNamed()
    {
        QFETCH(QByteArray, stream);
        QFETCH(int, code);
        QCOMPARE(static_cast<int>(violationOf(From::client, stream.toStdString(), 1000)), code);
        // and just the same when it comes byte by byte
        MessageReader reader(From::client, 1000);
        const auto messages = readAll(reader, stream.toStdString(), 1);
        QVERIFY(!messages.empty());
        QCOMPARE(static_cast<int>(messages.back().code), code);
    }

    void aServerMustNotMask()
    {
        QCOMPARE(violationOf(From::server, masked(Opcode::text, "x")), CloseCode::protocolError);
    }

    void aCodePointMayBeSplitOverFragments()
    {
        const auto stream = masked(Opcode::text, "\xE2\x89", false) + masked(Opcode::continuation, "\xA2");
        QCOMPARE(readAll(From::client, stream), (Messages{{Kind::text, "\xE2\x89\xA2", CloseCode::none}}));
    }

    void theLimitCanChangeBetweenFrames()
    {
        MessageReader reader(From::client, 10);
        QCOMPARE(readAll(reader, masked(Opcode::text, "0123456789"), 100).size(), std::size_t{1});
        reader.setMaxMessageBytes(20);
        QCOMPARE(readAll(reader, masked(Opcode::text, "0123456789abcdef"), 100).at(0).kind, Kind::text);
        reader.setMaxMessageBytes(5);
        QCOMPARE(readAll(reader, masked(Opcode::text, "0123456789"), 100).at(0).code, CloseCode::tooBig);
    }

    void closeCarriesCodeAndReason()
    {
        const auto payload = closePayload(CloseCode::policy, "too-slow");
        QCOMPARE(readAll(From::client, masked(Opcode::close, payload)),
                 (Messages{{Kind::close, "too-slow", CloseCode::policy}}));
        QCOMPARE(readAll(From::client, masked(Opcode::close, "")), (Messages{{Kind::close, "", CloseCode::none}}));
        // Cut before the code point that does not fit into 123 bytes.
        const auto longReason = std::string(122, 'a') + "\xC3\xA9";
        QCOMPARE(closePayload(CloseCode::normal, longReason).size(), std::size_t{124});
    }
};

QTEST_APPLESS_MAIN(TestWsFrame)
#include "test_ws_frame.moc"
