#pragma once
// Whose voice everybody hears, as a line's hall says it, and the sound itself in the order of the hall's log: which
// stream is the leader's, which is the invited person's, and every frame of both as it comes: between the same two
// places as in the log, so that a room can change its cue when the next frame is heard. Frames of any other stream are
// left out.
// While the line is down nobody is heard. GUI thread; must not outlive its line.
#include "app/link/line.h"
#include "common/wire/binary.h"

namespace vh::link
{

class HallVoice : public QObject
{
    Q_OBJECT
public:
    enum class Whose : std::uint8_t { nobodys, leaders, speakers };

    HallVoice(Line& line, const Clock& clock, QObject* parent = nullptr);

    /// Of whoever holds the place; `none` while the line is down.
    [[nodiscard]] const wire::VoiceNow& leader() const { return m_leader; }
    /// The invited person, while they are heard.
    [[nodiscard]] const wire::Speaking& speaking() const { return m_speaking; }
    /// The question to this person, while it stands.
    [[nodiscard]] const std::optional<wire::InvitedToSpeak>& invitation() const { return m_invitation; }
    [[nodiscard]] Whose whose(std::uint32_t stream) const;

signals:
    void changed();
    /// In the order of the log; `payload` lives until the slot returns: connect directly.
    void soundArrived(const vh::wire::SoundHead& head, std::span<const std::uint8_t> payload, vh::Instant at);

private:
    void take(const wire::ToClient& message);
    void takeFrame(const QByteArray& frame);
    void lineIs(LineState state);

    Line& m_line;
    const Clock& m_clock;
    wire::VoiceNow m_leader;
    wire::Speaking m_speaking;
    std::optional<wire::InvitedToSpeak> m_invitation;
};

} // namespace vh::link
