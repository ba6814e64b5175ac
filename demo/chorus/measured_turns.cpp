#include "demo/chorus/measured_turns.h"

#include "demo/chorus/seeded.h"

#include <algorithm>

namespace vh::chorus
{

namespace
{

constexpr std::size_t kSamplesInFrame = 480; ///< at 48 kHz

std::size_t framesIn(Millis length)
{
    return static_cast<std::size_t>(length.count() / VoiceFrame::kMilliseconds);
}

std::uint64_t seedOf(std::uint64_t home, const Place& place)
{
    return mixed({home, place.section, place.step, place.round, place.turn});
}

} // namespace

MeasuredTurns::MeasuredTurns(std::shared_ptr<Setting> setting, Character character, std::uint64_t seed)
    : m_setting(std::move(setting)), m_seed(seed), m_character(character)
{
}

/// Three seconds of the room and some lines, then whatever comes on in the room afterwards.
void MeasuredTurns::checkMicrophone()
{
    submit([character = m_character, seed = m_seed] {
        auto sound = std::make_shared<const HomeSound>(character, seed);
        auto ears = std::make_shared<HomeEars>(sound->person().gainRiding);
        const HomeEars::Checked checked = ears->check(sound->micCheck());
        const std::vector<VoiceFrame> later = ears->listen(sound->afterCheck());
        return [sound, ears, checked, later](MeasuredTurns& self) {
            self.m_sound = sound;
            self.m_ears = ears;
            self.m_checked = checked;
            self.m_meter.setRoom(checked.roomDbfsA);
            if (!checked.usualDbfsA)
                return;
            self.m_meter.voiceWasHeard();
            self.m_meter.setUsuals(
                {{TaskKind::phrases, withValue({}, *checked.usualDbfsA, self.m_setting->clock.now())}});
            for (const VoiceFrame& frame : later)
                self.m_meter.add(frame);
        };
    });
}

bool MeasuredTurns::isSpoken(TurnKind kind) const
{
    return m_setting->voices != Voices::whenAlone || kind == TurnKind::yours;
}

/// What a job gives back runs on the loop, unless the home has gone meanwhile.
void MeasuredTurns::submit(std::function<std::function<void(MeasuredTurns&)>()> job)
{
    m_busy = m_setting->workers->submit([&loop = m_setting->loop, self = weak_from_this(), job = std::move(job)] {
        loop.post([self, after = job()] {
            const auto home = self.lock();
            if (!home)
                return;
            home->m_busy = false;
            after(*home);
            home->settle();
            home->work();
        });
    });
}

TurnToSay MeasuredTurns::toSay(const TurnBegun& turn) const
{
    TurnToSay say;
    say.moment = turn.moment;
    say.seed = seedOf(m_seed, turn.place.place);
    if (const auto at = turnAt(*turn.script, turn.place.place))
        say.line = lineFor(turn.moment.section, *at->step, turn.moment.length, say.seed);
    return say;
}

/// The next job, if none is on: the mic check, else what the oldest waiting turn needs, else what is expected.
void MeasuredTurns::work()
{
    if (m_busy || !m_setting->workers)
        return;
    if (!m_checked)
        return checkMicrophone();
    const auto waiting = std::find_if(m_open.begin(), m_open.end(), [](const Turn& each) { return !each.frames; });
    if (waiting != m_open.end())
        makeTurn(*waiting);
    else if (!m_open.empty() && !m_open.back().ended && m_open.back().made < m_open.back().begun.moment.length)
        makeRest(m_open.back());
    else if (m_expected)
        makeExpected();
}

void MeasuredTurns::makeTurn(const Turn& turn)
{
    const TurnBegun& begun = turn.begun;
    const bool known = m_prepared && m_prepared->place == begun.place.place && m_prepared->script == begun.script;
    const Millis made = known ? m_prepared->length : begun.moment.length;
    const Samples samples = known ? m_prepared->samples : nullptr;
    m_prepared.reset();
    submit([sound = m_sound, ears = m_ears, say = toSay(begun), number = turn.number, samples, made] {
        auto frames = ears->listen(samples ? *samples : sound->turn(say));
        const Millis spoken = samples ? Millis{0} : HomeSound::kLeadIn + say.moment.length;
        return [number, spoken, made, frames = std::move(frames)](MeasuredTurns& self) mutable {
            self.m_setting->totals.spoken += spoken;
            self.heard(number, std::move(frames), made);
        };
    });
}

/// The time that a turn was given while it was on: said once more, without the breath before it.
void MeasuredTurns::makeRest(const Turn& turn)
{
    TurnToSay say = toSay(turn.begun);
    const Millis whole = turn.begun.moment.length;
    say.moment.length = whole - turn.made;
    submit([sound = m_sound, ears = m_ears, say, number = turn.number, whole] {
        std::vector<float> samples = sound->turn(say);
        const auto lead = static_cast<std::ptrdiff_t>(framesIn(HomeSound::kLeadIn) * kSamplesInFrame);
        samples.erase(samples.begin(), samples.begin() + std::min(lead, std::ssize(samples)));
        return
            [number, whole, frames = ears->listen(samples), spoken = say.moment.length](MeasuredTurns& self) mutable {
                self.m_setting->totals.spoken += spoken;
                self.heard(number, std::move(frames), whole);
            };
    });
}

void MeasuredTurns::makeExpected()
{
    const TurnBegun next = *std::exchange(m_expected, std::nullopt);
    submit([sound = m_sound, say = toSay(next), place = next.place.place, script = next.script] {
        auto samples = std::make_shared<const std::vector<float>>(sound->turn(say));
        return [=](MeasuredTurns& self) {
            self.m_setting->totals.spoken += HomeSound::kLeadIn + say.moment.length;
            self.m_prepared = Prepared{place, script, say.moment.length, samples};
        };
    });
}

void MeasuredTurns::expect(const TurnBegun& turn)
{
    const bool known = m_prepared && m_prepared->place == turn.place.place && m_prepared->script == turn.script;
    if (!isSpoken(turn.moment.turn) || known)
        return;
    m_expected = turn;
    work();
}

void MeasuredTurns::begin(const TurnBegun& turn)
{
    Turn fresh;
    fresh.number = ++m_turns;
    fresh.begun = turn;
    if (!isSpoken(turn.moment.turn)) {
        fresh.frames.emplace();
        fresh.made = Millis::max();
    }
    if (m_expected && m_expected->place.place == turn.place.place)
        m_expected.reset();
    m_open.push_back(std::move(fresh));
    if (m_open.back().frames)
        startFeeding(m_open.back());
    work();
}

void MeasuredTurns::isToLast(Millis length)
{
    if (m_open.empty() || m_open.back().ended)
        return;
    Turn& turn = m_open.back();
    turn.begun.moment.length = turn.begun.place.turnLength = length;
    if (&turn == &m_open.front() && turn.frames)
        followTurn(turn);
    work();
}

void MeasuredTurns::heard(std::uint64_t number, std::vector<VoiceFrame> frames, Millis made)
{
    const auto turn =
        std::find_if(m_open.begin(), m_open.end(), [number](const Turn& each) { return each.number == number; });
    if (turn == m_open.end())
        return; // of a class that is no more, or of time that came too late
    turn->made = made;
    if (turn->frames) {
        turn->frames->insert(turn->frames->end(), frames.begin(), frames.end());
        return;
    }
    turn->frames = std::move(frames);
    startFeeding(*turn);
}

/// Only the oldest is fed; the others wait until it is over.
void MeasuredTurns::startFeeding(Turn& turn)
{
    if (&turn != &m_open.front())
        return;
    const std::vector<VoiceFrame>& frames = *turn.frames;
    const std::size_t lead = std::min(framesIn(HomeSound::kLeadIn), frames.size());
    for (std::size_t i = 0; i < lead; ++i)
        m_meter.add(frames[i]);
    followTurn(turn);
    turn.fed = std::min(lead + framesIn(turn.begun.from), frames.size());
}

void MeasuredTurns::followTurn(const Turn& turn)
{
    wire::PlaceNow place = turn.begun.place;
    place.phase = Phase::running; // whether the clock is held is in how far the turn has gone
    m_meter.follow(place, *turn.begun.script, turn.begun.bandOffsetDb, m_setting->clock.now());
}

void MeasuredTurns::feed(Turn& turn, Millis spent)
{
    const std::vector<VoiceFrame>& frames = *turn.frames;
    const std::size_t until = std::min(framesIn(HomeSound::kLeadIn + spent), frames.size());
    for (; turn.fed < until; ++turn.fed)
        m_meter.add(frames[turn.fed]);
}

std::optional<Reading> MeasuredTurns::reading(Millis spent)
{
    if (m_open.size() != 1 || !m_open.front().frames || m_open.front().ended)
        return std::nullopt;
    feed(m_open.front(), spent);
    return m_meter.takeReading();
}

void MeasuredTurns::end(Millis spent)
{
    if (m_open.empty() || m_open.back().ended)
        return;
    m_open.back().ended = spent;
    settle();
}

/// Closes, oldest first, what has ended and has been heard.
void MeasuredTurns::settle()
{
    while (!m_open.empty() && m_open.front().frames && m_open.front().ended) {
        Turn turn = std::move(m_open.front());
        m_open.pop_front();
        feed(turn, *turn.ended);
        wire::PlaceNow over = turn.begun.place;
        over.phase = Phase::ended;
        m_meter.follow(over, *turn.begun.script, turn.begun.bandOffsetDb, m_setting->clock.now());
        TurnOver told{turn.begun.moment, turn.begun.bandOffsetDb, m_meter.takeResult()};
        told.moment.elapsed = std::max(*turn.ended - turn.begun.from, Millis{0});
        if (!m_open.empty() && m_open.front().frames)
            startFeeding(m_open.front());
        onOver(told);
    }
}

void MeasuredTurns::forget()
{
    m_open.clear();
    m_expected.reset();
    m_prepared.reset();
}

} // namespace vh::chorus
