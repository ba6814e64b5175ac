// Pictures that people send: up in pieces, made anew, onto the desk; turned, cut and captioned there.
#include "common/base/base64.h"
#include "server/hall/desk_item.h"
#include "server/hall/hall_store.h"
#include "server/hall/picture_works.h"
#include "server/hall/shown_text.h"

#include <algorithm>
#include <charconv>

namespace vh::hall
{

using store::BoardKind;
using store::BoardState;

static_assert(photos::kMostBytesOut == wire::kPictureShownBytes && wire::kPictureBytes <= photos::kMostBytesIn);

namespace
{

/// Pictures that wait to be read: of one person, and of all.
constexpr std::size_t kPicturesOfOne = 5;
constexpr std::size_t kPicturesOfAll = 50;

const Error kOff{"pictures-off", "This relay takes no pictures just now.", {}};
const Error kBusyMaking{"pictures-busy", "Many pictures are coming in just now. Please try again in a moment.", {}};
const Error kManyHeld{"many-held", "Your earlier pictures are still to be looked at. Please wait a moment.", {}};

/// A caption may be empty.
Result<std::string> captionOf(const std::string& text)
{
    auto caption = shownText(text, wire::kChatLength, LineBreaks::keep);
    return caption || caption.error().code != "text-empty" ? caption : std::string();
}

template <class Rows>
bool tooManyHeld(const Rows& held, PersonId author)
{
    std::size_t own = 0;
    std::size_t all = 0;
    for (const store::BoardRow& row : held)
        if (row.kind == BoardKind::picture && row.state == BoardState::held) {
            ++all;
            own += row.author == author;
        }
    return own >= kPicturesOfOne || all >= kPicturesOfAll;
}

wire::Ack ackOf(const RequestId& id, std::string_view item)
{
    wire::Ack ack;
    ack.id = id;
    std::from_chars(item.data(), item.data() + item.size(), ack.item.emplace());
    return ack;
}

store::PictureRow pictureRow(const photos::Remade& remade)
{
    return {remade.bytes, remade.size.width, remade.size.height};
}

} // namespace

/// A picture that has come whole.
struct Hall::SentPicture {
    std::weak_ptr<Session> line;
    std::shared_ptr<void> underWay;
    PersonId person;
    Role role = Role::participant;
    RequestId piece; ///< the last one
    RequestId picture;
    store::Hash payload{};
    std::string text;
    std::shared_ptr<HeldRoom> room;

