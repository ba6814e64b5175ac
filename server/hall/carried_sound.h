#pragma once
// Whose sound one hall carries now: of whoever holds the place, and of one person whom they invited. Plain values that
// the hall changes (hall_sound.cpp); nothing of it is ever stored. The lines are those of sessions that are in: the
// hall takes them out before a session goes. Thread: the hall's loop.
#include "common/wire/sound_messages.h"
#include "server/net/poller.h"

#include <algorithm>
#include <deque>

namespace vh::hall
{

class Session;

struct CarriedSound {
    Session* leader = nullptr; ///< who said `voice`; null with none
    wire::VoiceState voice = wire::VoiceState::none;
    std::uint32_t stream = 0;
    int framesAfterMute = 0; ///< still carried: those under way when she muted herself, which fade her out
    std::uint32_t lease = 0; ///< under which the voice was said, and the invitation made

    Session* inviter = nullptr;
    Session* invited = nullptr; ///< asked, or (speaking) heard by all
    bool speaking = false;
    std::uint32_t speakersStream = 0;
    struct Invitation {
        RequestId id;
        PersonId person;
    };
    std::deque<Invitation> invitations; ///< the last ones made, for those who ask again

    /// Whether this frame, of this stream and from this line, goes to everybody.
    [[nodiscard]] bool carries(const Session& from, std::uint32_t ofStream)
    {
        if (&from == leader && ofStream == stream)
            return voice == wire::VoiceState::carried || framesAfterMute-- > 0;
        return speaking && &from == invited && ofStream == speakersStream;
    }
};

/// How many more sound frames of one line are carried: kSoundFramesPerSecond for long, kSoundFramesAtOnce at once.
class SoundAllowance
{
public:
    [[nodiscard]] bool take(net::SteadyTime now)
    {
        const std::chrono::duration<double> gone = now - m_at;
        m_at = now;
        m_left = std::min(wire::kSoundFramesAtOnce, m_left + gone.count() * wire::kSoundFramesPerSecond);
        if (m_left < 1)
            return false;
        m_left -= 1;
        return true;
    }

private:
    net::SteadyTime m_at{}; ///< long ago: the first frame finds all of it
    double m_left = 0;
};

} // namespace vh::hall
