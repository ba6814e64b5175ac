#pragma once
// All halls of one relay, and the way in: which hall a hello is for, whether the device is who it says it is, the door
// for those who are new. Finds a hall in memory or brings it back from the store. Thread: the loop that accepts; each
// hall itself lives on one of the loops. Failures of strangers are counted per (address, group); known devices never
// are.
#include "server/hall/failure_counter.h"
#include "server/hall/hall.h"
#include "server/hall/session.h"

#include <unordered_map>

namespace vh::hall
{

struct HallsOptions {
    std::vector<net::Loop*> loops; ///< the first one accepts; halls are spread over all
    store::Store* store = nullptr;
    const Clock* clock = nullptr;
    /// The four words of the relay's key; empty with a public certificate.
    std::vector<std::string> keyWords;
    PictureWorks* pictures = nullptr; ///< null: no pictures are taken
    /// From the upgrade to being in, or at the door.
    Millis comingIn = std::chrono::seconds{15};
    std::size_t comingInFromOneAddress = 200;
};

class Halls
{
public:
    explicit Halls(HallsOptions options);

    std::shared_ptr<net::ConnectionHandler> makeSession(net::Connection& connection);

    // From sessions that have said hello; each ends by the session being in, at the door, or refused.
    void login(Session& session, const wire::Login& message);
    void redeem(Session& session, const wire::Redeem& message);
    void knock(Session& session, const wire::Knock& message);

    /// The line's time to come in begins; closes it when too many from there are coming in already.
    void arrived(Session& session);
    /// It is on its way into a hall, or has closed. On the accepting loop.
    void noLongerComing(Session& session);

    [[nodiscard]] const HallsOptions& options() const { return m_options; }
    [[nodiscard]] HallEpoch epoch() const { return m_epoch; }
    [[nodiscard]] std::size_t hallCount() const { return m_halls.size(); }
    /// On the accepting loop, when no line is left and the store has answered all: every hall lets its loop go.
    void stop();

private:
    using Found = std::function<void(const Result<std::shared_ptr<Hall>>&)>;
    /// group-unknown; anything else: the hall cannot be brought back just now.
    void find(GroupId group, Found found);
    void loaded(GroupId group, Result<HallImage> image);
    /// Moves the line to the hall's loop and goes on there, if the line still stands.
    void bring(Session& session, const std::shared_ptr<Hall>& hall, std::function<void(Hall&, Session&)> then);
    static void turnOff(Session& session, const Error& why, wire::CloseCode code);
    bool guessesTooMuch(Session& session, const std::string& what);
    /// Counts a guess before it is looked into, so that many at once are not all looked into. Gives what is to be given
    /// back if it was none.
    std::string guess(const Session& session, const std::string& what);
    /// From the line's own loop, whichever that is by now.
    void countAndTurnOff(Session& session, const std::string& what, const Error& why);

    HallsOptions m_options;
    HallEpoch m_epoch = HallEpoch::random();
    FailureCounter m_failures;
    std::unordered_map<std::string, std::size_t> m_coming; ///< lines, by counted address
    std::unordered_map<GroupId, std::shared_ptr<Hall>> m_halls;
    std::unordered_map<GroupId, std::vector<Found>> m_loading;
    std::size_t m_nextLoop = 0;
};

} // namespace vh::hall
