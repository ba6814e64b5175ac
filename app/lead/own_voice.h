#pragma once
// The leader's own voice: which way it goes to the group, whether it is open or muted, and what may honestly be said of
// whether they hear her: "They hear you" only when sound of hers has come back through the hall within the last second,
// and a voice was in it. Pure; the caller brings the time. Any one thread.
#include "app/sound/ears_state.h"
#include "app/widgets/level_bar.h"
#include "common/base/clock.h"
#include "common/signal/voice_frame.h"
#include "common/wire/sound_messages.h"

#include <optional>

namespace vh::lead
{

/// How the group hears her.
enum class VoiceWay { voicehall, elsewhere };

class OwnVoice
{
public:
    /// closed: not heard yet; before class nobody hears her until she says so.
    enum class Mouth { closed, open, muted };
    static constexpr Millis kFresh{1000};

    void choose(VoiceWay way) { m_way = way; }
    /// The class has begun: her voice goes out by itself, unless she has muted it before.
    void classBegins();
    /// Another class, or the place is somebody else's.
    void rest() { become(Mouth::closed); }
    /// One key: opens, mutes, opens again.
    void press();

    /// A frame of hers has come back through the hall.
    void cameBack(Instant now) { m_cameBackAt = now; }
    /// A frame of her microphone.
    void heard(const VoiceFrame& frame, Instant now);

    [[nodiscard]] VoiceWay way() const { return m_way; }
    [[nodiscard]] Mouth mouth() const { return m_mouth; }
    /// As the hall is told; `holds`: the place is hers.
    [[nodiscard]] wire::VoiceState state(bool holds) const;
    [[nodiscard]] bool isOpen() const { return m_way == VoiceWay::voicehall && m_mouth == Mouth::open; }

    struct Around {
        bool lineUp = false;
        sound::EarsState ears = sound::EarsState::off;
        const VoiceFrame* newest = nullptr; ///< of the microphone; null: nothing has come
    };
    /// The permanent sign.
    [[nodiscard]] LevelBar::State sign(const Around& around, Instant now) const;
    /// All that the sign may say: it keeps room for each, so that nothing beside it moves.
    [[nodiscard]] static QStringList allWords();

private:
    void become(Mouth mouth);

    VoiceWay m_way = VoiceWay::voicehall;
    Mouth m_mouth = Mouth::closed;
    std::optional<Instant> m_cameBackAt; ///< since it was opened
    std::optional<Instant> m_voiceAt;
};

} // namespace vh::lead
