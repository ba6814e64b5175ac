#include "server/store/schema.h"

namespace vh::store
{

namespace
{

// Conventions: ids are 16 random bytes, hashes and keys 32 bytes, times whole milliseconds since 1970, flags 0 or 1,
// numbers of enums as in rows.h. What belongs to a person goes with the person (CASCADE); what a person did for others
// stays without the name (SET NULL).
const char* const kStep1 = R"sql(
CREATE TABLE groups (
    id BLOB PRIMARY KEY CHECK (length(id) = 16),
    name TEXT NOT NULL,
    code TEXT NOT NULL UNIQUE CHECK (length(code) = 6),
    created_at INTEGER NOT NULL,
    board_days INTEGER NOT NULL CHECK (board_days >= 0),
    result_days INTEGER NOT NULL CHECK (result_days >= 0),
    attendance_days INTEGER NOT NULL CHECK (attendance_days >= 0),
    log_days INTEGER NOT NULL CHECK (log_days >= 0)
) STRICT, WITHOUT ROWID;

CREATE TABLE people (
    id BLOB PRIMARY KEY CHECK (length(id) = 16),
    group_id BLOB NOT NULL REFERENCES groups (id),
    name TEXT NOT NULL,
    seat INTEGER CHECK (seat >= 0),
    created_at INTEGER NOT NULL,
    removed_at INTEGER,
    UNIQUE (group_id, seat),
    CHECK ((seat IS NULL) = (removed_at IS NOT NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE roles (
    person BLOB NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    role INTEGER NOT NULL CHECK (role BETWEEN 0 AND 3),
    PRIMARY KEY (person, role)
) STRICT, WITHOUT ROWID;

CREATE TABLE devices (
    key BLOB PRIMARY KEY CHECK (length(key) = 32),
    person BLOB NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    label TEXT NOT NULL,
    since INTEGER NOT NULL,
    last_seen INTEGER NOT NULL,
    revoked_at INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX devices_by_person ON devices (person);

CREATE TABLE links (
    token_hash BLOB PRIMARY KEY CHECK (length(token_hash) = 32),
    group_id BLOB NOT NULL REFERENCES groups (id),
    role INTEGER NOT NULL CHECK (role BETWEEN 0 AND 3),
    made_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    for_person BLOB REFERENCES people (id) ON DELETE CASCADE,
    expires_at INTEGER NOT NULL,
    used_at INTEGER,
    used_by BLOB CHECK (length(used_by) = 32)
) STRICT, WITHOUT ROWID;
CREATE INDEX links_by_maker ON links (made_by);
CREATE INDEX links_by_person ON links (for_person);

CREATE TABLE agreements (
    id INTEGER PRIMARY KEY,
    person BLOB NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 8),
    value TEXT NOT NULL,
    wording_version INTEGER NOT NULL,
    device BLOB,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX agreements_by_person ON agreements (person, kind, id);
CREATE TRIGGER agreements_never_change BEFORE UPDATE ON agreements
BEGIN
    SELECT RAISE(ABORT, 'agreements are append-only');
END;
-- A cascade runs after its person's row has gone, so erasing a person is the one way through.
CREATE TRIGGER agreements_go_with_their_person BEFORE DELETE ON agreements
WHEN EXISTS (SELECT 1 FROM people WHERE id = OLD.person)
BEGIN
    SELECT RAISE(ABORT, 'agreements are append-only');
END;

CREATE TABLE bands (
    person BLOB PRIMARY KEY REFERENCES people (id) ON DELETE CASCADE,
    offset_tenths_db INTEGER NOT NULL,
    set_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX bands_by_setter ON bands (set_by);

CREATE TABLE contacts (
    person BLOB PRIMARY KEY REFERENCES people (id) ON DELETE CASCADE,
    whereabouts TEXT NOT NULL,
    whom_to_ring TEXT NOT NULL,
    at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE parts (
    hash BLOB PRIMARY KEY CHECK (length(hash) = 32),
    kind TEXT NOT NULL,
    bytes BLOB NOT NULL,
    stored_at INTEGER NOT NULL
) STRICT;

CREATE TABLE classes (
    id BLOB PRIMARY KEY CHECK (length(id) = 16),
    group_id BLOB NOT NULL REFERENCES groups (id),
    leader BLOB REFERENCES people (id) ON DELETE SET NULL,
    title TEXT NOT NULL,
    script BLOB NOT NULL REFERENCES parts (hash),
    started_at INTEGER NOT NULL,
    ended_at INTEGER
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX classes_one_open ON classes (group_id) WHERE ended_at IS NULL;
CREATE INDEX classes_by_group ON classes (group_id, started_at);
CREATE INDEX classes_by_leader ON classes (leader);
CREATE INDEX classes_by_script ON classes (script);

CREATE TABLE class_parts (
    class BLOB NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    part BLOB NOT NULL REFERENCES parts (hash),
    PRIMARY KEY (class, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX class_parts_by_part ON class_parts (part);

CREATE TABLE places (
    class BLOB NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    revision INTEGER NOT NULL,
    lease_epoch INTEGER NOT NULL,
    state BLOB NOT NULL,
    at INTEGER NOT NULL,
    PRIMARY KEY (class, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE attendance (
    id INTEGER PRIMARY KEY,
    class BLOB NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    person BLOB REFERENCES people (id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    arrived_at INTEGER NOT NULL,
    left_at INTEGER,
    by_hand INTEGER NOT NULL CHECK (by_hand IN (0, 1)),
    UNIQUE (class, person)
) STRICT;
CREATE INDEX attendance_by_person ON attendance (person);

CREATE TABLE board (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    change INTEGER NOT NULL UNIQUE,
    group_id BLOB NOT NULL REFERENCES groups (id),
    class BLOB REFERENCES classes (id) ON DELETE SET NULL,
    author BLOB REFERENCES people (id) ON DELETE CASCADE,
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 2),
    state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 2),
    text TEXT NOT NULL,
    picture BLOB REFERENCES parts (hash),
    at INTEGER NOT NULL,
    decided_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    decided_at INTEGER,
    was_shown INTEGER NOT NULL CHECK (was_shown IN (0, 1))
) STRICT;
CREATE INDEX board_by_change ON board (group_id, change) WHERE was_shown = 1;
CREATE INDEX board_by_state ON board (group_id, state, id);
CREATE INDEX board_by_class ON board (class);
CREATE INDEX board_by_author ON board (author);
CREATE INDEX board_by_decider ON board (decided_by);
CREATE INDEX board_by_picture ON board (picture);

CREATE TABLE counters (
    name TEXT PRIMARY KEY,
    value INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO counters VALUES ('board', 0);

CREATE TABLE calls (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    group_id BLOB NOT NULL REFERENCES groups (id),
    class BLOB REFERENCES classes (id) ON DELETE SET NULL,
    person BLOB NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    place TEXT NOT NULL,
    at INTEGER NOT NULL,
    taken_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    taken_at INTEGER,
    done_at INTEGER,
    outcome TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX calls_not_done ON calls (group_id, id) WHERE done_at IS NULL;
CREATE INDEX calls_by_class ON calls (class);
CREATE INDEX calls_by_person ON calls (person);
CREATE INDEX calls_by_taker ON calls (taken_by);

CREATE TABLE turn_results (
    person BLOB NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    class BLOB NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    turn_serial INTEGER NOT NULL,
    section_kind TEXT NOT NULL,
    voiced_ms INTEGER NOT NULL CHECK (voiced_ms >= 0),
    leq_over_usual_tenths_db INTEGER,
    standing TEXT NOT NULL,
    blank TEXT NOT NULL,
    judge_version INTEGER NOT NULL,
    at INTEGER NOT NULL,
    PRIMARY KEY (person, class, turn_serial)
) STRICT, WITHOUT ROWID;
CREATE INDEX turn_results_by_class ON turn_results (class);

CREATE TABLE log (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    group_id BLOB NOT NULL REFERENCES groups (id),
    who BLOB REFERENCES people (id) ON DELETE SET NULL,
    what TEXT NOT NULL,
    target BLOB REFERENCES people (id) ON DELETE CASCADE,
    detail TEXT NOT NULL,
    at INTEGER NOT NULL,
    undoes INTEGER REFERENCES log (id) ON DELETE SET NULL
) STRICT;
CREATE INDEX log_by_group ON log (group_id, at);
CREATE INDEX log_by_who ON log (who);
CREATE INDEX log_by_target ON log (target);
CREATE INDEX log_by_undone ON log (undoes);

CREATE TABLE requests (
    person BLOB NOT NULL REFERENCES people (id) ON DELETE CASCADE,
    id BLOB NOT NULL CHECK (length(id) = 16),
    payload BLOB NOT NULL CHECK (length(payload) = 32),
    answer TEXT NOT NULL,
    at INTEGER NOT NULL,
    PRIMARY KEY (person, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX requests_by_age ON requests (at);
)sql";

// The handout of the class that is open or was the last: one for each group, gone when the next class opens.
const char* const kStep2 = R"sql(
CREATE TABLE handouts (
    group_id BLOB PRIMARY KEY REFERENCES groups (id),
    class BLOB NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    bytes INTEGER NOT NULL CHECK (bytes > 0)
) STRICT, WITHOUT ROWID;
CREATE INDEX handouts_by_class ON handouts (class);

CREATE TABLE handout_parts (
    group_id BLOB NOT NULL REFERENCES handouts (group_id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    part BLOB NOT NULL REFERENCES parts (hash),
    PRIMARY KEY (group_id, number)
) STRICT, WITHOUT ROWID;
CREATE INDEX handout_parts_by_part ON handout_parts (part);
)sql";

// The board learns to wait (due), to answer somebody, and that a helper, the leader or a clinician has an item in hand;
// a person's writing can rest for a while; a group may let lines through unread. The board's ids go on where they were.
const char* const kStep3 = R"sql(
CREATE TABLE board_2 (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    change INTEGER NOT NULL UNIQUE,
    group_id BLOB NOT NULL REFERENCES groups (id),
    class BLOB REFERENCES classes (id) ON DELETE SET NULL,
    author BLOB REFERENCES people (id) ON DELETE CASCADE,
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 3),
    state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 6),
    text TEXT NOT NULL,
    picture BLOB REFERENCES parts (hash),
    at INTEGER NOT NULL,
    decided_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    decided_at INTEGER,
    was_shown INTEGER NOT NULL CHECK (was_shown IN (0, 1)),
    due INTEGER,
    to_person BLOB REFERENCES people (id) ON DELETE CASCADE,
    answers INTEGER
) STRICT;
INSERT INTO board_2 SELECT *, NULL, NULL, NULL FROM board;
DELETE FROM sqlite_sequence WHERE name = 'board_2';
INSERT INTO sqlite_sequence (name, seq) SELECT 'board_2', seq FROM sqlite_sequence WHERE name = 'board';
DROP TABLE board;
ALTER TABLE board_2 RENAME TO board;
CREATE INDEX board_by_change ON board (group_id, change) WHERE was_shown = 1;
CREATE INDEX board_by_state ON board (group_id, state, id);
CREATE INDEX board_by_class ON board (class);
CREATE INDEX board_by_author ON board (author);
CREATE INDEX board_by_decider ON board (decided_by);
CREATE INDEX board_by_picture ON board (picture);
CREATE INDEX board_by_recipient ON board (to_person);

CREATE TABLE rests (
    person BLOB PRIMARY KEY REFERENCES people (id) ON DELETE CASCADE,
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 2),
    class BLOB REFERENCES classes (id) ON DELETE CASCADE,
    until INTEGER NOT NULL,
    reason TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX rests_by_class ON rests (class);

ALTER TABLE groups ADD COLUMN board_open INTEGER NOT NULL DEFAULT 0 CHECK (board_open IN (0, 1));
)sql";

// In a class the leader may let the desk see the levels of those who agreed to it.
const char* const kStep4 = R"sql(
ALTER TABLE classes ADD COLUMN levels_to_desk INTEGER NOT NULL DEFAULT 0 CHECK (levels_to_desk IN (0, 1));
)sql";

// Pictures: how large they are, that one is with the leader to be shown (state 7), and which one is in the group's
// window. The board's ids go on where they were.
const char* const kStep5 = R"sql(
CREATE TABLE board_3 (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    change INTEGER NOT NULL UNIQUE,
    group_id BLOB NOT NULL REFERENCES groups (id),
    class BLOB REFERENCES classes (id) ON DELETE SET NULL,
    author BLOB REFERENCES people (id) ON DELETE CASCADE,
    kind INTEGER NOT NULL CHECK (kind BETWEEN 0 AND 3),
    state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 7),
    text TEXT NOT NULL,
    picture BLOB REFERENCES parts (hash),
    at INTEGER NOT NULL,
    decided_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    decided_at INTEGER,
    was_shown INTEGER NOT NULL CHECK (was_shown IN (0, 1)),
    due INTEGER,
    to_person BLOB REFERENCES people (id) ON DELETE CASCADE,
    answers INTEGER,
    width INTEGER NOT NULL DEFAULT 0,
    height INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO board_3 SELECT *, 0, 0 FROM board;
DELETE FROM sqlite_sequence WHERE name = 'board_3';
INSERT INTO sqlite_sequence (name, seq) SELECT 'board_3', seq FROM sqlite_sequence WHERE name = 'board';
DROP TABLE board;
ALTER TABLE board_3 RENAME TO board;
CREATE INDEX board_by_change ON board (group_id, change) WHERE was_shown = 1;
CREATE INDEX board_by_state ON board (group_id, state, id);
CREATE INDEX board_by_class ON board (class);
CREATE INDEX board_by_author ON board (author);
CREATE INDEX board_by_decider ON board (decided_by);
CREATE INDEX board_by_picture ON board (picture);
CREATE INDEX board_by_recipient ON board (to_person);

CREATE TABLE windows (
    group_id BLOB PRIMARY KEY REFERENCES groups (id),
    item INTEGER NOT NULL REFERENCES board (id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;
CREATE INDEX windows_by_item ON windows (item);
)sql";

// Calls for help: where the caller is stands with the contact alone. Whom to ring when nobody is there to help; the lines
// of people in class who may be rung when they break off, so that a restart of the relay forgets none of them.
const char* const kStep6 = R"sql(
ALTER TABLE calls DROP COLUMN place;

CREATE TABLE whom_to_ring (
    group_id BLOB PRIMARY KEY REFERENCES groups (id),
    text TEXT NOT NULL,
    set_by BLOB REFERENCES people (id) ON DELETE SET NULL,
    at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX whom_to_ring_by_setter ON whom_to_ring (set_by);

CREATE TABLE watched_lines (
    person BLOB PRIMARY KEY REFERENCES people (id) ON DELETE CASCADE,
    class BLOB NOT NULL REFERENCES classes (id) ON DELETE CASCADE,
    lost_at INTEGER,
    seen_by BLOB REFERENCES people (id) ON DELETE SET NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX watched_lines_by_class ON watched_lines (class);
CREATE INDEX watched_lines_by_seer ON watched_lines (seen_by);
)sql";

const char* const kSteps[] = {kStep1, kStep2, kStep3, kStep4, kStep5, kStep6};

} // namespace

std::span<const char* const> schemaSteps()
{
    return kSteps;
}

} // namespace vh::store
