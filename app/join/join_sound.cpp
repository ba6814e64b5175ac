#include "app/join/join_sound.h"

#include "app/sound/ears.h"

#include <utility>

namespace vh::join
{

namespace
{

constexpr Millis kFresh{1000};
} // namespace

JoinSound::JoinSound(link::Line& line, const Clock& clock, sound::Ears& ears, sound::DeviceChoice where)
    : m_line(line), m_ears(ears), m_hall(line, clock), m_farEnd(std::make_shared<sound::FarEnd>()), m_feed(m_mix),
      m_loudspeaker(m_feed, m_farEnd), m_elsewhere(m_farEnd), m_copies(ears),
      m_talk(std::make_unique<sound::Talk>(ears, sound::Talk::newStream())), m_where(std::move(where))
{
    m_ears.setFarEnd(m_farEnd);
    connect(&m_hall, &link::HallVoice::soundArrived, this, &JoinSound::soundArrived);
}

JoinSound::~JoinSound()
{
    endSending();
}

bool JoinSound::play(Play what)
{
    const Play before = std::exchange(m_play, what);
    if (before == what)
        return false;
    if (before == Play::voices) {
        m_copies.stop();
        m_loudspeaker.stop();
    } else if (before == Play::elsewhere) {
        m_elsewhere.stop();
    }
    if (what == Play::voices) {
        m_copies.start();
        m_loudspeaker.start(m_where);
    } else if (what == Play::elsewhere) {
        m_elsewhere.start();
    }
    return what != Play::nothing; // what is compared with the microphone is another thing, or comes at another time
}

void JoinSound::soundArrived(const wire::SoundHead& head, std::span<const std::uint8_t> payload, Instant at)
{
    const bool leaders = m_hall.whose(head.stream) == link::HallVoice::Whose::leaders;
    if (leaders)
        m_lastFrame = at;
    if (m_play == Play::voices && head.stream != m_talk->stream()) // one's own voice is not heard again
        (leaders ? m_mix.leader() : m_mix.invited()).arrive(head, payload, at);
    emit frameCame(head.stream, head.firstSample);
}

std::optional<std::uint64_t> JoinSound::audibleUpTo(std::optional<std::uint32_t> stream)
{
    if (!stream || m_loudspeaker.state() != sound::LoudspeakerState::playing)
        return std::nullopt;
    const HeardUpTo heard = m_loudspeaker.audibleUpTo();
    return heard.stream == *stream ? heard.sample : 0; // 0: it is on its way
}

bool JoinSound::soundComes(Instant now) const
{
    return m_lastFrame && now - *m_lastFrame <= kFresh;
}

QString JoinSound::heardTwice() const
{
    const auto& heard = m_copies.heard();
    if (m_play != Play::voices || !heard.twice())
        return {};
    return heard.onThisComputer
               ? tr("You hear the leader twice. Please turn the sound of the other call on this computer off.")
               : tr("You hear the leader twice. Please turn the other device in your room down.");
}

std::uint32_t JoinSound::freshStream()
{
    if (std::exchange(m_used, false)) {
        m_talk = std::make_unique<sound::Talk>(m_ears, sound::Talk::newStream());
        m_ready = false;
    }
    return m_talk->stream();
}

void JoinSound::beginSending()
{
    m_used = true;
    m_talk->begin([this](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
        m_line.tellBinary(wire::encodeSound(head, payload));
    });
}

void JoinSound::endSending()
{
    m_talk->end();
}

} // namespace vh::join
