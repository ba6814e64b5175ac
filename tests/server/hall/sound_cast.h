#pragma once
// The people of the tests about sound: a leader whose voice is carried, two participants, an open class.
#include "tests/server/hall/test_relay.h"

#include <QtTest>

namespace vh::testing
{

inline constexpr std::uint32_t kAnns = 7;
inline constexpr std::uint32_t kBos = 8;

inline std::string frameOf(std::uint32_t stream, std::uint64_t number)
{
    const std::vector<std::uint8_t> payload{1, 2, 3};
    return wire::encodeSound({stream, number * 960}, payload);
}

inline bool isSound(std::span<const std::uint8_t> bytes)
{
    return wire::decodeSound(bytes).has_value();
}

inline const auto kOn = [](const wire::Speaking& speaking) { return speaking.on; };
inline const auto kOff = [](const wire::Speaking& speaking) { return !speaking.on; };

inline auto isState(wire::VoiceState state)
{
    return [state](const wire::VoiceNow& voice) { return voice.state == state; };
}

class SoundCast
{
protected:
    void gather()
    {
        m_relay = std::make_unique<TestRelay>();
        m_group = m_relay->addGroup("Tuesday voices");
        m_ann = m_relay->enrol(m_group, Role::leader, "Ann");
        m_bo = m_relay->enrol(m_group, Role::participant, "Bo");
        m_cy = m_relay->enrol(m_group, Role::participant, "Cy");
        m_opened = openSmallClass(*m_ann.line);
        m_ann->say(wire::Voice{wire::VoiceState::carried, kAnns});
        m_cy->wait<wire::VoiceNow>();
    }
    void disperse()
    {
        m_ann = {};
        m_bo = {};
        m_cy = {};
        m_relay.reset();
    }
    void letBoSpeak()
    {
        m_ann->acked(wire::InviteToSpeak{RequestId::random(), m_bo.welcome.person});
        m_bo->acked(wire::SpeakAnswer{RequestId::random(), true, kBos});
    }

    std::unique_ptr<TestRelay> m_relay;
    GroupId m_group;
    Visitor m_ann;
    Visitor m_bo;
    Visitor m_cy;
    OpenedClass m_opened;
};

} // namespace vh::testing
