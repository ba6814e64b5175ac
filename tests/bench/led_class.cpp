#include "tests/bench/led_class.h"

#include "common/live/class_lead.h"
#include "common/live/class_moves.h"

#include <algorithm>
#include <cmath>

namespace vh::bench
{

namespace
{

constexpr Millis kBeforeTheEnd{200}; // the press that holds the clock comes so long before the turn is over
constexpr Millis kSignOfLife{5'000};
constexpr double kThreeQuarters = 0.674; // of a normal distribution lie below so many standard deviations
constexpr double kNineTenths = 1.282;

/// The text itself is what takes the time: it is read. Else the clock gives the time (a held sound, movement, talk).
bool isRead(const TurnAt& at)
{
    const TurnKind turn = at.turn->kind;
    switch (at.section->kind) {
    case SectionKind::pause:
        return false;
    case SectionKind::warmUp: // movements; and hums, held as long as the clock says
        return false;
    case SectionKind::sustainedVowel:
    case SectionKind::pitchGlide:
    case SectionKind::categoryNaming:
    case SectionKind::openTalk:
        // The first time she says what it is about; then she only shows the sound.
        return turn == TurnKind::listen && at.round == &at.step->rounds.front() &&
               at.step->text.find(' ') != std::string::npos;
    default:
        return turn != TurnKind::ready;
    }
}

class Leading
{
public:
    Leading(const ClassScript& script, ReadAloud& readAloud, const LeaderManner& manner)
        : m_script(script), m_readAloud(readAloud), m_manner(manner)
    {
        m_state = openClass(script, 1, m_who, {}, m_clock.now());
    }

    Result<LedClass> run()
    {
        press(CommandKind::start);
        while (m_state.phase != Phase::ended) {
            const auto at = turnAt(m_script, m_state.place);
            const auto needed = need(*at);
            if (!needed)
                return tl::unexpected(needed.error());
            goThrough(*at, *needed);
        }
        m_led.actual = *m_state.endedAt - *m_state.startedAt;
        return m_led;
    }

private:
    struct Need {
        bool read = false;
        Millis most{0}; ///< until three quarters of the people are done
        Millis all{0};  ///< until nine in ten are
    };

    Result<Need> need(const TurnAt& at)
    {
        if (!isRead(at))
            return Need{};
        const auto spoken = m_readAloud.of(at.step->text, m_script.language, m_manner.wordsPerMinute);
        if (!spoken)
            return tl::unexpected(spoken.error());
        const Millis text = *spoken + m_manner.heldVowel * static_cast<std::int64_t>(at.step->stretches.size());
        if (at.turn->kind == TurnKind::listen)
            return Need{true, m_manner.onset + text, m_manner.onset + text};
        const auto of = [&](double deviations) {
            const double slower = std::exp(m_manner.paceSpread * deviations);
            return m_manner.onset + Millis{std::llround(static_cast<double>(text.count()) * slower)};
        };
        return Need{true, of(kThreeQuarters), of(kNineTenths)};
    }

    void goThrough(const TurnAt& at, const Need& needed)
    {
        const std::uint32_t turn = m_state.turnSerial;
        const Instant began = m_state.turnStartedAt;
        const Millis length = m_state.turnLength;
        const bool last = &at.round->turns.back() == at.turn;
        if (needed.read)
            m_led.read.add(at.section->kind, partOf(at.turn->kind), length, needed.most);
        if (needed.read && needed.most > length) {
            runUntil(began + length - kBeforeTheEnd);
            press(CommandKind::wait);
            runUntil(began + needed.most + m_manner.reaction);
            press(CommandKind::resume);
            ++m_led.holds;
        } else if (const Millis early = needed.all + m_manner.beat + m_manner.reaction;
                   needed.read && last && early < length && nextRound(m_script, m_state.place)) {
            runUntil(began + early);
            press(CommandKind::goOn);
            ++m_led.goneOn;
        }
        while (m_state.phase != Phase::ended && m_state.turnSerial == turn)
            runUntil(m_state.turnStartedAt + m_state.turnLength);
    }

    void runUntil(Instant until)
    {
        while (m_clock.now() < until) {
            m_clock.advance(std::min<Millis>(until - m_clock.now(), kSignOfLife));
            m_state = leaderSeen(m_script, m_state, m_who, m_clock.now());
            see();
        }
    }

    void press(CommandKind kind)
    {
        m_state =
            apply(m_script, m_state, {kind, m_who, m_state.lease.epoch, m_state.serial, {}, {}, {}}, m_clock.now())
                .state;
        see();
    }

    void see() { note(m_led.trace, {m_clock.now(), m_state.phase, m_state.place}); }

    const ClassScript& m_script;
    ReadAloud& m_readAloud;
    LeaderManner m_manner;
    HandClock m_clock;
    PersonId m_who;
    ClassState m_state;
    LedClass m_led;
};

} // namespace

Result<LedClass> lead(const ClassScript& script, ReadAloud& readAloud, const LeaderManner& manner)
{
    return Leading(script, readAloud, manner).run();
}

} // namespace vh::bench
