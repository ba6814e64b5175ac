#pragma once
// How the hall asks for something to be done durably, and tells others. Included by the hall's own sources only.
#include "server/hall/hall.h"

#include <algorithm>

namespace vh::hall
{

wire::HandoutNow handoutNow(const store::HandoutRow& row);

inline Error busy()
{
    return {"busy", "The relay has too much to write just now. Please try again in a moment.", {}};
}

inline Error noClass()
{
    return {"no-class", "No class is open.", {}};
}

template <class Message, class Work, class Then>
void Hall::durably(Session& session, const Message& message, Work work, Then then)
{
    const RequestId id = message.id;
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(id, busy());
    auto job = [work = std::move(work), id, person = session.member()->id,
                payload = store::sha256(wire::encode(message)),
                at = now()](store::Tables& tables) mutable -> Result<store::OnceAnswer> {
        return tables.once(person, id, payload, at, [&]() -> Result<std::string> {
            Result<wire::Ack> ack = work(tables);
            if (!ack)
                return tl::unexpected<Error>(ack.error());
            ack->id = id;
            return wire::encode(*ack);
        });
    };
    auto done = [self = shared_from_this(), weak = session.weak_from_this(), id, underWay = std::move(underWay),
                 then = std::move(then)](Result<store::OnceAnswer> answer) mutable {
        if constexpr (std::is_invocable_v<Then&, bool>) {
            if (answer)
                then(answer->again);
        } else if (answer && !answer->again) {
            then();
        }
        const auto line = weak.lock();
        if (!line)
            return;
        if (answer)
            line->sendText(answer->answer, self->m_log.end());
        else
            line->refuse(id, answer.error());
    };
    if (m_setup.store->submit(std::move(job), std::move(done), poster()) != store::Submitted::accepted)
        session.refuse(id, busy());
}

template <class Work, class Then>
void Hall::onDisk(Session& session, const RequestId& id, Work work, Then then)
{
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(id, busy());
    auto done = [self = shared_from_this(), weak = session.weak_from_this(), id, underWay = std::move(underWay),
                 then = std::move(then)](Result<wire::Ack> ack) mutable {
        if (ack)
            then();
        const auto line = weak.lock();
        if (!line)
            return;
        if (!ack)
            return line->refuse(id, ack.error());
        ack->id = id;
        line->send(*ack, self->m_log.end());
    };
    if (m_setup.store->submit(std::move(work), std::move(done), poster()) != store::Submitted::accepted)
        session.refuse(id, busy());
}

template <class Message>
void Hall::tellAll(Message message, net::FrameKind kind)
{
    if constexpr (requires { message.seq; })
        message.seq = ++m_seq;
    m_log.append(wire::Opcode::text, wire::encode(message), kind);
}

template <class Message, class Fits>
void Hall::tellThose(Fits fits, const Message& message, net::Weight weight)
{
    net::FrameBytes frame;
    for (Session* session : m_sessions) {
        if (!fits(*session) || !session->connection())
            continue;
        if (!frame)
            frame = net::makeFrame(wire::Opcode::text, wire::encode(message));
        session->connection()->send(frame, m_log.end(), weight);
    }
}

template <class Message>
void Hall::tell(RoleSet roles, const Message& message, net::Weight weight)
{
    tellThose([roles](const Session& session) { return (roles & roleBit(session.role())) != 0; }, message, weight);
}

/// A long list in messages of bounded length, at least one; the first says `whole` where the message has it.
template <class Message, class Item, class Send>
void inPieces(const std::vector<Item>& items, std::vector<Item> Message::*list, bool whole, Send send)
{
    constexpr std::size_t kPiece = 100;
    std::size_t at = 0;
    do {
        Message piece;
        if constexpr (requires { piece.whole; })
            piece.whole = whole && at == 0;
        const std::size_t end = std::min(items.size(), at + kPiece);
        (piece.*list)
            .assign(items.begin() + static_cast<std::ptrdiff_t>(at), items.begin() + static_cast<std::ptrdiff_t>(end));
        send(piece);
        at = end;
    } while (at < items.size());
}

inline constexpr RoleSet kDesk = rolesOf(Role::moderator, Role::leader);

} // namespace vh::hall
