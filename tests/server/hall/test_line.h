#pragma once
// A client for tests that reads top to bottom: say something, wait for what must come. Everything that arrives is kept
// until it is asked for; wait() takes the first that fits, in any order with other kinds. A wait that is not answered
// in ten seconds throws and says what has come instead. Thread: the test's; the line itself lives on its loop.
#include "common/wire/binary.h"
#include "common/wire/codec.h"
#include "common/wire/login_text.h"
#include "server/net/ws_client.h"

#include <condition_variable>
#include <deque>
#include <mutex>

namespace vh::testing
{

struct Closing {
    wire::CloseCode code = wire::CloseCode::none;
    std::string reason;
};

class TestLine
{
public:
    TestLine(net::Loop& loop, const net::ClientOptions& options);
    ~TestLine();
    TestLine(const TestLine&) = delete;
    TestLine& operator=(const TestLine&) = delete;

    template <class Message>
    void say(const Message& message)
    {
        sayText(wire::encode(message));
    }
    void sayText(std::string text);
    void sayBinary(std::string bytes);
    /// Bytes below the WebSocket: for what a relay must refuse.
    void sayRaw(std::string bytes);
    /// Ends the line without a word.
    void drop();
    /// Has happened when it returns.
    void pauseReading(bool paused);

    template <class Message, class Fits>
    Message wait(Fits fits)
    {
        return m_inbox->take(
            [&](Inbox& inbox) -> std::optional<Message> {
                for (auto at = inbox.texts.begin(); at != inbox.texts.end(); ++at)
                    if (const auto* found = std::get_if<Message>(&*at); found && fits(*found)) {
                        Message message = *found;
                        inbox.texts.erase(at);
                        return message;
                    }
                return std::nullopt;
            },
            Message::kName);
    }
    template <class Message>
    Message wait()
    {
        return wait<Message>([](const Message&) { return true; });
    }
    /// Whether one has come that nobody has taken. Only after something that must have come later.
    template <class Message>
    [[nodiscard]] bool has() const
    {
        const std::scoped_lock lock(m_inbox->mutex);
        return std::any_of(m_inbox->texts.begin(), m_inbox->texts.end(),
                           [](const auto& each) { return std::holds_alternative<Message>(each); });
    }
    /// Says a request and waits for its own answer.
    template <class Message>
    wire::Ack acked(const Message& message)
    {
        say(message);
        return wait<wire::Ack>([&](const wire::Ack& ack) { return ack.id == message.id; });
    }
    template <class Message>
    wire::Refused refused(const Message& message)
    {
        say(message);
        return wait<wire::Refused>([&](const wire::Refused& refused) { return refused.id == message.id; });
    }

    /// What came of a request that went out as text: its answer, or the end of the line.
    struct Outcome {
        std::optional<wire::Ack> ack;
        std::optional<wire::Refused> refused;
        std::optional<Closing> closed;
    };
    Outcome waitOutcome(const RequestId& id);
    /// The name in the welcome that comes, or nothing: the line was ended instead.
    std::optional<std::string> nameOrClosing();

    std::string waitBinary(const std::function<bool(std::span<const std::uint8_t>)>& fits);
    /// The standings of one seat, once they fit.
    wire::RosterEntry waitStanding(std::uint32_t seat, const std::function<bool(const wire::RosterEntry&)>& fits);
    /// Every roster entry of a seat that has come so far, taken or not.
    [[nodiscard]] std::vector<wire::RosterEntry> standingsSeen(std::uint32_t seat) const;
    /// "sound NUMBER OF THE FIRST SAMPLE" and "place SERIAL" in the order in which they have come so far, taken or not.
    [[nodiscard]] std::vector<std::string> order() const;
    Closing waitClosed();
    [[nodiscard]] bool isClosed() const;
    /// There and back: all that this line said before has been looked at.
    void sync();

    /// What was said last was refused as nothing that may be said here. False also if it ended the line.
    bool wasNotAllowed();

    // The way in.
    wire::Challenge hello();
    void login(GroupId group, const wire::KeyPair& keys, Role role, std::uint64_t boardSince = 0);
    void redeem(const wire::Token& token, const wire::KeyPair& keys, const std::string& name);
    void knock(const std::string& code, const wire::KeyPair& keys, const std::string& name);

private:
    struct Inbox final : net::ClientHandler {
        void onOpen(net::WsClient&) override;
        void onText(net::WsClient&, std::string_view text) override;
        void onBinary(net::WsClient&, std::span<const std::uint8_t> bytes) override;
        void onClosed(net::WsClient&, wire::CloseCode code, std::string_view reason) override;

        /// Waits until `find` gives something.
        template <class Find>
        auto take(Find find, std::string_view what)
        {
            std::unique_lock lock(mutex);
            const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(10);
            for (;;) {
                if (auto found = find(*this))
                    return std::move(*found);
                if (arrived.wait_until(lock, until) == std::cv_status::timeout)
                    giveUp(what);
            }
        }
        [[noreturn]] void giveUp(std::string_view what) const;

        mutable std::mutex mutex;
        std::condition_variable arrived;
        bool open = false;
        std::deque<wire::ToClient> texts;
        std::deque<std::string> binaries;
        std::vector<wire::RosterEntry> standings;
        std::vector<std::string> order;
        std::optional<Closing> closing;
        std::string unreadable; ///< what the relay sent that our own decoder refuses
    };
    void onLoop(std::function<void(net::WsClient&)> task);

    net::Loop& m_loop;
    std::shared_ptr<Inbox> m_inbox = std::make_shared<Inbox>();
    std::shared_ptr<net::WsClient> m_client;
    wire::Challenge m_challenge;
    std::int64_t m_syncs = 0;
};

} // namespace vh::testing
