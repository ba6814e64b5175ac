// Each character, by itself and without a line: the voice is made, the room added, the mic check done, a short class
// walked through, all metered by the code that meters people. What comes of it is how the leader is meant to see them.
#include "common/home/home_meter.h"
#include "demo/chorus/home_ears.h"
#include "demo/chorus/home_sound.h"
#include "demo/chorus/manner.h"
#include "tests/demo/chorus/short_class.h"

#include <QtTest>

using namespace vh;
using namespace vh::chorus;

namespace
{

struct Heard {
    TurnKind turn;
    SectionKind section;
    double meantDb;
    TurnResult result;
    Standing standing;
};

struct Evening {
    HomeEars::Checked checked;
    std::vector<Heard> turns;
};

Evening live(Character character, std::uint64_t seed)
{
    const ClassScript script = vh::testing::shortClass();
    const HomeSound sound(character, seed);
    HomeEars ears(sound.person().gainRiding);
    Evening evening;
    evening.checked = ears.check(sound.micCheck());
    HomeMeter meter;
    meter.setRoom(evening.checked.roomDbfsA);
    meter.voiceWasHeard();
    if (evening.checked.usualDbfsA)
        meter.setUsuals({{TaskKind::phrases, withValue({}, *evening.checked.usualDbfsA, Instant{})}});
    for (const VoiceFrame& frame : ears.listen(sound.afterCheck()))
        meter.add(frame);
    wire::PlaceNow place;
    place.classId = ClassId::random();
    for (std::optional<Place> at = Place{}; at; at = nextTurn(script, *at)) {
        const TurnAt turn = *turnAt(script, *at);
        ++place.turnSerial;
        place.place = *at;
        place.turnLength = turn.turn->planned;
        place.phase = Phase::running;
        if (!isVoiced(turn.section->kind, turn.turn->kind))
            continue;
        Moment moment;
        moment.section = turn.section->kind;
        moment.turn = turn.turn->kind;
        moment.moreVoice = turn.round->moreVoice;
        moment.classShare = static_cast<double>(at->section) / static_cast<double>(script.sections.size() - 1);
        moment.length = turn.turn->planned;
        const std::uint64_t turnSeed = seed * 1000 + place.turnSerial;
        const auto frames =
            ears.listen(sound.turn({moment, lineFor(moment.section, *turn.step, moment.length, turnSeed), turnSeed}));
        const auto lead = static_cast<std::size_t>(HomeSound::kLeadIn.count() / VoiceFrame::kMilliseconds);
        for (std::size_t i = 0; i < lead; ++i)
            meter.add(frames[i]);
        meter.follow(place, script, 0, Instant{});
        for (std::size_t i = lead; i < frames.size(); ++i)
            meter.add(frames[i]);
        place.phase = Phase::ended;
        meter.follow(place, script, 0, Instant{});
        if (const auto result = meter.takeResult())
            evening.turns.push_back(
                {moment.turn, moment.section, meantOverUsualDb(character, moment), *result, meter.view().standing});
    }
    return evening;
}

} // namespace

Q_DECLARE_METATYPE(vh::chorus::Character)

class TestMeasuredHome : public QObject
{
    Q_OBJECT
private slots:
    void theyAreSeenAsMeant_data()
    {
        QTest::addColumn<Character>("character");
        QTest::addColumn<quint64>("seed");
        using enum Character; // the others speak as the steady ones do
        for (const Character character :
             {steady, fading, quiet, tooLoud, silentInOneSection, noisyRoom, callsForHelp, farFromMicrophone, couple})
            for (const quint64 seed : {1U, 2U})
                QTest::addRow("%s %llu", nameOf(character).data(), seed) << character << seed;
    }
    void theyAreSeenAsMeant()
    {
        QFETCH(Character, character);
        QFETCH(quint64, seed);
        const Evening evening = live(character, seed);
        QCOMPARE(evening.checked.finding, MicCheck::Finding::fine);
        QVERIFY(!evening.turns.empty());
        const Standing seen = evening.turns.back().standing;
        if (character == Character::silentInOneSection) {
            QCOMPARE(evening.turns.front().standing, Standing::inBand);
            QCOMPARE(seen, Standing::noVoice);
            return;
        }
        QCOMPARE(nameOf(seen).data(), nameOf(*meantStanding(character)).data());
        if (seen == Standing::cantTell)
            return;
        // The meter finds the level that the synthesiser was told. One mic check of a few seconds is within about 2 dB
        // of the usual level, as people's are (Brown, Morris and Murry 1996), and single words differ by their vowels.
        double sum = 0;
        for (const Heard& each : evening.turns) {
            const double error = each.result.reading.leqOverUsualDb - each.meantDb;
            QVERIFY2(std::abs(error) < 4, qPrintable(QString::number(error)));
            sum += error;
        }
        QVERIFY(std::abs(sum / static_cast<double>(evening.turns.size())) < 2.5);
    }

    void theComputerThatRidesTheGainHidesTheLevel()
    {
        const Evening evening = live(Character::gainRiding, 1);
        QVERIFY(evening.turns.back().result.reading.leqOverUsualDb < evening.turns.back().meantDb - 2);
    }

    void theSameSeedSoundsTheSame()
    {
        const HomeSound once(Character::couple, 4);
        const HomeSound again(Character::couple, 4);
        QVERIFY(once.micCheck() == again.micCheck());
        TurnToSay turn;
        turn.moment.length = Millis{3000};
        turn.line.text = "Good morning";
        turn.seed = 8;
        QVERIFY(once.turn(turn) == again.turn(turn));
        QCOMPARE(once.turn(turn).size(), std::size_t{(3000 + 1200) * 48});
    }
};

QTEST_APPLESS_MAIN(TestMeasuredHome)
#include "test_measured_home.moc"
