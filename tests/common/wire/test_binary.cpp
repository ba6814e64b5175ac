#include "common/wire/binary.h"
#include "common/wire/limits.h"

#include <QtTest>

using namespace vh;
using namespace vh::wire;

namespace
{
std::span<const std::uint8_t> bytes(const std::string& text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}
} // namespace

class TestBinary : public QObject
{
    Q_OBJECT
private slots:
    // The worked example of docs/protocol.md, byte by byte.
    void aReadingIsLaidOutAsDocumented()
    {
        Reading reading;
        reading.turnSerial = 0x01020304;
        reading.elapsedMs = 4000;
        reading.heardMs = 2500;
        reading.voicedMs = 2000;
        reading.leqOverUsualDb = 4.2F;
        reading.nowOverUsualDb = -1.5F;
        reading.trustPercent = 80;
        reading.reason = Blank::clipping;
        reading.judgeVersion = 1;
        const std::string frame = encodeReading(reading);
        QCOMPARE(QByteArray::fromStdString(frame).toHex(' '),
                 QByteArray("01 01 00 01 02 03 04 00 00 07 d0 00 00 09 c4 00 00 0f a0 00 2a ff f1 50 02 01"));
        const auto back = decodeReading(bytes(frame));
        QVERIFY(back);
        QVERIFY(*back == reading);
    }

    void everyOtherLengthIsRefused()
    {
        const std::string frame = encodeReading({});
        for (std::size_t length = 0; length < frame.size(); ++length)
            QVERIFY(!decodeReading(bytes(frame.substr(0, length))));
        QVERIFY(!decodeReading(bytes(frame + "x")));
        QVERIFY(!decodeSound(bytes(encodeSound({}, {}))));
        const std::vector<std::uint8_t> much(kSoundBytes + 1);
        QVERIFY(!decodeSound(bytes(encodeSound({}, much))));
        QVERIFY(!decodePart(bytes(std::string("\x03\x01\x00short", 8))));
        QVERIFY(!decodeRoster(bytes(std::string("\x04\x01\x00"
                                                "123456",
                                                9))));
        QVERIFY(!binaryTypeOf(bytes(std::string("\x01"))));
    }

    void readingsThatCannotBeAreRefused()
    {
        Reading reading;
        reading.voicedMs = 10;
        reading.heardMs = 5;
        QVERIFY(!decodeReading(bytes(encodeReading(reading))));
        reading = {};
        reading.elapsedMs = 3'600'000;
        reading.heardMs = 3'600'000;
        QVERIFY(decodeReading(bytes(encodeReading(reading))));
        reading.heardMs += 1; // more than was looked at
        QVERIFY(!decodeReading(bytes(encodeReading(reading))));
        reading.elapsedMs += 1; // more than an hour
        QVERIFY(!decodeReading(bytes(encodeReading(reading))));
        reading = {};
        reading.trustPercent = 101;
        QVERIFY(!decodeReading(bytes(encodeReading(reading))));
        for (const std::size_t level : {std::size_t{19}, std::size_t{21}})
            for (const std::string_view tenths : {std::string_view("\x07\xd1"), std::string_view("\xf8\x2f")}) {
                std::string loud = encodeReading({});
                loud.replace(level, 2, tenths); // 200.1 and -200.1 dB
                QVERIFY(!decodeReading(bytes(loud)));
            }
        std::string frame = encodeReading({});
        frame[frame.size() - 2] = 99; // a reason that does not exist
        QVERIFY(!decodeReading(bytes(frame)));
        frame = encodeReading({});
        frame[1] = 2; // a version of later
        QVERIFY(!decodeReading(bytes(frame)));
    }

    void levelsOutOfRangeAreHeldAtTheEdge()
    {
        Reading reading;
        reading.leqOverUsualDb = 1e9F;
        reading.nowOverUsualDb = std::numeric_limits<float>::quiet_NaN();
        const auto back = decodeReading(bytes(encodeReading(reading)));
        QCOMPARE(back->leqOverUsualDb, 200.0F);
        QCOMPARE(back->nowOverUsualDb, -200.0F);
    }

    void aPartIsAtMostAPictureLong()
    {
        const std::vector<std::uint8_t> picture(kPictureShownBytes, 7);
        const std::string whole = encodePart(std::array<std::uint8_t, 32>{}, picture);
        QVERIFY(whole.size() < kToClient);
        QCOMPARE(decodePart(bytes(whole))->bytes.size(), kPictureShownBytes);
        QVERIFY(!decodePart(bytes(whole + "x")));
    }

    void soundPartsAndRostersGoBothWays()
    {
        const std::vector<std::uint8_t> payload{9, 8, 7};
        const std::string sound = encodeSound({5, 48000ULL * 3600 * 24}, payload);
        const auto soundBack = decodeSound(bytes(sound));
        QVERIFY(soundBack);
        QCOMPARE(soundBack->head.stream, 5U);
        QCOMPARE(soundBack->head.firstSample, 48000ULL * 3600 * 24);
        QVERIFY(std::equal(payload.begin(), payload.end(), soundBack->payload.begin(), soundBack->payload.end()));

        std::array<std::uint8_t, 32> hash{};
        hash[31] = 4;
        const std::string part = encodePart(hash, payload);
        const auto partBack = decodePart(bytes(part));
        QVERIFY(partBack && partBack->hash == hash && partBack->bytes.size() == 3);

        Roster roster;
        roster.whole = true;
        roster.entries = {{0, Standing::inBand, Blank::none, true, 4.2F, true},
                          {4999, Standing::cantTell, Blank::roomTooNoisy, false, 0, false},
                          {7, Standing::private_, Blank::none, false, 0, false}};
        const auto rosterBack = decodeRoster(bytes(encodeRoster(roster)));
        QVERIFY(rosterBack && rosterBack->whole);
        QVERIFY(rosterBack->entries == roster.entries);
    }

    void aLevelThatIsNotSharedIsNotInTheBytes()
    {
        Roster roster;
        roster.entries = {{1, Standing::private_, Blank::none, false, 5.0F, false}};
        QCOMPARE(QByteArray::fromStdString(encodeRoster(roster)).right(2), QByteArray(2, '\0'));
    }
};

QTEST_APPLESS_MAIN(TestBinary)
#include "test_binary.moc"
