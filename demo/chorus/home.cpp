#include "demo/chorus/home.h"

#include "common/live/share.h"
#include "demo/chorus/first_names.h"
#include "demo/chorus/measured_turns.h"
#include "demo/chorus/seeded.h"

#include <algorithm>
#include <array>

namespace vh::chorus
{

namespace
{

constexpr std::array<std::string_view, 8> kLines{
    "Good morning from a rainy kitchen.",        "My cat has come to listen as well.",
    "That last one felt easier than yesterday.", "Could we do the counting twice?",
    "The tomatoes on the balcony are turning.",  "I rang my sister and she heard every word.",
    "A glass of water beside me, as always.",    "Greetings to everybody on this street.",
};

constexpr std::array<std::string_view, 4> kPlaces{"at home, in the kitchen", "at my daughter's, ground floor",
                                                  "at home, by the window", "in the garden room"};

/// Between one line of somebody who writes a lot and the next.
constexpr std::uint32_t kWritesEveryTurns = 3;
/// The voiced turn after which somebody whose line drops loses it, and after which somebody calls for help.
constexpr std::uint32_t kDropsAfterTurn = 2;
constexpr std::uint32_t kCallsAfterTurn = 2;

} // namespace

HomePlan planOf(std::uint32_t index, std::uint64_t chorusSeed)
{
    HomePlan plan;
    plan.index = index;
    plan.seed = mixed({chorusSeed, index});
    plan.name = firstName(index, chorusSeed);
    plan.character = characterOf(index);
    plan.agreements = agreementsOf(plan.character, plan.seed);
    plan.voice = voiceToday(plan.character, plan.seed);
    return plan;
}

Home::Home(std::shared_ptr<Setting> setting, HomePlan plan, std::string code)
    : Line(std::move(setting), {plan.name, std::move(code), {}, Role::participant}, mixed({plan.seed, 0x6C696E65})),
      m_plan(std::move(plan))
{
    if (this->setting().voices == Voices::canned) {
        m_turns = cannedTurns(m_plan.character, m_plan.seed);
    } else {
        auto measured = std::make_shared<MeasuredTurns>(sharedSetting(), m_plan.character, m_plan.seed);
        measured->start();
        m_turns = measured;
    }
    m_invited = std::make_shared<Invited>(*this, sharedSetting(), m_plan.character, m_plan.seed);
    m_turns->onOver = [this](const TurnOver& turn) { turnIsOver(turn); };
}

void Home::cameIn(const wire::Welcome& welcome)
{
    totals().homesIn += !std::exchange(m_counted, true);
    m_hearing.lineIsNew(welcome);
    m_invited->lineIsNew(welcome);
    answerAgreements(welcome);
    say(wire::Today{m_plan.voice, true});
    m_bandOffsetDb = welcome.bandOffsetDb;
    if (welcome.open)
        classOpened(*welcome.open);
    if (welcome.place) {
        follow(*welcome.place);
    } else if (m_place) { // the class ended meanwhile
        if (m_turn)
            finishTurn(spentAt(relayTime(now())));
        m_place.reset();
    }
    // Not all four times a second in the same moment.
    m_nextReading = now() + Millis{mixed({m_plan.seed, 0x70686173}) % 250};
}

void Home::answerAgreements(const wire::Welcome& welcome)
{
    if (hasOpenRequests())
        return; // on their way already
    for (const AgreementKind kind : kAgreementKinds) {
        const std::string_view value = valueOf(m_plan.agreements, kind);
        const bool known = std::any_of(welcome.agreements.begin(), welcome.agreements.end(),
                                       [&](const auto& each) { return each.kind == kind && each.value == value; });
        if (!known)
            ask(wire::Agree{{}, kind, std::string(value), 1});
    }
    if (welcome.where.empty())
        ask(wire::Contact{{},
                          std::string(kPlaces[m_plan.seed % kPlaces.size()]),
                          "neighbour, 555 01" + std::to_string(10 + m_plan.seed % 90)});
}

void Home::heard(const wire::ToClient& message)
{
    if (const auto* place = std::get_if<wire::PlaceNow>(&message))
        follow(*place);
    else if (const auto* open = std::get_if<wire::ClassOpen>(&message))
        classOpened(*open);
    else if (const auto* voice = std::get_if<wire::VoiceNow>(&message))
        m_hearing.voiceIs(*voice);
    else if (const auto* speaking = std::get_if<wire::Speaking>(&message))
        m_hearing.speakingIs(*speaking), m_invited->told(*speaking);
    else if (const auto* question = std::get_if<wire::InvitedToSpeak>(&message))
        m_invited->asked(*question);
    else if (const auto* band = std::get_if<wire::Band>(&message))
        m_bandOffsetDb = band->offsetDb;
}

void Home::classOpened(const wire::ClassOpen& open)
{
    if (m_class != open.classId) {
        m_class = open.classId;
        m_script = nullptr;
        m_turn.reset();
        m_turns->forget();
        m_place.reset();
        m_judge = {};
        m_turnsOver = 0;
        m_hasDropped = m_hasCalled = false;
    }
    if (open.parts.empty() || (m_script && m_scriptHash == open.parts.front()))
        return;
    m_scriptHash = open.parts.front(); // of a class that was corrected the old one serves until this is there
    say(wire::PartAsk{m_scriptHash});
}

void Home::heardBinary(std::span<const std::uint8_t> frame)
{
    const auto type = wire::binaryTypeOf(frame);
    if (type == static_cast<std::uint8_t>(wire::BinaryType::sound))
        totals().unreadable += !m_hearing.frame(frame, setting().loop.tick(), totals().sound);
    if (type != static_cast<std::uint8_t>(wire::BinaryType::part))
        return;
    const auto part = wire::decodePart(frame);
    if (!part) {
        ++totals().unreadable;
        return;
    }
    if (part->hash != m_scriptHash)
        return;
    m_script =
        setting().scripts.put(part->hash, {reinterpret_cast<const char*>(part->bytes.data()), part->bytes.size()});
    totals().scriptsFetched += m_script != nullptr;
    totals().unreadable += m_script == nullptr;
    beginTurn();
    expectNext();
}

Millis Home::spentAt(Instant relayTime) const
{
    if (m_place->phase != Phase::running)
        return m_place->turnSpent;
    return std::clamp(relayTime - m_place->turnStartedAt, Millis{0}, m_place->turnLength);
}

void Home::follow(const wire::PlaceNow& place)
{
    ++totals().placesSeen;
    if (m_turn && (place.turnSerial != *m_turn || place.phase == Phase::ended)) {
        // The next turn began when this one ended.
        const bool byClock = place.phase == Phase::running && place.turnSerial != *m_turn;
        finishTurn(spentAt(byClock ? place.turnStartedAt : relayTime(now())));
    }
    if (m_turn && m_place && place.turnLength != m_place->turnLength)
        m_turns->isToLast(place.turnLength);
    m_place = place;
    beginTurn();
    expectNext(); // other steps may be left out than before
}

std::optional<TurnBegun> Home::turnFor(const wire::PlaceNow& place) const
{
    const auto at = turnAt(*m_script, place.place);
    if (!at || !isVoiced(at->section->kind, at->turn->kind))
        return std::nullopt;
    TurnBegun turn;
    turn.moment.section = at->section->kind;
    turn.moment.turn = at->turn->kind;
    turn.moment.moreVoice = at->round->moreVoice;
    const std::size_t last = m_script->sections.size() - 1;
    turn.moment.classShare = last > 0 ? static_cast<double>(place.place.section) / static_cast<double>(last) : 0;
    turn.moment.turnSerial = place.turnSerial;
    turn.moment.length = place.turnLength;
    turn.bandOffsetDb = m_bandOffsetDb;
    turn.place = place;
    turn.script = m_script;
    return turn;
}

void Home::beginTurn()
{
    if (!m_script || !m_place || m_turn || m_plan.voice == wire::VoiceToday::listening)
        return;
    if (m_place->phase == Phase::notStarted || m_place->phase == Phase::ended)
        return;
    if (auto turn = turnFor(*m_place)) {
        // Word of a turn comes a little after its beginning; who listens from then on has heard all of it.
        const Millis gone = spentAt(relayTime(now()));
        turn->from = gone > kWholeTurnSlack ? gone : Millis{0};
        m_turn = m_place->turnSerial;
        m_turns->begin(*turn);
    }
}

void Home::expectNext()
{
    if (!m_script || !m_place || m_plan.voice == wire::VoiceToday::listening)
        return;
    wire::PlaceNow next = *m_place;
    const auto place = nextTurn(*m_script, m_place->place, m_place->leftOut);
    if (!place || m_place->phase == Phase::ended)
        return;
    next.place = *place;
    next.turnLength = turnAt(*m_script, *place)->turn->planned;
    if (const auto turn = turnFor(next))
        m_turns->expect(*turn);
}

void Home::finishTurn(Millis spent)
{
    m_turn.reset();
    m_turns->end(spent);
}

void Home::turnIsOver(const TurnOver& turn)
{
    if (turn.result) {
        const std::uint32_t before = m_judge.lastTurnSerial;
        const Moment& moment = turn.moment;
        m_judge = judge(m_judge, {*turn.result, moment.turn, moment.section, moment.length, turn.bandOffsetDb});
        if (resultsGoUp(m_plan.agreements)) {
            m_turnsToldJudged += moment.turn == TurnKind::yours && m_judge.lastTurnSerial != before;
            ++m_resultsMade;
            m_longestResult = std::max(m_longestResult, Millis{turn.result->reading.elapsedMs});
            ++totals().resultsMade;
            wire::TurnDone message;
            message.classId = *m_class;
            message.result = *turn.result;
            m_results.push_back(ask(message));
        }
    }
    actInCharacter();
}

void Home::actInCharacter()
{
    ++m_turnsOver;
    if (m_plan.character == Character::dropsLine && m_turnsOver >= kDropsAfterTurn && !m_hasDropped) {
        m_hasDropped = true;
        drop(); // before the result can be acknowledged
    }
    if (m_plan.character == Character::writesALot && m_turnsOver % kWritesEveryTurns == 1 && !m_writing)
        m_writing = ask(wire::Write{{}, std::string(kLines[(m_plan.seed + m_turnsOver) % kLines.size()])});
    if (m_plan.character == Character::callsForHelp && m_turnsOver >= kCallsAfterTurn && !m_hasCalled) {
        m_hasCalled = true;
        m_calling = ask(wire::HelpCall{});
    }
}

void Home::live(Instant at)
{
    m_invited->beat();
    if (at < m_nextReading)
        return;
    if (m_turn && m_place && m_place->phase == Phase::running && readingsGoUp(m_plan.agreements)) {
        const Millis spent = spentAt(relayTime(at));
        // At its end the word of what comes next is on its way.
        if (spent < m_place->turnLength) {
            const auto reading = m_turns->reading(spent);
            if (!reading)
                return; // soon
            sayBinary(wire::encodeReading(*reading));
            ++totals().readingsSent;
        }
    }
    m_nextReading = std::max(m_nextReading + wire::kReadingEvery, at);
}

void Home::done(const wire::Ack& ack)
{
    totals().resultsAcknowledged += std::erase(m_results, ack.id);
    if (m_writing == ack.id) {
        ++totals().linesWritten;
        m_writing.reset();
    }
    if (m_calling == ack.id) {
        ++totals().helpCalls;
        m_calling.reset();
    }
}

void Home::refused(const wire::Refused& refused)
{
    std::erase(m_results, *refused.id);
    if (m_writing == refused.id)
        m_writing.reset();
}

} // namespace vh::chorus
