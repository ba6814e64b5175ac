#pragma once
// Whose sound the hall carries: what the holder of the place and the person who is invited to speak say about it, and
// what everybody is told. The sound itself is binary (binary.h). Nothing of this is ever stored: it falls to "none"
// when the place moves, the class ends, or a line that it hangs on is gone. Both directions; part of to_relay.h and
// to_client.h, which include it.
#include "common/wire/fields.h"
#include "common/wire/limits.h"

namespace vh::wire
{

/// The voice of whoever holds the place.
enum class VoiceState : std::uint8_t {
    none,      ///< no sound from there
    carried,   ///< what she says goes to every home
    muted,     ///< she has muted herself; the sample count goes on
    elsewhere, ///< the group hears her by other means: homes play nothing of hers
};
template <>
struct WireNames<VoiceState> {
    static constexpr std::array<std::string_view, 4> kNames{"none", "carried", "muted", "elsewhere"};
};

/// From the holder of the place: at every change, after every welcome, and when the place has become hers. No answer.
struct Voice {
    static constexpr std::string_view kName = "voice";
    VoiceState state = VoiceState::none;
    std::uint32_t stream = 0; ///< of the sound frames that she sends
    void fields(auto& visit) { visit("state", state), visit("stream", stream); }
};

/// The holder of the place asks one person whether everybody may hear them.
struct InviteToSpeak {
    static constexpr std::string_view kName = "inviteToSpeak";
    RequestId id;
    PersonId person;
    void fields(auto& visit) { visit("id", id), visit("person", person); }
};

/// The invited person's answer. With yes, the frames of `stream` are carried from here on.
struct SpeakAnswer {
    static constexpr std::string_view kName = "speakAnswer";
    RequestId id;
    bool agree = false;
    std::uint32_t stream = 0;
    void fields(auto& visit) { visit("id", id), visit("agree", agree), visit("stream", stream); }
};

/// Either side: the person is heard no longer; from the holder also: the question is taken back.
struct EndSpeaking {
    static constexpr std::string_view kName = "endSpeaking";
    RequestId id;
    void fields(auto& visit) { visit("id", id); }
};

/// To everybody, at every change, and in the welcome.
struct VoiceNow {
    static constexpr std::string_view kName = "voiceNow";
    std::uint64_t seq = 0;
    VoiceState state = VoiceState::none;
    std::uint32_t stream = 0;
    std::string name; ///< whose voice; empty with none
    void fields(auto& visit)
    {
        visit("seq", seq), visit("state", state), visit("stream", stream), visit("name", name, atMost(kNameLength));
    }
};

/// To the one person: the question, or (off) that it no longer stands.
struct InvitedToSpeak {
    static constexpr std::string_view kName = "invitedToSpeak";
    bool on = true;
    std::string from; ///< who asks
    void fields(auto& visit) { visit("on", on), visit("from", from, atMost(kNameLength)); }
};

/// To everybody: one person is heard by all, or no longer. Leaders, helpers and the person get one of their own, which
/// says more, under the same seq and before the one for all: of two with the same seq the first counts.
struct Speaking {
    static constexpr std::string_view kName = "speaking";
    std::uint64_t seq = 0;
    bool on = false;
    std::uint32_t stream = 0;
    std::optional<std::uint32_t> seat; ///< seat and name: to leaders and helpers, and where others may see the name
    std::string name;
    bool you = false;
    void fields(auto& visit)
    {
        visit("seq", seq), visit("on", on), visit("stream", stream), visit("seat", seat);
        visit("name", name, atMost(kNameLength)), visit("you", you);
    }
};

enum class InviteEnd : std::uint8_t {
    notNow,   ///< the person would rather not
    ended,    ///< the person ended it
    lineLost, ///< their line is gone
};
template <>
struct WireNames<InviteEnd> {
    static constexpr std::array<std::string_view, 3> kNames{"notNow", "ended", "lineLost"};
};

/// To whoever invited: it is over, by the other side's doing.
struct InviteOver {
    static constexpr std::string_view kName = "inviteOver";
    PersonId person;
    std::string name;
    InviteEnd why = InviteEnd::notNow;
    void fields(auto& visit) { visit("person", person), visit("name", name, atMost(kNameLength)), visit("why", why); }
};

} // namespace vh::wire
