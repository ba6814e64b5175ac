#include "common/base/id.h"
#include "common/base/text.h"

#include <QtTest>

using namespace vh;

class TestText : public QObject
{
    Q_OBJECT
private slots:
    void hexGoesBothWays()
    {
        const auto bytes = bytesOfHex("00ff7Fa0");
        QVERIFY(bytes);
        QCOMPARE(hexOf(*bytes), std::string("00ff7fa0"));
        QVERIFY(!bytesOfHex("abc"));
        QVERIFY(!bytesOfHex("zz"));
        const auto id = PersonId::random();
        QCOMPARE(PersonId::fromHex(id.hex())->hex(), id.hex());
        QVERIFY(PersonId::random() != PersonId::random());
        QVERIFY(!PersonId::fromHex("00"));
    }

    // The cases of RFC 3629 section 3 and 10: overlong forms, surrogates, beyond U+10FFFF, cut sequences.
    void utf8IsCheckedAsTheRfcSays()
    {
        QVERIFY(isUtf8("A\xE2\x89\xA2\xCE\x91."));
        QVERIFY(isUtf8("\xF0\xA3\x8E\xB4"));
        QVERIFY(!isUtf8("\xC0\x80"));
        QVERIFY(!isUtf8("\xE0\x80\xAF"));
        QVERIFY(!isUtf8("\xED\xA0\x80"));
        QVERIFY(!isUtf8("\xF4\x90\x80\x80"));
        QVERIFY(!isUtf8("\xE2\x89"));
        QVERIFY(!isUtf8("\x80"));
        QCOMPARE(codePointCount("A\xE2\x89\xA2\xCE\x91."), std::size_t(4));
        QVERIFY(codePointsOf("A\xE2\x89\xA2\xCE\x91.") == U"A\u2262\u0391.");
        QVERIFY(codePointsOf("ok\xFFno") == U"ok");
    }

    void linesAreMadeFitToBeShown()
    {
        QCOMPARE(*cleanLine("  Ruth\x07 \xE2\x80\xAE"
                            "dna\n",
                            40),
                 std::string("Ruth dna"));
        QCOMPARE(*cleanLine("one\ntwo", 40, LineBreaks::keep), std::string("one\ntwo"));
        QCOMPARE(*cleanLine("one\ntwo", 40), std::string("one two"));
        QVERIFY(!cleanLine(" \x01 ", 40));
        QVERIFY(!cleanLine("\xFF", 40));
        QVERIFY(!cleanLine("abcdef", 5));
    }
};

QTEST_APPLESS_MAIN(TestText)
#include "test_text.moc"
