#pragma once
// Somebody in the scripted session, on the app's own line (app/link/line.h), which comes back by itself and asks again
// under the same ids. Does one thing at a time, chosen by a seeded chance; at most kAtOnce requests wait for an answer.
// Everything goes through a Scribe. Thread: one with an event loop.
#include "app/pictures/sender.h"
#include "tests/whole/killed/ledger.h"

#include <random>

namespace vh::testing
{

struct Seat {
    std::uint16_t port = 0;
    GroupId group;
    wire::KeyPair keys;
    Role role = Role::participant;
};

class Actor : public QObject
{
public:
    Actor(const Seat& seat, std::string name, Scribe& scribe, std::uint64_t seed);
    ~Actor() override;

    /// One thing, if there is something to do and few requests are open.
    void act();
    [[nodiscard]] virtual bool isSettled() const
    {
        return m_line.state() == link::LineState::in && m_line.unanswered() == 0;
    }
    /// The line is gone, and all that came before it went has been taken.
    [[nodiscard]] bool isAway() const { return m_line.state() != link::LineState::in; }

protected:
    static constexpr std::size_t kAtOnce = 6;
    virtual void doSomething() = 0;
    virtual void take(const wire::ToClient& message) = 0;
    /// `about`: what ask() was given. Not called when it was refused, but for `done` false.
    virtual void answered(std::uint64_t about, const wire::Ack& ack, bool done);

    template <class Message>
    void ask(Message message, const Trace& trace, std::uint64_t about = 0)
    {
        message.id = RequestId::random();
        m_scribe.asked(message.id.hex(), trace);
        m_open[message.id] = about;
        m_line.askFirst(message);
    }
    [[nodiscard]] Trace logged(const std::string& what, const std::string& detail) const;
    /// Like nothing that was ever written before.
    std::string words(const std::string& what);
    [[nodiscard]] link::Line& line() { return m_line; }
    [[nodiscard]] Scribe& scribe() { return m_scribe; }
    unsigned upTo(unsigned most) { return std::uniform_int_distribution<unsigned>(0, most)(m_chance); }
    [[nodiscard]] bool oneIn(unsigned many) { return upTo(many - 1) == 0; }
    [[nodiscard]] const std::string& person() const { return m_person; }

private:
    SystemClock m_clock;
    link::Line m_line;
    std::string m_name;
    Scribe& m_scribe;
    std::mt19937_64 m_chance;
    std::map<RequestId, std::uint64_t> m_open;
    std::string m_person;
    unsigned m_written = 0;
    std::string m_life; ///< part of all words: the process may have lived before
};

/// Writes lines, sends pictures, takes some of them back, calls for help, and is well again.
class HomeActor final : public Actor
{
public:
    HomeActor(const Seat& seat, const std::string& name, Scribe& scribe, std::uint64_t seed, QByteArray picture);
    [[nodiscard]] bool isSettled() const override { return Actor::isSettled() && m_pictures.going().empty(); }
    /// What is on this home's board.
    [[nodiscard]] const std::map<std::uint64_t, std::string>& board() const { return m_board; }

protected:
    void doSomething() override;
    void take(const wire::ToClient& message) override;
    void answered(std::uint64_t about, const wire::Ack& ack, bool done) override;

private:
    void takeBoard(const std::vector<wire::BoardItem>& items);
    pictures::PictureSender m_pictures;
    QByteArray m_picture;             ///< what is sent, again and again
    std::vector<std::uint64_t> m_own; ///< what could be taken back
    std::map<std::uint64_t, std::string> m_board;
    std::uint64_t m_call = 0;
    bool m_calling = false;
};

/// Takes what reaches her, shows pictures to all, says something to all, opens the board and closes it.
class LeaderActor final : public Actor
{
public:
    using Actor::Actor;
    /// What the relay told last of each item.
    [[nodiscard]] const std::map<std::uint64_t, wire::DeskItem>& items() const { return m_items; }
    /// The picture that is in the group's window, as she was told last; 0: none.
    [[nodiscard]] std::uint64_t inWindow() const { return m_inWindow; }

protected:
    void doSomething() override;
    void take(const wire::ToClient& message) override;

private:
    std::map<std::uint64_t, wire::DeskItem> m_items;
    std::uint64_t m_inWindow = 0;
};

/// A helper: decides on everything that is to read, in every way; answers; takes calls and ends them; lets people rest.
class DeskActor final : public Actor
{
public:
    using Actor::Actor;

protected:
    void doSomething() override;
    void take(const wire::ToClient& message) override;
    void answered(std::uint64_t about, const wire::Ack& ack, bool done) override;

private:
    void doWith(const wire::DeskItem& item);
    void doWith(const wire::Call& call);
    void decide(const wire::DeskItem& item, wire::Decision decision, const char* what);
    void reply(const wire::DeskItem& item);
    void edit(const wire::DeskItem& item);
    std::map<std::uint64_t, wire::DeskItem> m_items;
    std::map<std::uint64_t, wire::Call> m_calls;
    std::set<std::uint64_t> m_busy; ///< items and (with the highest bit) calls with a request under way
    std::vector<PersonId> m_people;
};

} // namespace vh::testing
