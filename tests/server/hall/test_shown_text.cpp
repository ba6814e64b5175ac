// What people write in any script stays what it is; what would hurt others' screens goes. Sequences from Unicode's own
// documents: UTS 51 (emoji), UAX 9 (direction), UTS 39 (look-alikes); orthographies from common knowledge.
#include "server/hall/shown_text.h"

#include <QtTest>

using vh::hall::shownText;
using vh::hall::skeletonOf;

class TestShownText : public QObject
{
    Q_OBJECT
private slots:
    void staysAsItIs_data()
    {
        QTest::addColumn<QString>("text");
        QTest::newRow("family, joined") << u"\U0001F468\u200D\U0001F469\u200D\U0001F467"_qs;
        QTest::newRow("skin tone") << u"\U0001F44B\U0001F3FD"_qs;
        QTest::newRow("flag of two letters") << u"\U0001F1F5\U0001F1F9"_qs;
        QTest::newRow("flag of Wales, by tags")
            << u"\U0001F3F4\U000E0067\U000E0062\U000E0077\U000E006C\U000E0073\U000E007F"_qs;
        QTest::newRow("heart, as a picture") << u"\u2764\uFE0F"_qs;
        QTest::newRow("Vietnamese, decomposed") << u"tie\u0302\u0301ng Vie\u0323\u0302t"_qs;
        QTest::newRow("pointed Hebrew") << u"\u05E9\u05C1\u05B8\u05DC\u05D5\u05B9\u05DD"_qs;
        QTest::newRow("Arabic") << u"\u0645\u0631\u062D\u0628\u064B\u0627"_qs;
        QTest::newRow("Persian, not joined") << u"\u0645\u06CC\u200C\u062E\u0648\u0627\u0647\u0645"_qs;
        QTest::newRow("Hindi, half form") << u"\u0915\u094D\u200D\u0937"_qs;
        QTest::newRow("Thai") << u"\u0E01\u0E33\u0E25\u0E31\u0E07"_qs;
        QTest::newRow("markup is only letters") << u"<b>beans</b> &amp; http://example.org"_qs;
    }
    void staysAsItIs()
    {
        QFETCH(QString, text);
        const auto shown = shownText(text.toStdString(), 500);
        QVERIFY(shown);
        QCOMPARE(QString::fromStdString(*shown), text);
    }

    void whatHurtsOthersGoes_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<QString>("shown");
        QTest::newRow("overrides") << u"a\u202Eb\u2066c\u2069d"_qs << u"abcd"_qs;
        QTest::newRow("control characters") << u"a\u0000b\u0007c\u0085d"_qs << u"abcd"_qs;
        QTest::newRow("invisible spaces") << u"a\u200Bb\u2060c\uFEFFd\u00ADe"_qs << u"abcde"_qs;
        QTest::newRow("piled marks") << QString(u'H' + QString(30, QChar(0x0301)) + u'i')
                                     << u"H\u0301\u0301\u0301\u0301i"_qs;
        QTest::newRow("tags without a flag") << u"a\U000E0062\U000E0063"_qs << u"a"_qs;
        QTest::newRow("private use") << u"a\uE000\U000F0000b"_qs << u"ab"_qs;
        QTest::newRow("line separators") << u"a\u2028b\u2029c"_qs << u"a b c"_qs;
        QTest::newRow("no characters") << u"a\uFFFF\U0001FFFEb"_qs << u"ab"_qs;
    }
    void whatHurtsOthersGoes()
    {
        QFETCH(QString, text);
        QFETCH(QString, shown);
        QCOMPARE(QString::fromStdString(shownText(text.toStdString(), 500).value_or("?")), shown);
    }

    void isRefusedInWords()
    {
        QCOMPARE(shownText("", 500).error().code, std::string("text-empty"));
        QCOMPARE(shownText("\u200B\u202E \n", 500).error().code, std::string("text-empty"));
        QCOMPARE(shownText(std::string(501, 'a'), 500).error().code, std::string("text-too-long"));
        QCOMPARE(shownText("\xC0\x80", 500).error().code, std::string("text-unreadable"));
        QVERIFY(shownText("one\ntwo", 500, vh::LineBreaks::keep).value() == "one\ntwo");
    }

    void namesThatLookAlikeHaveOneSkeleton()
    {
        QCOMPARE(skeletonOf("Ruth"), skeletonOf("ruth"));
        QCOMPARE(skeletonOf("Anna"), skeletonOf("\u0410nn\u0430")); // Cyrillic A and a
        QCOMPARE(skeletonOf("Bo"), skeletonOf("B\u03BF"));          // Greek omicron
        QCOMPARE(skeletonOf("Mary Ann"), skeletonOf("MaryAnn"));
        QVERIFY(skeletonOf("Anna") != skeletonOf("Hanna"));
        QVERIFY(skeletonOf("Jose") != skeletonOf("Jos\u00E9"));
    }
};

QTEST_APPLESS_MAIN(TestShownText)
#include "test_shown_text.moc"
