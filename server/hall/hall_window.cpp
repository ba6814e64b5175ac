// Who fetches which picture; and the one that the leader shows in the group's window.
#include "server/hall/desk_item.h"
#include "server/hall/hall_store.h"

#include <algorithm>

namespace vh::hall
{

using store::BoardKind;

namespace
{

/// Framed once for all who ask: a picture that has just gone up is asked for by everybody at once.
constexpr std::size_t kFramesKept = 8;

const Error kNoPicture{"part-unknown", "There is no such picture, or it is not for you.", "hash"};

wire::PictureAbout aboutOf(const store::BoardRow& row)
{
    return {*row.picture, static_cast<std::uint32_t>(row.width), static_cast<std::uint32_t>(row.height)};
}

} // namespace

std::optional<wire::PictureAbout> Hall::pictureOf(const store::BoardRow& row)
{
    return row.kind == BoardKind::picture && row.picture ? std::optional(aboutOf(row)) : std::nullopt;
}

// --- fetching ------------------------------------------------------------------------------------------------------

/// By what is in memory; what is older on the board only the store knows.
bool Hall::maySee(const wire::Hash& picture, PersonId viewer, bool atDesk) const
{
    const auto is = [&](const store::BoardRow& row) { return row.picture == picture; };
    return (m_window && is(*m_window)) || std::any_of(m_board.begin(), m_board.end(), is) ||
           std::any_of(m_desk.rows().begin(), m_desk.rows().end(),
                       [&](const auto& each) { return is(each.second) && (atDesk || each.second.author == viewer); });
}

void Hall::on(Session& session, wire::PictureAsk& message)
{
    const wire::Hash hash = message.hash;
    const PersonId viewer = session.member()->id;
    const bool atDesk = (kDesk & roleBit(session.role())) != 0;
    const bool known = maySee(hash, viewer, atDesk);
    const auto kept =
        std::find_if(m_frames.begin(), m_frames.end(), [&](const auto& each) { return each.first == hash; });
    if (known && kept != m_frames.end())
        return session.connection()->send(kept->second, m_log.end(), net::Weight::bulk);
    auto underWay = session.beginJob();
    if (!underWay)
        return session.refuse({}, busy());
    Asking asking{session.weak_from_this(), std::move(underWay)};
    if (!known)
        return fetch(
            [group = m_group.id, hash, viewer, atDesk](store::Tables& tables) {
                return tables.board.pictureFor(group, hash, viewer, atDesk);
            },
            hash,
            [self = shared_from_this(), asking](const Result<net::FrameBytes>& frame) { self->answer(asking, frame); });
    auto& together = m_asking[hash];
    together.push_back(std::move(asking));
    if (together.size() > 1)
        return; // the store is being asked already
    fetch(
        [hash](store::Tables& tables) -> std::optional<store::Bytes> {
            auto part = tables.classes.part(hash);
            return part ? std::optional(std::move(part->bytes)) : std::nullopt;
        },
        hash,
        [self = shared_from_this(), hash](const Result<net::FrameBytes>& frame) {
            if (frame && self->maySee(hash, {}, true)) {
                self->m_frames.emplace_back(hash, *frame);
                if (self->m_frames.size() > kFramesKept)
                    self->m_frames.pop_front();
            }
            const auto all = self->m_asking.extract(hash);
            for (const Asking& each : all.mapped())
                self->answer(each, frame);
        });
}

/// `find`: std::optional<store::Bytes>(Tables&), on the store's thread.
template <class Find, class Then>
void Hall::fetch(Find find, const wire::Hash& hash, Then then)
{
    auto work = [find = std::move(find), hash](store::Tables& tables) -> Result<net::FrameBytes> {
        const std::optional<store::Bytes> bytes = find(tables);
        if (!bytes)
            return tl::unexpected<Error>(kNoPicture);
        return net::makeFrame(wire::Opcode::binary, wire::encodePart(hash, *bytes));
    };
    if (m_setup.store->submit(std::move(work), then, poster()) != store::Submitted::accepted)
        then(Result<net::FrameBytes>(tl::unexpected<Error>(busy())));
}

void Hall::answer(const Asking& asking, const Result<net::FrameBytes>& frame) const
{
    const auto line = asking.line.lock();
    if (!line || !line->connection())
        return;
    if (frame)
        line->connection()->send(*frame, m_log.end(), net::Weight::bulk);
    else
        line->refuse({}, frame.error());
}

// --- in the window -------------------------------------------------------------------------------------------------

void Hall::on(Session& session, wire::ShowPicture& message)
{
    auto shown = std::make_shared<store::BoardRow>();
    const auto item = static_cast<std::int64_t>(message.item);
    durably(
        session, message,
        [item, on = message.on, group = m_group.id, by = session.member()->id, shown,
         at = now()](store::Tables& tables) -> Result<wire::Ack> {
            if (!on) {
                if (const auto before = tables.board.inWindow(group); before && before->id == item)
                    tables.board.setWindow(group, {});
                return wire::Ack{};
            }
            const auto row = tables.board.byId(item);
            if (!isThere(row, group) || !pictureOf(*row))
                return tl::unexpected<Error>(itemUnknown());
            if (!isForWindow(*row))
                return fail("picture-unread", "Nobody at the desk has let this picture through yet.", "item");
            tables.board.setWindow(group, item);
            tables.log.add({0, group, by, actOn(*row, "in-window"), row->author, std::to_string(item), at, {}});
            *shown = *row;
            return wire::Ack{};
        },
        [self = shared_from_this(), shown, item, on = message.on, ends = m_windowEnds] {
            if (!on && self->m_window && self->m_window->id == item)
                self->endWindow();
            else if (on && ends != self->m_windowEnds)
                self->keepOutOfWindow(item); // she has moved on since
            else if (on)
                self->showInWindow(*shown);
        });
}

wire::PictureNow Hall::pictureNow() const
{
    wire::PictureNow now;
    now.seq = m_seq;
    if (!m_window)
        return now;
    now.item = static_cast<std::uint64_t>(m_window->id);
    now.picture = pictureOf(*m_window);
    now.text = m_window->text;
    const Member* author = m_window->author ? memberById(*m_window->author) : nullptr;
    if (author && nameShownTo(Viewer::participant, author->agreements))
        now.name = author->name;
    return now;
}

void Hall::showInWindow(const store::BoardRow& row)
{
    m_window = row;
    tellAll(pictureNow());
}

void Hall::endWindow()
{
    ++m_windowEnds;
    if (!m_window)
        return;
    const std::int64_t item = m_window->id;
    m_window.reset();
    tellAll(pictureNow());
    keepOutOfWindow(item);
}

/// Another one that has been shown since stays there.
void Hall::keepOutOfWindow(std::int64_t item)
{
    m_setup.store->submit(
        [group = m_group.id, item](store::Tables& tables) -> Result<bool> {
            if (const auto shown = tables.board.inWindow(group); shown && shown->id == item)
                tables.board.setWindow(group, {});
            return true;
        },
        [](const Result<bool>&) {}, poster());
}

/// Of a picture that the store has just written: what is in memory of it follows.
void Hall::pictureChanged(const store::BoardRow& row)
{
    if (m_window && m_window->id == row.id) {
        if (isForWindow(row))
            showInWindow(row);
        else
            endWindow();
    }
    std::erase_if(m_frames, [&](const auto& each) { return !maySee(each.first, {}, true); });
}

} // namespace vh::hall
