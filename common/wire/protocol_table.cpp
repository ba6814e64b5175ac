#include "common/wire/protocol_table.h"

#include "common/wire/limits.h"

#include <array>

namespace vh::wire
{

namespace
{

constexpr std::uint8_t bit(Stage stage)
{
    return static_cast<std::uint8_t>(1U << static_cast<unsigned>(stage));
}
constexpr std::uint8_t kFresh = bit(Stage::fresh);
constexpr std::uint8_t kGreeted = bit(Stage::greeted);
constexpr std::uint8_t kAtDoor = bit(Stage::atDoor);
constexpr std::uint8_t kIn = bit(Stage::in);
constexpr std::uint8_t kAlways = kFresh | kGreeted | kAtDoor | kIn;

constexpr RoleSet kDesk = rolesOf(Role::moderator, Role::leader);
constexpr RoleSet kCalls = rolesOf(Role::moderator, Role::leader, Role::standIn); ///< a stand-in while leading or alone
constexpr RoleSet kLeader = rolesOf(Role::leader);
constexpr RoleSet kPlace = rolesOf(Role::leader, Role::standIn);
constexpr RoleSet kHeard = rolesOf(Role::participant, Role::leader, Role::standIn); ///< may be heard by all
constexpr RoleSet kHome = rolesOf(Role::participant, Role::standIn);

constexpr std::array kRules{
    Rule{"hello", false, kFresh, kEveryRole, kFirstMessage},
    Rule{"login", false, kGreeted, kEveryRole, kFirstMessage},
    Rule{"redeem", false, kGreeted, kEveryRole, kFirstMessage},
    Rule{"knock", false, kGreeted, kEveryRole, kFirstMessage},
    Rule{"clock", false, kAlways, kEveryRole, kFirstMessage},
    Rule{"bye", false, kAlways, kEveryRole, kFirstMessage},
    Rule{"agree", false, kIn, kEveryRole, kHomeMessage},
    Rule{"contact", false, kIn, kEveryRole, kHomeMessage},
    Rule{"today", false, kIn, kHome, kHomeMessage},
    Rule{"turnResult", false, kIn, kHome, kHomeMessage},
    Rule{"reading", true, kIn, kHome, 64},
    Rule{"write", false, kIn, kEveryRole, kHomeMessage},
    Rule{"greet", false, kIn, kHome, kHomeMessage},
    Rule{"helpCall", false, kIn, kEveryRole, kHomeMessage},
    Rule{"helpTakeBack", false, kIn, kEveryRole, kHomeMessage},
    Rule{"partAsk", false, kIn, kEveryRole, kHomeMessage},
    Rule{"secondDevice", false, kIn, kEveryRole, kHomeMessage},
    Rule{"devicesAsk", false, kIn, kEveryRole, kHomeMessage},
    Rule{"revokeDevice", false, kIn, kEveryRole, kHomeMessage},
    Rule{"partPut", false, kIn, kLeader, kLeaderMessage},
    Rule{"openClass", false, kIn, kLeader, kLeaderMessage},
    Rule{"reviseClass", false, kIn, kLeader, kHomeMessage},
    Rule{"offerHandout", false, kIn, kLeader, kHomeMessage},
    Rule{"setBand", false, kIn, kLeader, kHomeMessage},
    Rule{"privateWord", false, kIn, kLeader, kHomeMessage},
    Rule{"invite", false, kIn, kLeader, kHomeMessage},
    Rule{"undoBinding", false, kIn, kLeader, kHomeMessage},
    Rule{"lead", false, kIn, kPlace, kHomeMessage},
    Rule{"leading", false, kIn, kPlace, kHomeMessage},
    Rule{"takePlace", false, kIn, kPlace, kHomeMessage},
    Rule{"reassert", false, kIn, kPlace, kHomeMessage},
    Rule{"voice", false, kIn, kPlace, kHomeMessage},
    Rule{"inviteToSpeak", false, kIn, kPlace, kHomeMessage},
    Rule{"speakAnswer", false, kIn, kHome, kHomeMessage},
    Rule{"endSpeaking", false, kIn, kHeard, kHomeMessage},
    Rule{"sound", true, kIn, kHeard, kSoundBytes + 16},
    Rule{"letIn", false, kIn, kDesk, kHomeMessage},
    Rule{"turnAway", false, kIn, kDesk, kHomeMessage},
    Rule{"decide", false, kIn, kDesk, kHomeMessage},
    Rule{"notice", false, kIn, kDesk, kHomeMessage},
    Rule{"helpTake", false, kIn, kCalls, kHomeMessage},
    Rule{"helpDone", false, kIn, kCalls, kHomeMessage},
    Rule{"attendByHand", false, kIn, kDesk, kHomeMessage},
    Rule{"takeBackOwn", false, kIn, kEveryRole, kHomeMessage},
    Rule{"claim", false, kIn, kDesk, kHomeMessage},
    Rule{"reply", false, kIn, kDesk, kHomeMessage},
    Rule{"setRest", false, kIn, kDesk, kHomeMessage},
    Rule{"openBoard", false, kIn, kLeader, kHomeMessage},
    Rule{"takeItem", false, kIn, kLeader, kHomeMessage},
    Rule{"actsAsk", false, kIn, kDesk, kHomeMessage},
    Rule{"levelsToDesk", false, kIn, kLeader, kHomeMessage},
    Rule{"picturePiece", false, kIn, kEveryRole, kPictureMessage},
    Rule{"pictureAsk", false, kIn, kEveryRole, kHomeMessage},
    Rule{"editPicture", false, kIn, kDesk, kHomeMessage},
    Rule{"showPicture", false, kIn, kLeader, kHomeMessage},
    Rule{"contactAsk", false, kIn, kCalls, kHomeMessage},
    Rule{"lineDone", false, kIn, kCalls, kHomeMessage},
    Rule{"setWhomToRing", false, kIn, kLeader, kHomeMessage},
    Rule{"peopleAsk", false, kIn, kHome, kHomeMessage},
};

} // namespace

std::span<const Rule> rulesForClients()
{
    return kRules;
}

const Rule* ruleFor(std::string_view message)
{
    for (const Rule& rule : kRules)
        if (rule.message == message)
            return &rule;
    return nullptr;
}

bool mayBeSent(const Rule& rule, Stage stage, Role role)
{
    return (rule.stages & bit(stage)) != 0 && (stage != Stage::in || (rule.roles & roleBit(role)) != 0);
}

} // namespace vh::wire
