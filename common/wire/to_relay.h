#pragma once
// What clients say to the relay. Each struct is one text message; `kName` is its "type". Who is speaking is never a
// field: the relay knows it from the session. `id` marks what is to be done once: the same id again gets the same
// answer.
#include "common/base/role.h"
#include "common/live/agreements.h"
#include "common/live/class_state.h"
#include "common/wire/board_messages.h"
#include "common/wire/call_messages.h"
#include "common/wire/handout_messages.h"
#include "common/wire/home_messages.h"
#include "common/wire/leading_messages.h"
#include "common/wire/names.h"
#include "common/wire/sound_messages.h"

#include <variant>

namespace vh::wire
{

using Key = Bytes<32>;       ///< Ed25519 public key of a device
using Signature = Bytes<64>; ///< Ed25519 over login_text.h's text
using Token = Bytes<16>;     ///< of a one-time link

/// The first message of every connection.
struct Hello {
    static constexpr std::string_view kName = "hello";
    std::uint32_t min = kVersion;
    std::uint32_t max = kVersion;
    std::vector<std::string> features;
    std::string app; ///< program and version, for the log
    void fields(auto& visit)
    {
        visit("min", min), visit("max", max), visit("features", features, atMost(32)), visit("app", app, atMost(60));
    }
};

/// A known device walks in.
struct Login {
    static constexpr std::string_view kName = "login";
    GroupId group;
    Key key{};
    Role role = Role::participant;
    Signature signature{};
    std::optional<HallEpoch> epoch;       ///< of the last line, when resuming
    std::optional<std::uint64_t> lastSeq; ///< likewise
    std::uint64_t boardSince = 0;         ///< the newest board item already here
    void fields(auto& visit)
    {
        visit("group", group), visit("key", key), visit("role", role), visit("signature", signature);
        visit("epoch", epoch), visit("lastSeq", lastSeq), visit("boardSince", boardSince);
    }
};

/// A one-time link enrols this device into the link's role; then as Login.
struct Redeem {
    static constexpr std::string_view kName = "redeem";
    Token token{};
    Key key{};
    Signature signature{};
    std::string name;
    std::string device; ///< in the person's words: "laptop"
    void fields(auto& visit)
    {
        visit("token", token), visit("key", key), visit("signature", signature);
        visit("name", name, atMost(kNameLength)), visit("device", device, atMost(kLabelLength));
    }
};

/// A new name comes to the door by the group's code, and waits until a helper lets it in.
struct Knock {
    static constexpr std::string_view kName = "knock";
    std::string code;
    Key key{};
    Signature signature{};
    std::string name;
    std::string device;
    void fields(auto& visit)
    {
        visit("code", code, atMost(16)), visit("key", key), visit("signature", signature);
        visit("name", name, atMost(kNameLength)), visit("device", device, atMost(kLabelLength));
    }
};

/// Asks for the relay's time; any stage. sent is echoed.
struct ClockAsk {
    static constexpr std::string_view kName = "clock";
    std::int64_t sent = 0;
    void fields(auto& visit) { visit("sent", sent); }
};

/// Going on purpose: not a lost line.
struct Bye {
    static constexpr std::string_view kName = "bye";
    void fields(auto&) {}
};

/// One agreement, given or changed. Takes effect at the source at once; the relay answers when it is on disk.
struct Agree {
    static constexpr std::string_view kName = "agree";
    RequestId id;
    AgreementKind kind = AgreementKind::levelVisible;
    std::string value;
    std::uint32_t wording = 1; ///< version of the words the person saw
    void fields(auto& visit)
    {
        visit("id", id), visit("kind", kind), visit("value", value, atMost(32)), visit("wording", wording);
    }
};

enum class VoiceToday : std::uint8_t { fine, sore, listening };
template <>
struct WireNames<VoiceToday> {
    static constexpr std::array<std::string_view, 3> kNames{"fine", "sore", "listening"};
};

/// "How is your voice today?" `checked` is true once the microphone was checked at this spot.
struct Today {
    static constexpr std::string_view kName = "today";
    VoiceToday voice = VoiceToday::fine;
    bool checked = false;
    void fields(auto& visit) { visit("voice", voice), visit("checked", checked); }
};

/// What a finished turn amounted to: the home's last reading of it and what was around it. No standing: the hall judges
/// the same numbers again with the same function.
struct TurnDone {
    static constexpr std::string_view kName = "turnResult";
    RequestId id;
    ClassId classId; ///< the class the turn was in: turns are numbered within their class
    TurnResult result;
    void fields(auto& visit)
    {
        Reading& reading = result.reading;
        Surroundings& around = result.around;
        visit("id", id), visit("class", classId), visit("turn", reading.turnSerial),
            visit("elapsedMs", reading.elapsedMs);
        visit("heardMs", reading.heardMs), visit("voicedMs", reading.voicedMs);
        visit("overUsualDb", reading.leqOverUsualDb), visit("nowOverUsualDb", reading.nowOverUsualDb);
        visit("trustPercent", reading.trustPercent), visit("reason", reading.reason);
        visit("judge", reading.judgeVersion);
        visit("leakDb", around.leakDb), visit("roomNormal", around.roomNormal), visit("masked", around.masked);
        visit("voiceHeard", around.voiceHeard), visit("ceiling", around.ceiling);
    }
};

/// "Hello, everybody": on, or taken back. Counted for all to see, one for each person and class; said twice it counts
/// once.
struct Greet {
    static constexpr std::string_view kName = "greet";
    bool on = true;
    void fields(auto& visit) { visit("on", on); }
};

/// Asks for one content-hashed part of the open class; the answer is a binary frame.
struct PartAsk {
    static constexpr std::string_view kName = "partAsk";
    Hash hash{};
    void fields(auto& visit) { visit("hash", hash); }
};

/// Moves one person's band, in dB.
struct SetBand {
    static constexpr std::string_view kName = "setBand";
    RequestId id;
    PersonId person;
    float offsetDb = 0;
    void fields(auto& visit) { visit("id", id), visit("person", person), visit("offsetDb", offsetDb); }
};

/// One short line from the leader to one person's screen. Only within how that person agreed to be addressed; said at
/// once and never kept.
struct PrivateWord {
    static constexpr std::string_view kName = "privateWord";
    RequestId id;
    PersonId person;
    WordKind kind = WordKind::kind;
    std::string text;
    void fields(auto& visit)
    {
        visit("id", id), visit("person", person), visit("kind", kind), visit("text", text, atMost(kWordLength));
    }
};

/// Makes a one-time link for a role.
struct Invite {
    static constexpr std::string_view kName = "invite";
    RequestId id;
    Role role = Role::moderator;
    void fields(auto& visit) { visit("id", id), visit("role", role); }
};

/// Lets somebody in from the door. A leader may say that this is somebody who lost their only device: the new key is
/// bound to `person`, the old ones are revoked, and it can be undone for 7 days.
struct LetIn {
    static constexpr std::string_view kName = "letIn";
    RequestId id;
    std::uint64_t door = 0;
    std::optional<PersonId> person;
    void fields(auto& visit) { visit("id", id), visit("door", door), visit("person", person); }
};
/// Turns somebody at the door away.
struct TurnAway {
    static constexpr std::string_view kName = "turnAway";
    RequestId id;
    std::uint64_t door = 0;
    void fields(auto& visit) { visit("id", id), visit("door", door); }
};

/// A line from the desk to everybody.
struct Notice {
    static constexpr std::string_view kName = "notice";
    RequestId id;
    std::string text;
    void fields(auto& visit) { visit("id", id), visit("text", text, atMost(kNoticeLength)); }
};

/// Makes a ten-minute link with which the same person enrols a second device.
struct SecondDevice {
    static constexpr std::string_view kName = "secondDevice";
    RequestId id;
    void fields(auto& visit) { visit("id", id); }
};
/// Asks for this person's own devices; the answer is `devices`.
struct DevicesAsk {
    static constexpr std::string_view kName = "devicesAsk";
    void fields(auto&) {}
};
/// Revokes one of this person's own devices; a line it has open is closed at once.
struct RevokeDevice {
    static constexpr std::string_view kName = "revokeDevice";
    RequestId id;
    Key key{};
    void fields(auto& visit) { visit("id", id), visit("key", key); }
};
/// Takes back, within 7 days, that a new device was bound to somebody (see LetIn).
struct UndoBinding {
    static constexpr std::string_view kName = "undoBinding";
    RequestId id;
    PersonId person;
    void fields(auto& visit) { visit("id", id), visit("person", person); }
};

/// Somebody who only phones in counts too.
struct AttendByHand {
    static constexpr std::string_view kName = "attendByHand";
    RequestId id;
    std::string name;
    void fields(auto& visit) { visit("id", id), visit("name", name, atMost(kNameLength)); }
};

using ToRelay =
    std::variant<Hello, Login, Redeem, Knock, ClockAsk, Bye, Agree, Contact, Today, TurnDone, Write, Greet, HelpCall,
                 HelpTakeBack, PartAsk, PartPut, OpenClass, ReviseClass, Lead, Leading, TakePlace, Reassert, SetBand,
                 PrivateWord, Invite, LetIn, TurnAway, Decide, Notice, HelpTake, HelpDone, SecondDevice, DevicesAsk,
                 RevokeDevice, UndoBinding, AttendByHand, Voice, InviteToSpeak, SpeakAnswer, EndSpeaking, OfferHandout,
                 TakeBackOwn, Claim, Reply, SetRest, OpenBoard, TakeItem, ActsAsk, LevelsToDesk, PicturePiece,
                 PictureAsk, EditPicture, ShowPicture, ContactAsk, LineDone, SetWhomToRing, PeopleAsk>;

} // namespace vh::wire
