// Every message x every stage x every role, from the protocol's own table; what is not in it is refused.
#include "common/wire/protocol_table.h"
#include "tests/common/wire/filler.h"
#include "tests/server/hall/test_relay.h"

#include <QtTest>

using namespace vh;
using namespace vh::testing;

namespace
{

/// A message of this type with something in every field; nothing for the binary ones.
template <std::size_t I = 0>
std::string textOf(std::string_view type, std::mt19937& random)
{
    if constexpr (I == std::variant_size_v<wire::ToRelay>) {
        return {};
    } else {
        std::variant_alternative_t<I, wire::ToRelay> message;
        if (type != decltype(message)::kName)
            return textOf<I + 1>(type, random);
        wire::Filler filler(random);
        wire::visitFields(message, filler);
        return wire::encode(message);
    }
}

std::string binaryOf(std::string_view name)
{
    if (name == "reading")
        return wire::encodeReading({});
    return wire::encodeSound({1, 0}, std::vector<std::uint8_t>{1});
}

/// Collects the names of fields that hold somebody's or some group's id.
struct IdFields {
    std::vector<std::string>& found;
    std::string_view message;
    template <class T>
    void operator()(std::string_view name, const T&, wire::Limit = {})
    {
        if constexpr (std::is_same_v<T, PersonId> || std::is_same_v<T, std::optional<PersonId>> ||
                      std::is_same_v<T, GroupId>)
            found.push_back(std::string(message) + "." + std::string(name));
    }
};

template <std::size_t I = 0>
void collectIdFields(std::vector<std::string>& found)
{
    if constexpr (I < std::variant_size_v<wire::ToRelay>) {
        std::variant_alternative_t<I, wire::ToRelay> message;
        IdFields fields{found, decltype(message)::kName};
        wire::visitFields(message, fields);
        collectIdFields<I + 1>(found);
    }
}

template <std::size_t... Is>
std::vector<std::string_view> textTypes(std::index_sequence<Is...>)
{
    return {std::variant_alternative_t<Is, wire::ToRelay>::kName...};
}

} // namespace

class TestWhoMaySend : public QObject
{
    Q_OBJECT
private slots:
    void everyMessageHasItsRuleAndEveryRuleItsMessage()
    {
        std::vector<std::string_view> messages =
            textTypes(std::make_index_sequence<std::variant_size_v<wire::ToRelay>>{});
        messages.insert(messages.end(), {"reading", "sound"});
        std::vector<std::string_view> rules;
        for (const wire::Rule& rule : wire::rulesForClients())
            rules.push_back(rule.message);
        std::sort(messages.begin(), messages.end());
        std::sort(rules.begin(), rules.end());
        QCOMPARE(rules, messages);
    }

    void everybodyMaySendWhatTheTableSaysAndNothingElse()
    {
        TestRelay relay;
        const GroupId group = relay.addGroup("Tuesday voices");
        const std::string code = relay.codeOf(group);
        std::mt19937 random(7);
        int allowed = 0;
        int denied = 0;
        for (const wire::Rule& rule : wire::rulesForClients())
            for (const wire::Stage stage :
                 {wire::Stage::fresh, wire::Stage::greeted, wire::Stage::atDoor, wire::Stage::in})
                for (const Role role : {Role::participant, Role::moderator, Role::leader, Role::standIn}) {
                    if (stage != wire::Stage::in && role != Role::participant)
                        continue; // nobody has a role yet
                    Visitor visitor;
                    if (stage == wire::Stage::in) {
                        visitor = relay.enrol(group, role, "Somebody");
                    } else {
                        visitor.line = relay.connect();
                        if (stage != wire::Stage::fresh)
                            visitor->hello();
                        if (stage == wire::Stage::atDoor) {
                            visitor->knock(code, wire::makeKeyPair(), "Stranger");
                            visitor->wait<wire::AtDoor>();
                        }
                    }
                    if (rule.binary)
                        visitor->sayBinary(binaryOf(rule.message));
                    else
                        visitor->sayText(textOf(rule.message, random));
                    const bool may = wire::mayBeSent(rule, stage, role);
                    ++(may ? allowed : denied);
                    const std::string about = std::string(rule.message) + " at stage " +
                                              std::to_string(static_cast<int>(stage)) + " by role " +
                                              std::to_string(static_cast<int>(role));
                    QVERIFY2(visitor->wasNotAllowed() == !may, about.c_str());
                }
        QVERIFY(allowed > 60);
        QVERIFY(denied > 100);
    }

    /// Who speaks is never a field: a person is named only as the one whom a leader means.
    void noFieldSaysWhoIsSpeaking()
    {
        std::vector<std::string> found;
        collectIdFields(found);
        std::sort(found.begin(), found.end());
        QCOMPARE(found, (std::vector<std::string>{"contactAsk.person", "inviteToSpeak.person", "letIn.person",
                                                  "lineDone.person", "login.group", "privateWord.person",
                                                  "setBand.person", "setRest.person", "undoBinding.person"}));
    }

    void aFieldThatClaimsToBeSomebodyElseIsNotLookedAt()
    {
        TestRelay relay;
        const GroupId group = relay.addGroup("Tuesday voices");
        const Visitor kim = relay.enrol(group, Role::moderator, "Kim");
        const Visitor bo = relay.enrol(group, Role::participant, "Bo");
        bo->sayText("{\"type\": \"write\", \"id\": \"" + RequestId::random().hex() + "\", \"text\": \"Hello\", " +
                    "\"person\": \"" + kim.welcome.person.hex() + "\", \"role\": \"leader\"}");
        const auto desk = kim->wait<wire::OnDesk>([](const auto& each) { return !each.items.empty(); });
        QCOMPARE(desk.items.front().name, std::string("Bo"));
    }
};

QTEST_GUILESS_MAIN(TestWhoMaySend)
#include "test_who_may_send.moc"
