// Phones and how they make syllables. Divisions: the maximal onset principle as textbooks show it (Kahn 1976; Roach,
// English Phonetics and Phonology).
#include "common/lexicon/pronunciation.h"

#include <QtTest>

using namespace vh::lexicon;
using enum Phone;

class TestPronunciation : public QObject
{
    Q_OBJECT

    static QString cut(const std::vector<Phone>& phones)
    {
        QStringList syllables;
        for (const Syllable& syllable : inSyllables(phones)) {
            QStringList names;
            for (const Phone phone : syllable.phones) {
                const auto name = kPhoneNames[static_cast<std::size_t>(phone)];
                names << QString::fromLatin1(name.data(), static_cast<qsizetype>(name.size()));
            }
            syllables << names.join(' ');
        }
        return syllables.join(" . ");
    }

private slots:
    void namesAndPhonesAreOneToOne()
    {
        for (std::size_t i = 0; i < kPhones; ++i)
            QVERIFY(phoneOf(kPhoneNames[i]) == static_cast<Phone>(i));
        QVERIFY(!phoneOf("xx"));
        QVERIFY(isVowel(uw) && !isVowel(b));
        QVERIFY(isBackOfTongue(k) && isBackOfTongue(g) && isBackOfTongue(ng) && !isBackOfTongue(n));
    }

    void consonantsGoWithTheVowelTheyCanBegin()
    {
        QCOMPARE(cut({ae, t, l, ax, s}), QStringLiteral("ae t . l ax s"));          // "atlas": no word begins with tl
        QCOMPARE(cut({eh, k, s, t, r, ax}), QStringLiteral("eh k . s t r ax"));     // "extra"
        QCOMPARE(cut({ih, ng, g, l, ih, sh}), QStringLiteral("ih ng . g l ih sh")); // "English"
        QCOMPARE(cut({s, ih, ng, ih, ng}), QStringLiteral("s ih ng . ih ng"));      // "singing": ng begins nothing
        QCOMPARE(cut({k, iy, ax, s, k}), QStringLiteral("k iy . ax s k"));          // "kiosk"
        QCOMPARE(cut({p, l, ae, t, ax, p, ax, s}), QStringLiteral("p l ae . t ax . p ax s"));
    }

    void whatHasNoVowelIsOneSyllable()
    {
        QCOMPARE(inSyllables({sh}).size(), std::size_t(1));
        QVERIFY(inSyllables({}).empty());
    }
};

QTEST_APPLESS_MAIN(TestPronunciation)
#include "test_pronunciation.moc"
