#include "common/wire/join_link.h"

#include <QFile>
#include <QRegularExpression>
#include <QtTest>

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

    void theFourWordsFollowTheKey()
    {
        Hash one{};
        Hash other{};
        other[31] = 1;
        QCOMPARE(fourWords(one), fourWords(one));
        QVERIFY(fourWords(one) != fourWords(other));
    }

    // The examples there were made with the command-line tool of Argon2's authors (Debian's argon2 0~20171227).
    void theFourWordsAreThoseOfTheirDocument()
    {
        QFile file(VH_SOURCE_DIR "/docs/four-words.md");
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QString document = QString::fromUtf8(file.readAll());
        QStringList listed;
        for (const QString& line : document.section("```", -2, -2).split('\n', Qt::SkipEmptyParts))
            listed += line.simplified().split(' ').mid(1);
        QCOMPARE(listed.size(), qsizetype{256});
        for (int i = 0; i < 256; ++i)
            QCOMPARE(listed[i].toStdString(), std::string(keyWord(static_cast<std::uint8_t>(i))));

        static const QRegularExpression kExample("\\| `([0-9a-f]{64})` \\| `([0-9a-f]{32})` \\| ([a-z ]+) \\|");
        int examples = 0;
        for (auto all = kExample.globalMatch(document); all.hasNext(); ++examples) {
            const auto example = all.next();
            Hash pin{};
            const auto bytes = bytesOfHex(example.captured(1).toStdString());
            std::copy(bytes->begin(), bytes->end(), pin.begin());
            QStringList words;
            for (const std::string& word : fourWords(pin))
                words += QString::fromStdString(word);
            QCOMPARE(words.join(' '), example.captured(3));
            const auto numbers = bytesOfHex(example.captured(2).toStdString());
            for (int i = 0; i < 4; ++i)
                QCOMPARE(listed[(*numbers)[static_cast<std::size_t>(i)]], words[i]);
            if (examples == 0)
                QVERIFY(document.contains(QString::fromStdString("k=" + base64Url(pin) + "`")));
        }
        QCOMPARE(examples, 2);
    }
};

QTEST_APPLESS_MAIN(TestJoinLink)
#include "test_join_link.moc"
