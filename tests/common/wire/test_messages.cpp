#include "common/wire/login_text.h"
#include "common/wire/protocol_table.h"
#include "tests/common/wire/filler.h"

#include <QtTest>

#include <set>

using namespace vh;
using namespace vh::wire;

namespace
{

template <class Variant, class Decode, std::size_t I = 0>
void eachGoesBothWays(std::mt19937& random, Decode decode)
{
    if constexpr (I < std::variant_size_v<Variant>) {
        for (int round = 0; round < 50; ++round) {
            std::variant_alternative_t<I, Variant> message;
            Filler filler(random);
            visitFields(message, filler);
            const std::string text = encode(message);
            const auto back = decode(text);
            QVERIFY2(back, back ? "" : (text + back.error().message).c_str());
            QCOMPARE(back->index(), I);
            QCOMPARE(encode(std::get<I>(*back)), text);
        }
        eachGoesBothWays<Variant, Decode, I + 1>(random, decode);
    }
}

template <class Variant, std::size_t... I>
std::set<std::string_view> namesOf(std::index_sequence<I...>)
{
    return {std::variant_alternative_t<I, Variant>::kName...};
}

QByteArray codeOf(std::string_view text)
{
    const auto message = decodeToRelay(text);
    return message ? QByteArray("fine") : QByteArray::fromStdString(message.error().code + " " + message.error().where);
}

} // namespace

class TestMessages : public QObject
{
    Q_OBJECT
private slots:
    void everyMessageGoesBothWays()
    {
        std::mt19937 random(7);
        eachGoesBothWays<ToRelay>(random, decodeToRelay);
        eachGoesBothWays<ToClient>(random, decodeToClient);
    }

    void theTableNamesEveryMessageAndNoOther()
    {
        auto known = namesOf<ToRelay>(std::make_index_sequence<std::variant_size_v<ToRelay>>());
        for (const Rule& rule : rulesForClients()) {
            QVERIFY2(rule.mostBytes > 0 && rule.stages != 0 && rule.roles != 0, std::string(rule.message).c_str());
            if (!rule.binary)
                QVERIFY2(known.erase(rule.message) == 1, std::string(rule.message).c_str());
        }
        QVERIFY2(known.empty(), known.empty() ? "" : std::string(*known.begin()).c_str());
    }

