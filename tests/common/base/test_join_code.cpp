#include "common/base/join_code.h"

#include <QtTest>

#include <set>

using namespace vh;

class TestJoinCode : public QObject
{
    Q_OBJECT
private slots:
    void codesAreShortAndHaveNoLookAlikes()
    {
        std::set<std::string> codes;
        for (int i = 0; i < 500; ++i) {
            const std::string code = makeJoinCode();
            QCOMPARE(code.size(), std::size_t(6));
            QCOMPARE(code.find_first_of("0O1IL5S2Z8BUV"), std::string::npos);
            QCOMPARE(normaliseCode(code).value_or("none"), code);
            codes.insert(code);
        }
        // 500 draws out of 23^6 coincide with a probability of 0.0008.
        QVERIFY(codes.size() >= 499);
        QCOMPARE(kJoinCodeSigns.size(), std::size_t(23));
    }

    void codesAreReadAsPeopleTypeThem()
    {
        QCOMPARE(*normaliseCode("acd-3 4e"), std::string("ACD34E"));
        QCOMPARE(*normaliseCode("k7m.4ap"), std::string("K7M4AP"));
        QVERIFY(!normaliseCode("K7M40P")); // a nought is not a sign of ours
        QVERIFY(!normaliseCode("K7M4A"));
        QVERIFY(!normaliseCode("K7M4APP"));
        QVERIFY(!normaliseCode(""));
    }

    void codesAreShownInTwoHalves()
    {
        QCOMPARE(spacedCode("K7M4AP"), std::string("K7M 4AP"));
        QCOMPARE(*normaliseCode(spacedCode("K7M4AP")), std::string("K7M4AP"));
    }
};

QTEST_APPLESS_MAIN(TestJoinCode)
#include "test_join_code.moc"
