// What a leader does with the people, without a widget: private words within agreements and once, bands by steps that
// can be undone, nothing of anybody while covered, and the line about a large group.
#include "app/lead/group_line.h"
#include "app/lead/lead_model.h"
#include "app/lead/sound_check.h"
#include "app/lead/worth_words.h"
#include "tests/app/lead/lead_fixture.h"

#include <QTest>

using namespace vh;
using namespace vh::lead;
using namespace vh::testing;

namespace
{

PersonId personOf(std::uint32_t seat)
{
    PersonId person;
    person.bits.bytes[0] = static_cast<std::uint8_t>(seat + 1);
    return person;
}

wire::SeatName seatOf(std::uint32_t seat, const char* name, Addressed addressed, float offset = 0)
{
    return {seat, personOf(seat), name, true, offset, addressed};
}

/// In class, with Ruth (prompts too), Wim (kind words) and Ivo (not at all).
LeadModel leading()
{
    LeadModel model;
    wire::Welcome welcome = welcomeOf(Role::leader);
    welcome.person = personOf(200);
    model.setLine(LeadModel::LineNow::up);
    model.take(wire::ToClient(welcome), kStart);
    wire::ClassOpen open;
    open.classId = kClass;
    open.title = "Bread";
    model.take(wire::ToClient(open), kStart);
    model.setScript(smallScript());
    wire::Seats seats{true,
                      {seatOf(0, "Ruth", Addressed::prompts), seatOf(1, "Wim", Addressed::kind),
                       seatOf(2, "Ivo", Addressed::notAtAll)}};
    model.take(wire::ToClient(seats), kStart);
    model.take(wire::ToClient(placeAt(1, Phase::running, {0, 0, 0, 1}, kStart, Millis{6000})), kStart);
    model.take(wire::ToClient(leaseOf(true)), kStart);
    return model;
}

HallState hallOf(LeadModel& model)
{
    return model.view(kStart, {}, nullptr).hall;
}

wire::WorthNow worthOf(std::initializer_list<std::pair<std::uint32_t, WorthReason>> people)
{
    wire::WorthNow worth;
    for (const auto& [seat, reason] : people)
        worth.people.push_back({seat, personOf(seat), reason, 0, 3});
    return worth;
}

} // namespace

