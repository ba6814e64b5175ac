#include "common/wire/join_link.h"

#include <QtTest>

#include <set>

using namespace vh;
using namespace vh::wire;

class TestJoinLink : public QObject
{
    Q_OBJECT
private slots:
    void linksGoBothWays()
    {
        JoinLink link;
        link.host = "hall.example.org";
        link.code = "K7M42P";
        link.code = *normaliseCode("k7m 4ap");
        link.pin.emplace().fill(0xAB);
        QCOMPARE(format(link),
                 std::string("voicehall://hall.example.org/#c=K7M4AP&k=q6urq6urq6urq6urq6urq6urq6urq6urq6urq6urq6s"));
        QVERIFY(*parseJoinLink(format(link)) == link);
        link.port = 8443;
        link.host = "[::1]";
        link.code.clear();
        link.token.emplace().fill(1);
        QVERIFY(*parseJoinLink("  " + format(link) + "\n") == link);
    }

    void whatPeopleTypeIsReadToo()
    {
        QCOMPARE(parseJoinLink("hall.example.org")->port, std::uint16_t(443));
        QCOMPARE(parseJoinLink("192.168.1.5:9000")->port, std::uint16_t(9000));
        QCOMPARE(parseJoinLink("192.168.1.5:9000")->host, std::string("192.168.1.5"));
    }

    void brokenLinksSayWhatToDo()
    {
        for (const char* broken :
             {"", "voicehall://", "voicehall:///#c=K7M4AP", "voicehall://h/#c=K7M4A", "voicehall://h/#t=00",
              "voicehall://h/#k=short", "h:0", "h:99999", "h:12x", "h i", "voicehall://h/path#c=K7M4AP"}) {
            const auto link = parseJoinLink(broken);
            QVERIFY2(!link, broken);
            QVERIFY(!link.error().message.empty());
        }
        QVERIFY(!parseJoinLink(std::string(501, 'a')));
    }

    void codesForgiveCaseSpacesAndDashes()
    {
        QCOMPARE(*normaliseCode("k7m-4ap"), std::string("K7M4AP"));
        QCOMPARE(spacedCode("K7M4AP"), std::string("K7M 4AP"));
        QVERIFY(!normaliseCode("K7M40P")); // a nought is not a sign of ours
        QVERIFY(!normaliseCode("K7M4A"));
        QVERIFY(!normaliseCode("K7M4APP"));
    }

    void theFourWordsFollowTheKey()
    {
        Hash one{};
        Hash other{};
        other[31] = 1;
        QCOMPARE(fourWords(one), fourWords(one));
        QVERIFY(fourWords(one) != fourWords(other));
    }
};

QTEST_APPLESS_MAIN(TestJoinLink)
#include "test_join_link.moc"
