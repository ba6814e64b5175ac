#include "common/signal/room_gain.h"

#include "common/signal/level.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

namespace vh
{

namespace
{

constexpr std::size_t kPiece = 10; ///< frames
/// The low band's filter rings for some 30 ms, and where a voice begins or ends is not known to the frame.
constexpr std::size_t kVoiceEdge = 6;
constexpr std::size_t kPauseEdge = 30;
constexpr std::size_t kLeastVoice = 6;
constexpr std::size_t kLeastPause = 6; ///< less is a breath within a spell
constexpr std::size_t kLeastRoom = 8;
constexpr float kWeightAtMost = 25;
constexpr float kCutAway = -115; ///< dB; no microphone's band is so silent of itself

constexpr float kUnderDb = 2.5F;
constexpr float kUnderMedianDb = 1;
constexpr float kRestlessShare = 0.5F;
/// Breath blown on a microphone is in the band, too, and comes and goes with the voice.
constexpr float kGatesDb = 25;
constexpr std::size_t kGatesSpells = 3;
constexpr float kSinceDb = 1.2F;
constexpr float kSinceLowDb = 1.0F;
/// A gain moves the band as much as all else; a whistle that ends moves only one of them.
constexpr float kSinceShare = 0.4F;
constexpr float kSteadyDb = 2.5F;

/// Sorted figures of some pieces.
struct Figures {
    std::array<float, 128> values{};
    std::size_t count = 0;

    template <class Pieces, class Piece>
    Figures(const Pieces& pieces, float Piece::*figure) : count(pieces.size())
    {
        static_assert(std::tuple_size_v<decltype(pieces.all)> <= 128);
        for (std::size_t i = 0; i < count; ++i)
            values[i] = pieces.all[i].*figure;
        std::sort(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(count));
    }
    [[nodiscard]] float quantile(float share) const
    {
        return values[static_cast<std::size_t>(share * static_cast<float>(count - 1))];
    }
    /// Of the middle three fifths: a slam or a step spoils none.
    [[nodiscard]] float middle() const
    {
        float sum = 0;
        const std::size_t edge = count / 5;
        for (std::size_t i = edge; i < count - edge; ++i)
            sum += values[i];
        return sum / static_cast<float>(count - 2 * edge);
    }
};

} // namespace

void RoomGain::take(const VoiceFrame& frame, bool room)
{
    if (frame.blank == Blank::noSignal)
        return;
    const auto piece = cut(frame);
    if (piece && frame.voiced)
        takeVoice(*piece);
    else if (piece)
        takePause(*piece, room);
}

std::optional<RoomGain::Piece> RoomGain::cut(const VoiceFrame& frame)
{
    if (frame.voiced != m_voiced) {
        m_voiced = frame.voiced;
        m_run = m_filled = 0;
        m_low = m_audible = 0;
        m_waiting.reset();
    }
    if (++m_run <= (m_voiced ? kVoiceEdge : kPauseEdge))
        return std::nullopt;
    m_low += static_cast<double>(frame.lowMeanSquare);
    m_audible += static_cast<double>(frame.meanSquareA);
    std::optional<Piece> out;
    if (++m_filled == kVoiceEdge)
        out = std::exchange(m_waiting, std::nullopt);
    if (m_filled == kPiece) {
        m_waiting = Piece{static_cast<float>(dbOfMeanSquare(m_low / kPiece)),
                          static_cast<float>(dbOfMeanSquare(m_audible / kPiece))};
        m_low = m_audible = 0;
        m_filled = 0;
    }
    return out;
}

void RoomGain::takeVoice(const Piece& piece)
{
    if (!m_pauseIsOver) { // another spell, or the same one after a breath
        if (m_beside.size() >= kLeastPause) {
            if (const auto spell = spellThatIsOn())
                m_spells[m_spellCount++ % kSpells] = *spell;
            m_under = {};
        }
        if (m_under.count == 0)
            m_before = m_beside;
        m_beside = {};
        m_pauseIsOver = true;
    }
    m_under.push(piece);
}

void RoomGain::takePause(const Piece& piece, bool room)
{
    m_pauseIsOver = false;
    m_beside.push(piece);
    if (room)
        m_room.push(piece);
    else
        m_pauses.push(piece);
}

std::optional<RoomGain::Spell> RoomGain::spellThatIsOn() const
{
    const bool before = m_before.size() >= kLeastPause;
    const bool after = !m_pauseIsOver && m_beside.size() >= kLeastPause;
    if (m_under.size() < kLeastVoice || (!before && !after))
        return std::nullopt;
    const float first = before ? Figures(m_before, &Piece::lowDb).middle() : 0;
    const float second = after ? Figures(m_beside, &Piece::lowDb).middle() : first;
    const float beside = before ? (first + second) / 2 : second;
    const float under = Figures(m_under, &Piece::lowDb).middle();
    if (under < kCutAway)
        return std::nullopt;
    return Spell{beside - under, std::min(static_cast<float>(m_under.size()), kWeightAtMost),
                 before ? std::abs(first - second) : 0};
}

RoomGain::Under RoomGain::under() const
{
    std::array<Spell, kSpells + 1> all{};
    std::size_t count = std::min(m_spellCount, kSpells);
    std::copy_n(m_spells.begin(), count, all.begin());
    if (const auto on = spellThatIsOn())
        all[count++] = *on;
    if (count == 0)
        return {};
    const auto spells = std::span(all).first(count);
    std::sort(spells.begin(), spells.end(), [](const Spell& a, const Spell& b) { return a.underDb < b.underDb; });
    float sum = 0;
    float weight = 0;
    float restless = 0;
    for (const Spell& spell : spells) {
        sum += spell.weight * spell.underDb;
        weight += spell.weight;
        restless += spell.restlessDb / static_cast<float>(count);
    }
    return {count, sum / weight, spells[(count - 1) / 2].underDb, spells.back().underDb, restless};
}

std::optional<RoomGain::Since> RoomGain::since() const
{
    if (m_room.size() < kLeastRoom || m_pauses.size() < kLeastRoom)
        return std::nullopt;
    const Figures roomLow(m_room, &Piece::lowDb);
    const Figures roomAudible(m_room, &Piece::audibleDb);
    const Figures pauseLow(m_pauses, &Piece::lowDb);
    const Figures pauseAudible(m_pauses, &Piece::audibleDb);
    constexpr float kQuiet = 0.3F;
    return Since{roomLow.middle() - pauseLow.middle(), roomAudible.quantile(kQuiet) - pauseAudible.quantile(kQuiet),
                 roomAudible.quantile(0.5F) - roomAudible.quantile(0.1F) < kSteadyDb};
}

RoomGain::Finding RoomGain::finding() const
{
    const Under now = under();
    if (now.spells >= kGatesSpells && now.mostDb < -kGatesDb)
        return Finding::gates;
    const float chance = kRestlessShare * now.restlessDb;
    if (now.spells >= 2 && now.meanDb > kUnderDb + chance && now.medianDb > kUnderMedianDb + chance / 2)
        return Finding::rides;
    const auto turned = since();
    if (turned && turned->steady && turned->audibleDb > kSinceDb && turned->lowDb > kSinceLowDb &&
        turned->lowDb > kSinceShare * turned->audibleDb)
        return Finding::rides;
    return Finding::nothing;
}

} // namespace vh