class TestHallModel : public QObject
{
    Q_OBJECT
private slots:
    void worthAWordStandsAsTheHallSaysIt()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(worthOf({{1, WorthReason::easyForTheFirstTime}, {0, WorthReason::noVoiceSince}})),
                   kStart);
        const auto lines = hallOf(model).worth;
        QCOMPARE(lines.size(), std::size_t{2});
        QCOMPARE(lines[0].words.front(), QString("Wim: easy to hear in all three, for the first time today"));
        QCOMPARE(lines[1].words.front(), QString("Ruth: no voice heard since Warm loaves; the microphone works"));
        model.take(wire::ToClient(wire::WorthNow{}), kStart);
        QVERIFY(hallOf(model).worth.empty());
    }

    void everyReasonHasWordsAndAWordThatFitsTheWire()
    {
        for (const WorthReason reason :
             {WorthReason::easyForTheFirstTime, WorthReason::moreVoiceWorked, WorthReason::noVoiceSince,
              WorthReason::easeOff, WorthReason::fading, WorthReason::aLittleMore})
            for (const QString& section : {QString(), QStringLiteral("Across the water")}) {
                const QStringList words = worthWords("Ruth", reason, 3, section);
                QVERIFY(words.size() >= 2);
                for (qsizetype i = 1; i < words.size(); ++i)
                    QVERIFY(words[i].size() < words[i - 1].size()); // each shorter than the one before
                for (const QString& line : words)
                    QVERIFY(line.startsWith("Ruth: ") && !line.contains("%"));
                QVERIFY(!wordFor(reason).isEmpty());
                QVERIFY(wordFor(reason).toUtf8().size() <= static_cast<qsizetype>(wire::kWordLength));
            }
    }

    void oneKeySendsAPrivateWordOnce()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(worthOf({{1, WorthReason::easyForTheFirstTime}})), kStart);
        const auto word = model.hall().worthWord(0);
        QVERIFY(word);
        QCOMPARE(word->person, personOf(1));
        QCOMPARE(word->kind, WordKind::kind);
        QVERIFY(!model.hall().worthWord(0)); // a second press says nothing twice
        QVERIFY(!model.hall().worthWord(1)); // no such line
        QVERIFY(!model.hall().worthWord(-1));
        QVERIFY(hallOf(model).worth[0].said);
        model.hall().wordAnswered(personOf(1), nullptr);
        QCOMPARE(hallOf(model).sent, QString("Sent to Wim."));
    }

    void aRefusedWordSaysWhyAndMayBeTriedAgain()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(worthOf({{1, WorthReason::easyForTheFirstTime}})), kStart);
        QVERIFY(model.hall().worthWord(0));
        const Error away{"not-here", "This person is not here now.", "person"};
        model.hall().wordAnswered(personOf(1), &away);
        QCOMPARE(hallOf(model).sent, QString("Not sent: Wim is not here just now."));
        QVERIFY(!hallOf(model).worth[0].said);
        QVERIFY(model.hall().worthWord(0));
        const Error refused{"not-agreed", "This person has not agreed to be addressed so.", "kind"};
        model.hall().wordAnswered(personOf(1), &refused);
        QCOMPARE(hallOf(model).sent, QString("Not sent: Wim has not agreed to be addressed so."));
    }

    void wordsAreOfferedWithinWhatWasAgreed_data()
    {
        QTest::addColumn<int>("seat");
        QTest::addColumn<int>("words");
        QTest::newRow("prompts too") << 0 << 6;
        QTest::newRow("kind words") << 1 << 3;
        QTest::newRow("not at all") << 2 << 0;
    }
    void wordsAreOfferedWithinWhatWasAgreed()
    {
        QFETCH(int, seat);
        QFETCH(int, words);
        LeadModel model = leading();
        model.hall().openSeat(seat);
        const auto panel = hallOf(model).panel;
        QVERIFY(panel);
        QCOMPARE(static_cast<int>(panel->words.size()), words);
        int sent = 0;
        for (int which = 0; which < static_cast<int>(ownWords().size()); ++which)
            sent += model.hall().ownWord(which).has_value();
        QCOMPARE(sent, words); // also whoever asks past the screen
    }

    void aBandMovesByStepsAndComesBack()
    {
        LeadModel model = leading();
        QVERIFY(!model.hall().moveBand(BandMove::askMore)); // no seat is open
        model.hall().openSeat(0);
        QVERIFY(!model.hall().moveBand(BandMove::undo)); // nothing to undo
        QVERIFY(!model.hall().moveBand(BandMove::asUsual));
        QCOMPARE(model.hall().moveBand(BandMove::askMore)->offsetDb, 1.0F);
        QCOMPARE(model.hall().moveBand(BandMove::askMore)->offsetDb, 2.0F); // before the first was answered
        QCOMPARE(hallOf(model).panel->band, QString("Asked: 2 dB more than usual"));
        model.hall().bandAnswered(personOf(0), nullptr);
        model.hall().bandAnswered(personOf(0), nullptr);
        QCOMPARE(hallOf(model).panel->band, QString("Asked: 2 dB more than usual"));
        QCOMPARE(hallOf(model).panel->row.band.easyFromDb, 5.0F);
        QCOMPARE(model.hall().moveBand(BandMove::undo)->offsetDb, 1.0F);
        QCOMPARE(model.hall().moveBand(BandMove::undo)->offsetDb, 0.0F);
        QVERIFY(!hallOf(model).panel->mayUndo);
        QCOMPARE(model.hall().moveBand(BandMove::askLess)->offsetDb, -1.0F);
        QCOMPARE(model.hall().moveBand(BandMove::asUsual)->offsetDb, 0.0F);
    }

    void aBandStopsAtItsLimitAndARefusalPutsItBack()
    {
        LeadModel model = leading();
        model.hall().openSeat(0);
        for (int i = 0; i < 6; ++i)
            QVERIFY(model.hall().moveBand(BandMove::askLess));
        QVERIFY(!model.hall().moveBand(BandMove::askLess));
        QVERIFY(!hallOf(model).panel->mayAskLess);
        const Error refused{"person-unknown", "Nobody of this group.", {}};
        model.hall().bandAnswered(personOf(0), &refused);
        QCOMPARE(hallOf(model).panel->band, QString("Asked: as usual"));
    }

    void coveredNothingOfAnybodyIsLeft()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(worthOf({{1, WorthReason::easyForTheFirstTime}})), kStart);
        wire::Calls calls;
        wire::Call call;
        call.call = 5;
        call.name = "Ruth";
        calls.calls.push_back(call);
        model.take(wire::ToClient(calls), kStart);
        wire::Door door;
        door.waiting.push_back({9, "Marta", "tablet", kStart, {}});
        model.take(wire::ToClient(door), kStart);
        model.hall().openSeat(0);
        QVERIFY(!model.view(kStart, {}, nullptr).way.code.isEmpty());
        model.hall().toggleCover();
        const LeadView view = model.view(kStart, {}, nullptr);
        HallState nothing;
        nothing.covered = true;
        QCOMPARE(view.hall, nothing);
        QVERIFY(view.way.code.isEmpty() && view.way.link.isEmpty());
        QVERIFY(view.calls.rows.empty() && view.door.rows.empty());
        QCOMPARE(view.coverWords, QString("Somebody needs help. Somebody is at the door."));
        QVERIFY(!view.column.now.text.empty()); // the script stays
        const auto filled = model.view(kStart + kCallFillsAfter, {}, nullptr).filled;
        QVERIFY(filled && !filled->heading.contains("Ruth") && filled->where.isEmpty() && filled->ring.isEmpty());
        model.hall().openSeat(0);
        QVERIFY(!model.hall().worthWord(0)); // a key pressed blindly sends nothing
        QVERIFY(!model.view(kStart, {}, nullptr).hall.panel);
        model.hall().toggleCover();
        QCOMPARE(model.view(kStart, {}, nullptr).hall.seats.size(), std::size_t{3});
        QVERIFY(!model.view(kStart, {}, nullptr).hall.panel); // it was closed, not hidden
    }

    void aStandInHasNoPeople()
    {
        LeadModel model = leading();
        model.take(wire::ToClient(welcomeOf(Role::standIn)), kStart);
        QCOMPARE(model.view(kStart, {}, nullptr).hall, HallState{});
    }

    void sharesAreSpokenAsPeopleDo_data()
    {
        QTest::addColumn<int>("quiet");
        QTest::addColumn<int>("before");
        QTest::addColumn<QString>("line");
        QTest::newRow("hardly") << 2 << -1 << "Hardly anybody is quiet.";
        QTest::newRow("a quarter, more") << 24 << 10 << "About a quarter are quiet, more than at Counting.";
        QTest::newRow("a third, as before") << 35 << 31 << "About a third are quiet, as at Counting.";
        QTest::newRow("half, fewer") << 52 << 80 << "About half are quiet, fewer than at Counting.";
        QTest::newRow("all") << 96 << -1 << "Nearly everybody is quiet.";
    }
    void sharesAreSpokenAsPeopleDo()
    {
        QFETCH(int, quiet);
        QFETCH(int, before);
        QFETCH(QString, line);
        const auto counts = [](int less) { return SeatCounts{100, 100 - less, less, 0}; };
        QCOMPARE(groupLine(counts(quiet), before < 0 ? SeatCounts{} : counts(before), before < 0 ? "" : "Counting"),
                 line);
        QVERIFY(groupLine({100, 4, 2, 0}, {}, {}).startsWith("Too few"));
    }

    void theSoundCheckGoesFromTheRoomToHerVoice()
    {
        MicCheck check;
        VoiceFrame frame;
        frame.fastDbfsA = frame.noiseFloorDbfsA = -70;
        frame.meanSquareA = 1e-7F;
        const LevelBar::State level{"Not heard yet", -70.0F};
        QVERIFY(soundCheckView(check, sound::EarsState::hearing, level, VoiceWay::voicehall).heading.contains("quiet"));
        QVERIFY(
            soundCheckView(check, sound::EarsState::noDevice, level, VoiceWay::voicehall).heading.contains("No sound"));
        while (check.stage() == MicCheck::Stage::room)
            check.add(frame);
        QVERIFY(soundCheckView(check, sound::EarsState::hearing, level, VoiceWay::voicehall).heading.contains("speak"));
        frame.voiced = true;
        frame.fastDbfsA = -30;
        frame.meanSquareA = 1e-3F;
        for (int i = 0; i < 3000 && check.stage() != MicCheck::Stage::done; ++i)
            check.add(frame);
        const SoundCheckView done = soundCheckView(check, sound::EarsState::hearing, level, VoiceWay::voicehall);
        QVERIFY(done.done);
        QCOMPARE(done.heading, QString("Your microphone works"));
        QVERIFY(done.words.startsWith("Nobody hears you yet."));
        QVERIFY(soundCheckView(check, sound::EarsState::hearing, level, VoiceWay::elsewhere)
                    .words.contains("does not carry your voice"));
        QCOMPARE(done.facts.size(), std::size_t{3});
    }

    void aClippedVoiceIsToldAboutItsMicrophone()
    {
        MicCheck check;
        VoiceFrame frame;
        frame.meanSquareA = 1e-7F;
        while (check.stage() == MicCheck::Stage::room)
            check.add(frame);
        frame.voiced = true;
        frame.fastDbfsA = -3;
        frame.meanSquareA = 0.5F;
        frame.blank = Blank::clipping;
        for (int i = 0; i < 3000 && check.stage() != MicCheck::Stage::done; ++i)
            check.add(frame);
        const SoundCheckView done = soundCheckView(check, sound::EarsState::hearing, {}, VoiceWay::voicehall);
        QCOMPARE(done.facts[2].found, QString("yes, for this microphone: turn its input down"));
    }
};

QTEST_APPLESS_MAIN(TestHallModel)
#include "test_hall_model.moc"
