// The pictures on the board: their bytes are parts, kept as long as an item has them.
#include "server/store/statements.h"
#include "server/store/tables.h"

namespace vh::store
{

Hash Board::putPicture(const PictureRow& picture, Instant now)
{
    const Hash hash = sha256(picture.bytes);
    m_statements->exec("INSERT INTO parts VALUES (?, 'sent-picture', ?, ?) ON CONFLICT (hash) DO UPDATE SET stored_at ="
                       " excluded.stored_at",
                       hash, picture.bytes, now);
    return hash;
}

Result<BoardRow> Board::setPicture(std::int64_t id, const std::string& text, const std::optional<PictureRow>& picture,
                                   Instant now)
{
    const auto before = byId(id);
    if (!before || before->kind != BoardKind::picture)
        return fail("item-unknown", "There is no such picture on the board.");
    BoardRow after = *before;
    if (picture) {
        after.picture = putPicture(*picture, now);
        after.width = picture->width;
        after.height = picture->height;
    }
    m_statements->exec("UPDATE board SET change = ?, text = ?, picture = ?, width = ?, height = ? WHERE id = ?",
                       nextChange(), text, after.picture, after.width, after.height, id);
    if (after.picture != before->picture)
        dropUnused(before->picture);
    return *byId(id);
}

Result<BoardRow> Board::erasePicture(std::int64_t id)
{
    const auto before = byId(id);
    if (!before)
        return fail("item-unknown", "There is no such picture on the board.");
    m_statements->exec("UPDATE board SET text = '', picture = NULL, width = 0, height = 0 WHERE id = ?", id);
    dropUnused(before->picture);
    return *byId(id);
}

void Board::dropUnused(const std::optional<Hash>& picture)
{
    if (!picture)
        return;
    m_statements->dropUnusedPart(*picture);
    m_statements->noteErased();
}

std::vector<BoardRow> Board::picturesOf(PersonId author) const
{
    const auto ids =
        m_statements->rows([](const Query& row) { return row.number(0); },
                           "SELECT id FROM board WHERE author = ? AND picture IS NOT NULL ORDER BY id", author);
    std::vector<BoardRow> all;
    all.reserve(ids.size());
    for (const std::int64_t id : ids)
        all.push_back(*byId(id));
    return all;
}

std::optional<Bytes> Board::pictureFor(GroupId group, const Hash& picture, PersonId viewer, bool atDesk) const
{
    return m_statements->row([](const Query& row) { return row.bytes(0); },
                             "SELECT bytes FROM parts WHERE hash = ?1 AND EXISTS (SELECT 1 FROM board WHERE"
                             " picture = ?1 AND group_id = ?2 AND (?4 OR state = 1 OR author = ?3"
                             "  OR (state IN (3, 7) AND id IN (SELECT item FROM windows WHERE group_id = ?2))))",
                             picture, group, viewer, atDesk ? 1 : 0);
}

void Board::setWindow(GroupId group, std::optional<std::int64_t> item)
{
    if (item)
        m_statements->exec("INSERT OR REPLACE INTO windows VALUES (?, ?)", group, *item);
    else
        m_statements->exec("DELETE FROM windows WHERE group_id = ?", group);
}

std::optional<BoardRow> Board::inWindow(GroupId group) const
{
    const auto item = m_statements->row([](const Query& row) { return row.number(0); },
                                        "SELECT item FROM windows WHERE group_id = ?", group);
    return item ? byId(*item) : std::nullopt;
}

int Board::forgetSetAside(Instant now)
{
    const auto ids = m_statements->rows([](const Query& row) { return row.number(0); },
                                        "SELECT id FROM board WHERE kind = 2 AND state = 2 AND picture IS NOT NULL"
                                        " AND decided_at < ?",
                                        now - kUndoable);
    for (const std::int64_t id : ids)
        (void)erasePicture(id);
    return static_cast<int>(ids.size());
}

} // namespace vh::store