    void refuse(const Error& why) const
    {
        if (const auto sender = line.lock())
            sender->refuse(piece, why);
    }
};

// --- on their way up -----------------------------------------------------------------------------------------------

std::optional<Error> Hall::whyNoPicture(Role role, const Member& member) const
{
    if (!m_setup.pictures)
        return kOff;
    if ((role == Role::participant || role == Role::standIn) && !member.agreements.pictures)
        return Error{"not-agreed", "You have not agreed to your pictures being shown and kept for a while.", {}};
    if (restOf(member))
        return Error{"quiet", "The helper has asked for a pause in writing.", {}};
    return std::nullopt;
}

void Hall::on(Session& session, wire::PicturePiece& message)
{
    const auto refuse = [&](const Error& why) {
        m_coming.forget(&session);
        session.refuse(message.id, why);
    };
    if (const auto why = whyNoPicture(session.role(), *session.member()))
        return message.piece == 0 ? lookForPicture(session, message.id, message.picture, why) : refuse(*why);
    auto bytes = bytesOfBase64(message.base64);
    if (!bytes || bytes->empty() || bytes->size() > wire::kPicturePieceBytes)
        return refuse({"piece-unreadable", "A part of the picture cannot be read.", "base64"});
    const auto caption = captionOf(message.text);
    if (!caption)
        return refuse(caption.error());
    auto whole = m_coming.take(&session, message, *caption, std::move(*bytes), now());
    if (!whole)
        return refuse(whole.error());
    if (*whole)
        return makePicture(session, message.id, std::move(**whole));
    if (message.piece == 0)
        return lookForPicture(session, message.id, message.picture, {});
    done(session, message.id);
}

/// Has it been here before, and the answer was lost? Then nothing more of it has to come. Else `why` it may not, if so.
void Hall::lookForPicture(Session& session, const RequestId& piece, const RequestId& picture,
                          const std::optional<Error>& why)
{
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(piece, busy());
    auto work = [person = session.member()->id, picture](store::Tables& tables) -> Result<std::optional<std::string>> {
        return tables.answerTo(person, picture);
    };
    auto then = [self = shared_from_this(), weak = session.weak_from_this(), underWay = std::move(underWay), piece,
                 picture, why](const Result<std::optional<std::string>>& item) {
        const auto line = weak.lock();
        if (!line || !line->member())
            return;
        const PersonId person = line->member()->id;
        const auto refuse = [&](const Error& error) {
            self->m_coming.forget(line.get(), picture);
            line->refuse(piece, error);
        };
        if (!item)
            return refuse(item.error());
        if (*item) {
            self->m_coming.forget(line.get(), picture);
            return line->send(ackOf(piece, **item), self->m_log.end());
        }
        if (why)
            return refuse(*why);
        std::vector<store::BoardRow> held;
        for (const auto& [id, row] : self->m_desk.rows())
            held.push_back(row);
        if (tooManyHeld(held, person))
            return refuse(kManyHeld);
        self->done(*line, piece);
    };
    if (m_setup.store->submit(std::move(work), std::move(then), poster()) != store::Submitted::accepted)
        session.refuse(piece, busy());
}

void Hall::makePicture(Session& session, const RequestId& piece, ComingPictures::Whole whole)
{
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(piece, busy());
    auto sent = std::make_shared<SentPicture>();
    *sent = {
        session.weak_from_this(),   std::move(underWay),   session.member()->id, session.role(), piece, whole.picture,
        store::sha256(whole.bytes), std::move(whole.text), std::move(whole.room)};
    auto made = [self = shared_from_this(), sent](const Result<photos::Remade>& remade) {
        remade ? self->keepPicture(sent, *remade) : sent->refuse(remade.error());
    };
    if (!m_setup.pictures->maker.submit(std::move(whole.bytes), {}, std::move(made), poster()))
        session.refuse(piece, kBusyMaking);
}

/// On disk once for each (person, picture). Whether its line is still there does not matter: it is asked again.
void Hall::keepPicture(const std::shared_ptr<SentPicture>& sent, const photos::Remade& remade)
{
    sent->room.reset();
    const Member* member = memberById(sent->person);
    if (!member)
        return;
    if (const auto why = whyNoPicture(sent->role, *member)) // meanwhile
        return sent->refuse(*why);
    auto added = std::make_shared<store::BoardRow>();
    auto work = [sent, row = boardRow(sent->person, BoardKind::picture, sent->text), picture = pictureRow(remade),
                 added](store::Tables& tables) mutable -> Result<store::OnceAnswer> {
        return tables.once(sent->person, sent->picture, sent->payload, row.at, [&]() -> Result<std::string> {
            if (tooManyHeld(tables.board.held(row.group), sent->person))
                return tl::unexpected<Error>(kManyHeld);
            row.picture = tables.board.putPicture(picture, row.at);
            row.width = picture.width;
            row.height = picture.height;
            *added = tables.board.add(row);
            return std::to_string(added->id);
        });
    };
    auto then = [self = shared_from_this(), sent, added](const Result<store::OnceAnswer>& answer) {
        if (!answer)
            return sent->refuse(answer.error());
        if (!answer->again)
            self->itemChanged(*added, false);
        if (const auto line = sent->line.lock())
            line->send(ackOf(sent->piece, answer->answer), self->m_log.end());
    };
    if (m_setup.store->submit(std::move(work), std::move(then), poster()) != store::Submitted::accepted)
        sent->refuse(busy());
}

// --- as the desk wants them ----------------------------------------------------------------------------------------

void Hall::on(Session& session, wire::EditPicture& message)
{
    const auto caption = captionOf(message.text);
    if (!caption)
        return session.refuse(message.id, caption.error());
    message.text = *caption;
    const photos::Wish wish{static_cast<int>(message.quarterTurns % 4),
                            {message.left, message.top, message.right, message.bottom}};
    if (!photos::makesSense(wish.cut))
        return session.refuse(message.id, {"cut-impossible", "Nothing would be left of the picture.", "left"});
    if (wish == photos::Wish{})
        return keepEdit(session, message, {});
    if (!m_setup.pictures)
        return session.refuse(message.id, kOff);
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse(message.id, busy());
    // Nothing: this was done before, and keepEdit() gives its answer again.
    auto work = [message, person = session.member()->id,
                 group = m_group.id](store::Tables& tables) -> Result<std::optional<store::Bytes>> {
        if (tables.answerTo(person, message.id))
            return std::nullopt;
        const auto row =
            seenAt(tables, group, static_cast<std::int64_t>(message.item), static_cast<std::int64_t>(message.change));
        if (!row)
            return tl::unexpected<Error>(row.error());
        auto part = row->picture ? tables.classes.part(*row->picture) : std::nullopt;
        if (!part)
            return tl::unexpected<Error>(itemUnknown());
        return std::move(part->bytes);
    };
    auto then = [self = shared_from_this(), weak = session.weak_from_this(), underWay = std::move(underWay), message,
                 wish](Result<std::optional<store::Bytes>> bytes) {
        const auto line = weak.lock();
        if (!line || !line->member())
            return; // it is asked for again
        if (!bytes)
            return line->refuse(message.id, bytes.error());
        if (!*bytes)
            return self->keepEdit(*line, message, {});
        auto made = [self, weak, underWay, message](const Result<photos::Remade>& remade) {
            const auto still = weak.lock();
            if (!still || !still->member())
                return;
            remade ? self->keepEdit(*still, message, pictureRow(*remade)) : still->refuse(message.id, remade.error());
        };
        if (!self->m_setup.pictures->maker.submit(std::move(**bytes), wish, std::move(made), self->poster()))
            line->refuse(message.id, kBusyMaking);
    };
    if (m_setup.store->submit(std::move(work), std::move(then), poster()) != store::Submitted::accepted)
        session.refuse(message.id, busy());
}

void Hall::keepEdit(Session& session, const wire::EditPicture& message, std::optional<store::PictureRow> picture)
{
    auto edited = std::make_shared<store::BoardRow>();
    durably(
        session, message,
        [item = static_cast<std::int64_t>(message.item), change = static_cast<std::int64_t>(message.change),
         text = message.text, picture = std::move(picture), group = m_group.id, by = session.member()->id, edited,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (const auto before = seenAt(tables, group, item, change); !before)
                return tl::unexpected<Error>(before.error());
            auto row = tables.board.setPicture(item, text, picture, at);
            if (!row)
                return tl::unexpected<Error>(row.error());
            tables.log.add({0, group, by, actOn(*row, "changed"), row->author, std::to_string(item), at, {}});
            *edited = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), edited] { self->itemChanged(*edited, edited->state == BoardState::shown); });
}

} // namespace vh::hall
