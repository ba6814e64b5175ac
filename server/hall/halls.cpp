#include "server/hall/halls.h"

#include "common/base/join_code.h"
#include "common/wire/login_text.h"
#include "server/hall/shown_text.h"

#include <algorithm>

namespace vh::hall
{

namespace
{

const Error kNotKnown{"not-known", "This device is not known here. Please come in by the code or a link.", {}};
const Error kSignature{"signature", "The signature does not fit.", {}};
const Error kTooOften{"too-many-tries", "That was wrong too often. Please wait ten minutes.", {}};
const Error kNameless{"name-empty", "Please write your name.", "name"};
const Error kBusy{"busy", "The relay is busy. Please try again in a moment.", {}};

/// Asked again in a moment, the same may be answered otherwise.
wire::CloseCode closeAfter(const Error& why)
{
    return why.code == kBusy.code || why.code == "store-failed" ? kCloseTryLater : kCloseNotKnown;
}

} // namespace

Halls::Halls(HallsOptions options) : m_options(std::move(options)) {}

std::shared_ptr<net::ConnectionHandler> Halls::makeSession(net::Connection& connection)
{
    return std::make_shared<Session>(*this, connection);
}

void Halls::arrived(Session& session)
{
    net::Connection& connection = *session.connection();
    const std::string address = countedAddress(connection.address());
    session.m_coming = true;
    if (++m_coming[address] > m_options.comingInFromOneAddress && isOneHousehold(address))
        return session.close(kCloseTryLater, "Very many are coming in from where you are. Please try again.");
    session.m_timeToCome = connection.loop().after(m_options.comingIn, [&session] {
        if (session.m_entering) // not the client's fault
            session.close(kCloseTryLater, kBusy.message);
        else
            session.close(wire::CloseCode::policy, "silent: nobody said in time who is coming in.");
    });
}

void Halls::noLongerComing(Session& session)
{
    session.m_coming = false;
    session.m_timeToCome.cancel();
    const auto found = m_coming.find(countedAddress(session.connection()->address()));
    if (found != m_coming.end() && --found->second == 0)
        m_coming.erase(found);
}

void Halls::find(GroupId group, Found found)
{
    if (const auto known = m_halls.find(group); known != m_halls.end())
        return found(known->second);
    auto& waiting = m_loading[group];
    waiting.push_back(std::move(found));
    if (waiting.size() > 1)
        return;
    const auto submitted = m_options.store->submit(
        [group, now = m_options.clock->now()](store::Tables& tables) { return loadImage(tables, group, now); },
        [this, group](Result<HallImage> image) { loaded(group, std::move(image)); },
        [loop = m_options.loops.front()](std::function<void()> task) { loop->post(std::move(task)); });
    if (submitted != store::Submitted::accepted)
        loaded(group, tl::unexpected<Error>(kBusy));
}

void Halls::loaded(GroupId group, Result<HallImage> image)
{
    Result<std::shared_ptr<Hall>> hall = tl::unexpected<Error>(kBusy);
    if (image) {
        net::Loop* loop = m_options.loops[m_nextLoop++ % m_options.loops.size()];
        hall = std::make_shared<Hall>(
            HallSetup{loop, m_options.store, m_options.clock, m_epoch, m_options.keyWords, m_options.pictures},
            std::move(*image));
        m_halls[group] = *hall;
        if (loop == m_options.loops.front())
            (*hall)->start();
        else
            loop->post([started = *hall] { started->start(); }); // before any line that is brought there
    } else if (image.error().code == "group-unknown") {
        hall = tl::unexpected<Error>(image.error());
    }
    const auto waiting = m_loading.extract(group);
    if (!waiting.empty())
        for (const Found& found : waiting.mapped())
            found(hall);
}

void Halls::stop()
{
    for (auto& [group, hall] : m_halls) {
        net::Loop& loop = hall->loop();
        loop.post([leaving = std::move(hall)] { leaving->stop(); });
    }
    m_halls.clear();
}

void Halls::bring(Session& session, const std::shared_ptr<Hall>& hall, std::function<void(Hall&, Session&)> then)
{
    net::Connection* connection = session.connection();
    if (!connection || !connection->isOpen())
        return;
    noLongerComing(session);
    if (&connection->loop() == &hall->loop())
        return then(*hall, session);
    auto arrived = [hall, self = session.shared_from_this(), then = std::move(then)](net::Connection&) {
        if (self->connection())
            then(*hall, *self);
    };
    // Not from inside the handler's own call: the connection changes hands in a task of its own.
    connection->loop().post(
        [weak = session.weak_from_this(), &to = hall->loop(), arrived = std::move(arrived)]() mutable {
            if (const auto line = weak.lock(); line && line->connection() && line->connection()->isOpen())
                line->connection()->moveTo(to, std::move(arrived));
        });
}

void Halls::turnOff(Session& session, const Error& why, wire::CloseCode code)
{
    session.refuse({}, why);
    session.closeAfterwards(code, why.message);
}

bool Halls::guessesTooMuch(Session& session, const std::string& what)
{
    if (!session.connection() ||
        !m_failures.isClosed(countedAddress(session.connection()->address()) + " " + what, m_options.clock->now()))
        return false;
    turnOff(session, kTooOften, kCloseTryLater);
    return true;
}

std::string Halls::guess(const Session& session, const std::string& what)
{
    std::string key = countedAddress(session.connection()->address()) + " " + what;
    m_failures.looksInto(key, m_options.clock->now());
    return key;
}

void Halls::countAndTurnOff(Session& session, const std::string& what, const Error& why)
{
    if (!session.connection())
        return;
    // Counting belongs to the accepting loop, the line to its own.
    m_options.loops.front()->post([this, weak = session.weak_from_this(), &own = session.connection()->loop(), why,
                                   key = countedAddress(session.connection()->address()) + " " + what] {
        const bool closed = m_failures.isClosed(key, m_options.clock->now());
        if (!closed)
            m_failures.failed(key, m_options.clock->now());
        own.post([weak, closed, why] {
            if (const auto line = weak.lock(); line && line->connection())
                closed ? turnOff(*line, kTooOften, kCloseTryLater) : turnOff(*line, why, kCloseNotKnown);
        });
    });
}

void Halls::login(Session& session, const wire::Login& message)
{
    if (std::exchange(session.m_entering, true))
        return;
    if (!wire::verify(message.key,
                      wire::loginText(wire::Purpose::login, message.group.hex(), session.m_nonce, message.role),
                      message.signature))
        return turnOff(session, kSignature, kCloseNotKnown);
    // Looking for a group that is not here costs the store a look; known devices of halls that are here never wait.
    if (!m_halls.contains(message.group) && guessesTooMuch(session, "group"))
        return;
    session.m_key = message.key;
    session.m_boardSince = message.boardSince;
    find(message.group, [this, weak = session.weak_from_this(), role = message.role,
                         group = message.group.hex()](const Result<std::shared_ptr<Hall>>& hall) {
        const auto line = weak.lock();
        if (!line || !line->connection())
            return;
        if (!hall && hall.error().code != "group-unknown")
            return turnOff(*line, hall.error(), kCloseTryLater);
        if (!hall)
            return countAndTurnOff(*line, "group", kNotKnown);
        bring(*line, *hall, [this, role, group](Hall& there, Session& arrived) {
            // A device that is known is let through before anybody counts.
            if (Member* member = there.memberFor(arrived.key(), role))
                there.admit(arrived, *member, role);
            else
                countAndTurnOff(arrived, group, kNotKnown);
        });
    });
}

void Halls::redeem(Session& session, const wire::Redeem& message)
{
    if (std::exchange(session.m_entering, true) || guessesTooMuch(session, "link"))
        return;
    const auto name = shownText(message.name, wire::kNameLength);
    if (!name)
        return turnOff(session, kNameless, kCloseNotKnown);
    if (!wire::verify(message.key,
                      wire::loginText(wire::Purpose::redeem, hexOf(message.token), session.m_nonce, Role::participant),
                      message.signature))
        return turnOff(session, kSignature, kCloseNotKnown);
    session.m_key = message.key;
    const std::string device = shownText(message.device, wire::kLabelLength).value_or("computer");
    auto done = [this, weak = session.weak_from_this(),
                 guessed = guess(session, "link")](const Result<store::PersonState>& person) {
        if (person || person.error().code == "store-failed")
            m_failures.wasRight(guessed);
        else
            m_failures.wasWrong(guessed, m_options.clock->now());
        const auto line = weak.lock();
        if (!person)
            return line ? turnOff(*line, person.error(), closeAfter(person.error())) : void();
        find(person->person.group, [this, weak, person = *person](const Result<std::shared_ptr<Hall>>& hall) {
            const auto still = weak.lock();
            if (!still)
                return;
            if (!hall)
                return turnOff(*still, hall.error(), kCloseTryLater);
            bring(*still, *hall, [person](Hall& there, Session& arrived) {
                Member& member = there.adopt(person);
                there.admit(arrived, member, member.foremost());
            });
        });
    };
    const auto submitted = m_options.store->submit(
        [token = message.token, name = *name, key = message.key, device,
         at = m_options.clock->now()](store::Tables& tables) -> Result<store::PersonState> {
            auto row = tables.links.redeem(Bits128{token}, name, key, device, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            return personState(tables, *row);
        },
        std::move(done), [loop = m_options.loops.front()](std::function<void()> task) { loop->post(std::move(task)); });
    if (submitted != store::Submitted::accepted) {
        m_failures.wasRight(countedAddress(session.connection()->address()) + " link");
        turnOff(session, kBusy, kCloseTryLater);
    }
}

void Halls::knock(Session& session, const wire::Knock& message)
{
    if (std::exchange(session.m_entering, true) || guessesTooMuch(session, "code"))
        return;
    const auto name = shownText(message.name, wire::kNameLength);
    const auto code = normaliseCode(message.code);
    if (!name)
        return turnOff(session, kNameless, kCloseNotKnown);
    if (!wire::verify(message.key,
                      wire::loginText(wire::Purpose::knock, code.value_or(""), session.m_nonce, Role::participant),
                      message.signature))
        return turnOff(session, kSignature, kCloseNotKnown);
    session.m_key = message.key;
    session.m_device = shownText(message.device, wire::kLabelLength).value_or("computer");
    auto done = [this, weak = session.weak_from_this(), name = *name,
                 guessed = guess(session, "code")](const Result<GroupId>& group) {
        if (group || group.error().code == "store-failed")
            m_failures.wasRight(guessed);
        else
            m_failures.wasWrong(guessed, m_options.clock->now());
        const auto line = weak.lock();
        if (!line)
            return;
        if (!group)
            return turnOff(*line, group.error(), closeAfter(group.error()));
        find(*group, [this, weak, name](const Result<std::shared_ptr<Hall>>& hall) {
            const auto still = weak.lock();
            if (!still)
                return;
            if (!hall)
                return turnOff(*still, hall.error(), kCloseTryLater);
            bring(*still, *hall, [name](Hall& there, Session& arrived) {
                // A device that has been let in before walks in.
                if (Member* member = there.memberFor(arrived.key(), Role::participant))
                    there.admit(arrived, *member, Role::participant);
                else
                    there.knock(arrived, name, arrived.device());
            });
        });
    };
    const auto submitted = m_options.store->submit(
        [code](store::Tables& tables) -> Result<GroupId> {
            const auto group = code ? tables.groups.byCode(*code) : std::nullopt;
            if (!group)
                return fail("code-unknown", "There is no group with this code. Please look at it once more.", "code");
            return group->id;
        },
        std::move(done), [loop = m_options.loops.front()](std::function<void()> task) { loop->post(std::move(task)); });
    if (submitted != store::Submitted::accepted) {
        m_failures.wasRight(countedAddress(session.connection()->address()) + " code");
        turnOff(session, kBusy, kCloseTryLater);
    }
}

} // namespace vh::hall
