#pragma once
// The board as one home has it: what others wrote, one's own lines and how each stands, a helper's answers to this
// person alone, and the line that is being written. While the board rests, new lines wait; nothing comes in during the
// person's own turn. Value; no widget, no socket; GUI thread. All texts are plain, never markup. Instants: the relay's.
#include "common/wire/to_client.h"

#include <QString>

#include <deque>
#include <set>

namespace vh::join
{

/// How one's own line stands.
enum class Stand : std::uint8_t {
    notMine,
    onItsWay, ///< not acknowledged: goes up as soon as it can
    toRead,   ///< a helper reads it first
    withLeader,
    read, ///< read, and not on the board
    onBoard,
    offBoard, ///< it was
    takenBack,
    refused ///< `about` says why; the text can be changed
};

struct BoardLine {
    enum class Kind : std::uint8_t { line, notice, answer };
    std::uint64_t key = 0;  ///< here; never used twice
    std::uint64_t item = 0; ///< the relay's; 0: not known yet
    Kind kind = Kind::line;
    Stand stand = Stand::notMine;
    QString name; ///< empty: not to be seen
    QString text;
    QString about;                               ///< of an answer: what it answers; of what was refused: why
    bool isPicture = false;                      ///< its caption is the text, which may be empty
    std::optional<wire::PictureAbout> picture{}; ///< while it can be fetched
    [[nodiscard]] bool isMine() const { return stand != Stand::notMine; }
};

class WordsHere
{
public:
    // --- what happens ----------------------------------------------------------------------------------------------
    void welcome(const wire::Welcome& welcome);
    void take(const wire::Board& board);
    void take(const wire::OwnNow& own);
    void take(const wire::Answer& answer);
    void take(const wire::MayWrite& mayWrite);
    /// How it is just now: what waits may come in.
    struct Moment {
        bool boardRests = false;
        bool ownTurn = false;
        Instant now{};
    };
    void look(const Moment& moment);
    /// The relay has line `key` as `item`. The item, if it was taken back meanwhile.
    [[nodiscard]] std::optional<std::uint64_t> acknowledged(std::uint64_t key, std::uint64_t item);
    void refused(std::uint64_t key, const QString& why);
    /// A picture has gone up, or will not.
    void pictureSent();
    void pictureRefused(const QString& why);
    /// Answers that were put away on an earlier day.
    void putAwayBefore(const std::set<std::uint64_t>& items) { m_putAway.insert(items.begin(), items.end()); }

    // --- what the person does --------------------------------------------------------------------------------------
    void boardIsOpen(bool open);
    /// The line that is being written.
    void setDraft(const QString& text);
    /// It is sent: the new line, or nothing and said() says why not.
    [[nodiscard]] const BoardLine* send();
    /// The control of one of one's own lines: take it back, write it again, change it. The item to be taken back.
    [[nodiscard]] std::optional<std::uint64_t> press(std::uint64_t key);
    /// The answer that is shown has been read. Its item.
    [[nodiscard]] std::optional<std::uint64_t> putAway();

    // --- how it is -------------------------------------------------------------------------------------------------
    [[nodiscard]] const std::deque<BoardLine>& lines() const { return m_lines; }
    [[nodiscard]] const BoardLine* line(std::uint64_t key) const;
    [[nodiscard]] const QString& draft() const { return m_draft; }
    [[nodiscard]] bool boardRests() const { return m_moment.boardRests; }
    [[nodiscard]] bool ownTurn() const { return m_moment.ownTurn; }
    /// Writing rests until then.
    [[nodiscard]] const std::optional<Instant>& restsUntil() const { return m_restsUntil; }
    [[nodiscard]] Instant now() const { return m_moment.now; }
    /// Lines of others that came in since the board was last looked at.
    [[nodiscard]] std::uint32_t newLines() const { return m_new; }
    /// Not acknowledged yet.
    [[nodiscard]] bool isAnyOnItsWay() const;
    /// What came in last of others, if it may be shown beside the class now.
    [[nodiscard]] const BoardLine* latest() const;
    /// The oldest answer that is not put away; not before a moment came in which it may be spoken of.
    [[nodiscard]] const BoardLine* answer() const;

    /// What has just become of one's own words, until something newer.
    struct Said {
        QString words;
        bool heed = false; ///< something to be done about it
    };
    [[nodiscard]] const Said& said() const { return m_said; }

private:
    BoardLine* byKey(std::uint64_t key);
    BoardLine* mine(std::uint64_t item);
    BoardLine& add(BoardLine line);
    void comeIn();
    void trim();
    void onBoard(const wire::BoardItem& item);
    void gone(std::uint64_t item);
    void say(const QString& words, bool heed = false);
    void toDraft(const QString& text);

    std::deque<BoardLine> m_lines;
    std::deque<BoardLine> m_waiting; ///< for a moment in which they may come in
    std::uint64_t m_lastKey = 0;
    std::set<std::uint64_t> m_own;       ///< items that this person wrote, of which here is no line
    std::set<std::uint64_t> m_putAway;   ///< answers
    std::set<std::uint64_t> m_takenBack; ///< keys: as soon as they have a number
    std::optional<HallEpoch> m_epoch;
    std::optional<Instant> m_restsUntil;
    QString m_draft;
    Said m_said;
    std::optional<Instant> m_saidAt;
    Moment m_moment;
    bool m_open = false; ///< the board is looked at
    std::uint32_t m_new = 0;
    std::uint64_t m_latest = 0; ///< key
    Instant m_latestAt{};
    std::uint64_t m_spokenOf = 0; ///< key: answers up to it may be shown
};

/// How it is with writing, while it rests: "until 10:42".
QString pausedWords(const WordsHere& words);

} // namespace vh::join
