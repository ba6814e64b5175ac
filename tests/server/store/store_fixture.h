#pragma once
// A store in a folder that goes away with the test, and short ways to fill it. Thread: one.
#include "server/store/store.h"

#include <QTemporaryDir>
#include <QtTest>

namespace vh::store
{

inline const Instant kStart{Millis{1'764'000'000'000}};
constexpr Millis kDay = std::chrono::hours{24};

/// Answers are called where they are posted from: on the writer thread.
inline const Poster kHere = [](const std::function<void()>& function) { function(); };

inline PublicKey someKey(std::uint8_t n)
{
    PublicKey key{};
    key.fill(n);
    return key;
}

class StoreFixture
{
public:
    StoreFixture()
    {
        options.file = std::filesystem::path(folder.filePath("relay.db").toStdString());
        reopen();
    }
    void reopen()
    {
        store.reset();
        auto opening = Store::open(options);
        outcome = opening.outcome;
        store = std::move(opening.store);
    }

    /// One job by itself; throws (and so fails the test) when it comes to an Error.
    template <class Work>
    auto must(Work work)
    {
        using Value = std::invoke_result_t<Work&, Tables&>;
        auto result = store->run([&work](Tables& tables) -> Result<Value> { return work(tables); });
        if (!result)
            throw std::runtime_error(result.error().code + ": " + result.error().message);
        return std::move(*result);
    }
    /// One job that must come to an Error; gives its code, or "" when it did not.
    template <class Work>
    std::string refusal(Work work)
    {
        auto result = store->run(std::move(work));
        return result ? std::string() : result.error().code;
    }

    GroupRow group(const std::string& name = "Thursday voices")
    {
        return must([&](Tables& t) { return t.groups.add(name, kStart); });
    }
    PersonRow person(GroupId group, const std::string& name = "Ada", Role role = Role::participant)
    {
        return must([&](Tables& t) { return t.people.add(group, name, role, kStart).value(); });
    }
    ClassRow openClass(GroupId group, PersonId leader)
    {
        return must([&](Tables& t) {
            const Bytes script{'s'};
            return t.classes.open(group, leader, "Weather", t.classes.putPart("script", script, kStart), kStart)
                .value();
        });
    }

    QTemporaryDir folder;
    StoreOptions options;
    Opened outcome = Opened::failed;
    std::unique_ptr<Store> store;
};

} // namespace vh::store
