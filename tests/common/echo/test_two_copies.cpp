// Two copies of one voice, told from one, from none, and from what only looks like two.
#include "common/echo/two_copies.h"
#include "common/voice/room.h"
#include "common/voice/voice.h"

#include <QtTest>

#include <algorithm>
#include <cmath>

using namespace vh;

namespace
{

constexpr std::size_t kPerMs = 48;

std::vector<float> leaderSpeaks(std::size_t seconds, std::uint64_t seed)
{
    std::vector<float> samples;
    while (samples.size() < seconds * 48'000) {
        voice::Utterance utterance;
        utterance.text = "They filled it with dark earth up to the seats, and set a pole where the mast had been.";
        utterance.silentSeconds = 0.3;
        utterance.levelDbfsA = -26;
        voice::VoiceTraits traits;
        traits.tract = voice::Tract::woman;
        traits.pitchHz = 200;
        const auto sound = voice::render(utterance, traits, ++seed);
        samples.insert(samples.end(), sound.samples.begin(), sound.samples.end());
    }
    samples.resize(seconds * 48'000);
    return samples;
}

/// Adds `sound` so many milliseconds later (or earlier) and so many dB down.
void add(std::vector<float>& to, const std::vector<float>& sound, int laterMs, double db)
{
    const auto gain = static_cast<float>(std::pow(10, db / 20));
    const long later = static_cast<long>(laterMs) * static_cast<long>(kPerMs);
    for (long i = std::max(0L, later); i < static_cast<long>(to.size()); ++i) {
        const long from = i - later;
        if (from >= 0 && from < static_cast<long>(sound.size()))
            to[static_cast<std::size_t>(i)] += gain * sound[static_cast<std::size_t>(from)];
    }
}

TwoCopies::Found found(const std::vector<float>& far, const std::vector<float>& heard)
{
    TwoCopies detector;
    for (std::size_t at = 0; at < far.size(); at += 441) {
        const std::size_t count = std::min<std::size_t>(441, far.size() - at);
        detector.push(std::span(far).subspan(at, count), std::span(heard).subspan(at, count));
    }
    return detector.found();
}

bool near(int ms, int wanted)
{
    return std::abs(ms - wanted) <= 2;
}

} // namespace

class TestTwoCopies : public QObject
{
    Q_OBJECT
    std::vector<float> m_far = leaderSpeaks(13, 1); // three stretches
    std::vector<float> m_person = leaderSpeaks(13, 100);

private slots:
    void ourPlaybackAloneIsOneCopy()
    {
        std::vector<float> heard(m_far.size());
        add(heard, m_far, 140, -10);
        add(heard, m_person, 0, -20);
        const auto result = found(m_far, heard);
        QCOMPARE(result.copies, 1);
        QVERIFY(near(result.firstMs, 140));
        QCOMPARE(result.judged, 3U);
    }

    void aCallBesideItIsASecondOne_data()
    {
        QTest::addColumn<int>("oursMs");
        QTest::addColumn<int>("otherMs");
        QTest::addColumn<double>("otherDb"); // beside ours
        QTest::newRow("later, as loud") << 120 << 480 << 0.0;
        QTest::newRow("earlier than we play") << 250 << -180 << 0.0;
        QTest::newRow("much later, quieter") << 150 << 1600 << -8.0;
        QTest::newRow("just apart, louder") << 150 << 230 << 6.0;
    }
    void aCallBesideItIsASecondOne()
    {
        QFETCH(int, oursMs);
        QFETCH(int, otherMs);
        QFETCH(double, otherDb);
        std::vector<float> heard(m_far.size());
        add(heard, m_far, oursMs, -10);
        add(heard, m_far, otherMs, -10 + otherDb);
        add(heard, m_person, 0, -16);
        const auto result = found(m_far, heard);
        QCOMPARE(result.copies, 2);
        QVERIFY(near(result.firstMs, otherDb > 0 ? otherMs : oursMs) || near(result.firstMs, otherMs));
        QVERIFY(near(result.secondMs, oursMs) || near(result.secondMs, otherMs));
        QVERIFY(!near(result.firstMs, result.secondMs));
    }

    void inALivingRoomTheEchoesAreNoSecondCopyAndTheOtherStillIs()
    {
        voice::Room room;
        room.rt60Seconds = 0.5;
        room.distanceMetres = 1.0;
        const std::vector<float> there = voice::inRoom(m_far, room, 5);
        room.distanceMetres = 1.8;
        const std::vector<float> elsewhere = voice::inRoom(m_far, room, 6);
        std::vector<float> heard(m_far.size());
        add(heard, there, 130, 0);
        add(heard, m_person, 0, -10);
        QCOMPARE(found(m_far, heard).copies, 1);
        add(heard, elsewhere, 520, 0); // a tablet further away
        const auto result = found(m_far, heard);
        QCOMPARE(result.copies, 2);
        QVERIFY(near(std::max(result.firstMs, result.secondMs), 524)); // 1.8 m of air besides
    }

    void thePersonAloneIsNoCopy()
    {
        std::vector<float> heard(m_far.size());
        add(heard, m_person, 0, 0);
        const auto result = found(m_far, heard);
        QCOMPARE(result.copies, 0);
        QVERIFY(result.judged > 0);
    }

    void aHeldVowelIsLikeItselfAndNotTwo()
    {
        std::vector<float> far(m_far.size());
        double phase = 0;
        for (std::size_t i = 0; i < far.size(); ++i) { // a machine's: the worst case
            phase += 2 * M_PI * 196 / 48'000;
            for (int k = 1; k < 16; ++k)
                far[i] += static_cast<float>(0.02 / k * std::sin(k * phase));
        }
        std::vector<float> heard(far.size());
        add(heard, far, 140, -10);
        add(heard, m_person, 0, -30);
        QVERIFY(found(far, heard).copies < 2);
    }

    void whileTheLeaderIsSilentNothingIsSaid()
    {
        std::vector<float> far(m_far.size());
        const auto result = found(far, m_person);
        QVERIFY(result == TwoCopies::Found{});
    }

    void aSecondCopyMustBeThereTwiceAndARestartForgets()
    {
        TwoCopies detector;
        std::vector<float> heard(m_far.size());
        add(heard, m_far, 100, -10);
        add(heard, m_far, 500, -10);
        const std::size_t one = 32'768 * 6; // a stretch
        detector.push(std::span(m_far).first(one + 100), std::span(heard).first(one + 100));
        QCOMPARE(detector.found().judged, 1U);
        QCOMPARE(detector.found().copies, 0); // not yet
        detector.push(std::span(m_far).subspan(one + 100), std::span(heard).subspan(one + 100));
        QCOMPARE(detector.found().copies, 2);
        detector.restart();
        QVERIFY(detector.found() == TwoCopies::Found{});
    }

    void whatIsNoNumberDoesNoHarm()
    {
        std::vector<float> heard(m_far.size());
        add(heard, m_far, 100, -10);
        heard[1000] = std::nanf("");
        heard[2000] = INFINITY;
        QCOMPARE(found(m_far, heard).copies, 1);
    }
};

QTEST_APPLESS_MAIN(TestTwoCopies)
#include "test_two_copies.moc"