    void whatCannotBeReadSaysWhere_data()
    {
        QTest::addColumn<QByteArray>("text");
        QTest::addColumn<QByteArray>("code");
        const QByteArray id = "\"id\":\"000102030405060708090a0b0c0d0e0f\"";
        QTest::newRow("not JSON") << QByteArray("{") << QByteArray("malformed ");
        QTest::newRow("not an object") << QByteArray("[1]") << QByteArray("malformed ");
        QTest::newRow("no type") << QByteArray("{}") << QByteArray("malformed type");
        QTest::newRow("type is a number") << QByteArray(R"({"type":3})") << QByteArray("malformed type");
        QTest::newRow("unknown type") << QByteArray(R"({"type":"dance"})") << QByteArray("unsupported dance");
        QTest::newRow("unknown type, cut between two letters")
            << QByteArray("{\"type\":\"") + QByteArray("\u00e9").repeated(61) + "\"}"
            << QByteArray("unsupported ") + QByteArray("\u00e9").repeated(60);
        QTest::newRow("missing field") << QByteArray(R"({"type":"clock"})") << QByteArray("malformed sent");
        QTest::newRow("wrong kind of number")
            << QByteArray(R"({"type":"clock","sent":1.5})") << QByteArray("malformed sent");
        QTest::newRow("number too large")
            << QByteArray(R"({"type":"clock","sent":1e300})") << QByteArray("malformed sent");
        QTest::newRow("whole number as 3.0") << QByteArray(R"({"type":"clock","sent":3.0})") << QByteArray("fine");
        QTest::newRow("negative where none may be")
            << QByteArray(R"({"type":"leading","lease":-1})") << QByteArray("malformed lease");
        QTest::newRow("unknown name") << QByteArray(R"({"type":"today","voice":"loud","checked":true})")
                                      << QByteArray("malformed voice");
        QTest::newRow("short id") << QByteArray(R"({"type":"helpCall","id":"00"})") << QByteArray("malformed id");
        QTest::newRow("text too long") << "{\"type\":\"write\"," + id + ",\"text\":\"" + QByteArray(2001, 'a') + "\"}"
                                       << QByteArray("malformed text");
        QTest::newRow("text just long enough")
            << "{\"type\":\"write\"," + id + ",\"text\":\"" + QByteArray("\xC3\xA4").repeated(2000) + "\"}"
            << QByteArray("fine");
        QTest::newRow("list too long") << "{\"type\":\"hello\",\"min\":1,\"max\":1,\"app\":\"x\",\"features\":[" +
                                              QByteArray("\"f\",").repeated(32) + "\"f\"]}"
                                       << QByteArray("malformed features");
        QTest::newRow("item of the wrong kind")
            << QByteArray(R"({"type":"hello","min":1,"max":1,"app":"x","features":["a",2]})")
            << QByteArray("malformed features[1]");
        QTest::newRow("too deep") << QByteArray(R"({"type":"clock","sent":1,"x":[[[[[[[[1]]]]]]]]})")
                                  << QByteArray("malformed ");
        QTest::newRow("a field of a newer version")
            << QByteArray(R"({"type":"clock","sent":1,"x":[1]})") << QByteArray("fine");
        QTest::newRow("not UTF-8") << QByteArray("{\"type\":\"\xFF\"}") << QByteArray("malformed ");
    }
    void whatCannotBeReadSaysWhere()
    {
        QFETCH(QByteArray, text);
        QFETCH(QByteArray, code);
        QCOMPARE(codeOf(text.toStdString()), code);
    }

    void cutMessagesAreNeverTaken()
    {
        std::mt19937 random(11);
        Welcome welcome;
        Filler filler(random);
        visitFields(welcome, filler);
        const std::string text = encode(welcome);
        for (std::size_t length = 0; length < text.size(); ++length)
            QVERIFY(!decodeToClient(std::string_view(text).substr(0, length)));
    }

    // RFC 8032 section 7.1, test 2: one byte, 0x72.
    void signaturesAreThoseOfTheRfc()
    {
        const auto key = *bytesOfHex("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
        const auto signature = *bytesOfHex("92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
                                           "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00");
        Key publicKey{};
        Signature theirs{};
        std::copy(key.begin(), key.end(), publicKey.begin());
        std::copy(signature.begin(), signature.end(), theirs.begin());
        QVERIFY(verify(publicKey, "\x72", theirs));
        QVERIFY(!verify(publicKey, "\x73", theirs));
    }

    // FIPS 180-4's example "abc" (NIST, SHA256.pdf).
    void hashesAreThoseOfTheStandard()
    {
        QCOMPARE(hexOf(sha256("abc")), std::string("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"));
    }

    void aSignatureIsGoodForOneLineOneRoleAndOneGroupOnly()
    {
        const KeyPair pair = makeKeyPair();
        Bytes<32> nonce{};
        const auto signature = sign(pair, loginText(Purpose::login, "aa", nonce, Role::participant));
        QVERIFY(verify(pair.publicKey, loginText(Purpose::login, "aa", nonce, Role::participant), signature));
        QVERIFY(!verify(pair.publicKey, loginText(Purpose::login, "aa", nonce, Role::leader), signature));
        QVERIFY(!verify(pair.publicKey, loginText(Purpose::login, "ab", nonce, Role::participant), signature));
        QVERIFY(!verify(pair.publicKey, loginText(Purpose::knock, "aa", nonce, Role::participant), signature));
        nonce[5] = 1;
        QVERIFY(!verify(pair.publicKey, loginText(Purpose::login, "aa", nonce, Role::participant), signature));
    }
};

QTEST_APPLESS_MAIN(TestMessages)
#include "test_messages.moc"
