#include "demo/chorus/canned.h"
#include "demo/chorus/turns.h"

#include <algorithm>
#include <utility>

namespace vh::chorus
{

namespace
{

class CannedTurns final : public Turns
{
public:
    CannedTurns(Character character, std::uint64_t seed) : m_character(character), m_seed(seed) {}

    void begin(const TurnBegun& turn) override { m_turn = turn; }
    void isToLast(Millis length) override
    {
        if (m_turn)
            m_turn->moment.length = length;
    }
    std::optional<Reading> reading(Millis spent) override
    {
        return m_turn ? std::optional(cannedReading(m_character, momentAt(spent), m_seed)) : std::nullopt;
    }
    void end(Millis spent) override
    {
        if (!m_turn)
            return;
        const Moment moment = momentAt(spent);
        const float offset = m_turn->bandOffsetDb;
        m_turn.reset();
        onOver(
            {moment, offset,
             TurnResult{cannedReading(m_character, moment, m_seed), cannedSurroundings(m_character, moment, m_seed)}});
    }
    void forget() override { m_turn.reset(); }

private:
    [[nodiscard]] Moment momentAt(Millis spent) const
    {
        Moment moment = m_turn->moment;
        moment.elapsed = std::max(spent - m_turn->from, Millis{0});
        return moment;
    }

    Character m_character;
    std::uint64_t m_seed;
    std::optional<TurnBegun> m_turn;
};

} // namespace

std::unique_ptr<Turns> cannedTurns(Character character, std::uint64_t seed)
{
    return std::make_unique<CannedTurns>(character, seed);
}

} // namespace vh::chorus
