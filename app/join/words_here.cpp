#include "app/join/words_here.h"

#include "common/base/text.h"

#include <QCoreApplication>

#include <algorithm>
#include <utility>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::WordsHere", source);
}

constexpr Millis kSaidStays{20'000};   ///< long enough to be read twice by a slow reader
constexpr Millis kNoticeStays{60'000}; ///< beside the class, while the board rests

/// Nothing more will become of it.
bool isSettled(const BoardLine& line)
{
    return line.stand != Stand::onItsWay && line.stand != Stand::refused && line.stand != Stand::toRead &&
           line.stand != Stand::withLeader;
}

BoardLine lineOf(const wire::BoardItem& item)
{
    BoardLine line;
    line.item = item.item;
    line.kind = item.kind == wire::ItemKind::notice ? BoardLine::Kind::notice : BoardLine::Kind::line;
    line.name = QString::fromStdString(item.name);
    line.text = QString::fromStdString(item.text);
    line.isPicture = item.kind == wire::ItemKind::picture;
    line.picture = item.picture;
    return line;
}

} // namespace

BoardLine* WordsHere::byKey(std::uint64_t key)
{
    const auto found = std::find_if(m_lines.begin(), m_lines.end(), [&](const auto& each) { return each.key == key; });
    return found == m_lines.end() ? nullptr : &*found;
}

BoardLine* WordsHere::mine(std::uint64_t item)
{
    const auto found = std::find_if(m_lines.begin(), m_lines.end(), [&](const BoardLine& each) {
        return each.isMine() && each.item == item && item != 0;
    });
    return found == m_lines.end() ? nullptr : &*found;
}

BoardLine& WordsHere::add(BoardLine line)
{
    line.key = ++m_lastKey;
    m_lines.push_back(std::move(line));
    trim();
    return m_lines.back();
}

/// The oldest go first; of one's own only those of which nothing more will become.
void WordsHere::trim()
{
    while (m_lines.size() > wire::kBoardTail) {
        const auto oldest = std::find_if(m_lines.begin(), m_lines.end() - 1, isSettled);
        if (oldest == m_lines.end() - 1)
            return;
        m_lines.erase(oldest);
    }
}

void WordsHere::say(const QString& words, bool heed)
{
    m_said = {words, heed};
    m_saidAt = m_moment.now;
}

// --- what happens --------------------------------------------------------------------------------------------------

void WordsHere::welcome(const wire::Welcome& welcome)
{
    m_own = {welcome.own.begin(), welcome.own.end()};
    const bool again = m_epoch != welcome.epoch; // the relay says all of the board, and not what went from it
    const bool whole = again || welcome.board.size() >= wire::kBoardTail; // or more has changed than it can say
    m_epoch = welcome.epoch;
    if (whole) {
        std::erase_if(m_lines,
                      [](const BoardLine& each) { return !each.isMine() && each.kind != BoardLine::Kind::answer; });
        m_waiting.clear();
    }
    for (BoardLine& each : m_lines)
        if (each.isMine() && each.item != 0 && !m_own.contains(each.item)) {
            if (each.stand == Stand::onBoard)
                each.stand = Stand::offBoard;
            else if (each.stand == Stand::toRead || each.stand == Stand::withLeader)
                each.stand = Stand::read;
        }
    for (const wire::BoardItem& item : welcome.board)
        onBoard(item);
    for (const wire::Answer& each : welcome.answers)
        take(each);
    m_restsUntil = welcome.writing ? welcome.writing->restsUntil : std::nullopt;
    m_moment.now = std::max(m_moment.now, welcome.now);
    if (again)
        m_new = 0; // what was there before somebody came in is nothing new
}

void WordsHere::take(const wire::Board& board)
{
    for (const wire::BoardItem& item : board.items)
        onBoard(item);
}

void WordsHere::onBoard(const wire::BoardItem& item)
{
    if (item.gone)
        return gone(item.item);
    if (BoardLine* own = mine(item.item)) {
        if (own->stand == Stand::takenBack)
            return;
        if (own->stand != Stand::onBoard)
            say(own->isPicture ? tr("Your picture is on the board.") : tr("Your line is on the board."));
        own->stand = Stand::onBoard;
        own->text = QString::fromStdString(item.text);
        own->picture = item.picture;
        return;
    }
    BoardLine line = lineOf(item);
    const auto isIt = [&](const BoardLine& each) {
        return each.item == item.item && each.kind != BoardLine::Kind::answer;
    };
    for (auto* lines : {&m_lines, &m_waiting})
        if (const auto known = std::find_if(lines->begin(), lines->end(), isIt); known != lines->end()) {
            known->text = line.text; // put right at the desk
            known->name = line.name;
            known->picture = line.picture;
            return;
        }
    if (m_own.contains(item.item)) {
        line.stand = Stand::onBoard;
        add(std::move(line));
        return;
    }
    m_waiting.push_back(std::move(line));
    comeIn();
}

void WordsHere::gone(std::uint64_t item)
{
    const auto isIt = [&](const BoardLine& each) {
        return each.item == item && !each.isMine() && each.kind != BoardLine::Kind::answer;
    };
    std::erase_if(m_waiting, isIt);
    std::erase_if(m_lines, isIt);
    if (BoardLine* own = mine(item); own && own->stand != Stand::takenBack)
        own->stand = Stand::offBoard;
}

void WordsHere::take(const wire::Answer& answer)
{
    const bool known = std::any_of(m_lines.begin(), m_lines.end(), [&](const BoardLine& each) {
        return each.kind == BoardLine::Kind::answer && each.item == answer.item;
    });
    if (known)
        return;
    BoardLine line;
    line.item = answer.item;
    line.kind = BoardLine::Kind::answer;
    line.name = QString::fromStdString(answer.from);
    line.text = QString::fromStdString(answer.text);
    line.about = QString::fromStdString(answer.about);
    add(std::move(line));
    look(m_moment);
}

void WordsHere::take(const wire::MayWrite& mayWrite)
{
    const bool rested = m_restsUntil.has_value();
    m_restsUntil = mayWrite.restsUntil;
    if (m_restsUntil)
        say(pausedWords(*this), true);
    else if (rested)
        say(tr("You can write again."));
}

void WordsHere::look(const Moment& moment)
{
    m_moment = moment;
    if (m_restsUntil && m_moment.now >= *m_restsUntil)
        take(wire::MayWrite{});
    if (m_saidAt && !m_said.heed && m_moment.now - *m_saidAt >= kSaidStays)
        m_said = {};
    if (!m_moment.ownTurn)
        m_spokenOf = m_lastKey;
    comeIn();
}

void WordsHere::comeIn()
{
    std::deque<BoardLine> stay;
    for (BoardLine& each : m_waiting) {
        const bool may = !m_moment.boardRests || (each.kind == BoardLine::Kind::notice && !m_moment.ownTurn);
        if (!may) {
            stay.push_back(std::move(each));
            continue;
        }
        m_latest = add(std::move(each)).key;
        m_latestAt = m_moment.now;
        if (!m_open)
            ++m_new;
        if (!m_said.heed)
            m_said = {};
    }
    m_waiting = std::move(stay);
}

std::optional<std::uint64_t> WordsHere::acknowledged(std::uint64_t key, std::uint64_t item)
{
    // The board, or the relay's list of one's own lines, may have been quicker.
    Stand stand = Stand::toRead;
    for (const BoardLine& each : m_lines)
        if (each.item == item && each.key != key && each.kind != BoardLine::Kind::answer)
            stand = each.isMine() ? each.stand : Stand::onBoard;
    const auto isIt = [&](const BoardLine& each) {
        return each.item == item && each.key != key && each.kind != BoardLine::Kind::answer;
    };
    std::erase_if(m_lines, isIt);
    if (std::erase_if(m_waiting, isIt) > 0)
        stand = Stand::onBoard;
    BoardLine* line = byKey(key);
    if (!line)
        return std::nullopt;
    line->item = item;
    if (line->stand == Stand::takenBack)
        return m_takenBack.erase(key) > 0 ? std::optional(item) : std::nullopt;
    line->stand = stand;
    say(stand == Stand::onBoard ? tr("Your line is on the board.") : tr("A helper has your line, and reads it first."));
    return std::nullopt;
}

void WordsHere::refused(std::uint64_t key, const QString& why)
{
    BoardLine* line = byKey(key);
    if (!line)
        return;
    m_takenBack.erase(key);
    if (line->stand == Stand::takenBack)
        return;                        // it is not there, as was wished
    if (m_draft.trimmed().isEmpty()) { // back to where it was written
        toDraft(line->text);
        std::erase_if(m_lines, [&](const BoardLine& each) { return each.key == key; });
        say(tr("%1 Your words are still here.").arg(why), true);
        return;
    }
    line->stand = Stand::refused;
    line->about = why;
    say(why, true);
}

// --- what the person does ------------------------------------------------------------------------------------------

void WordsHere::boardIsOpen(bool open)
{
    if (open || m_open)
        m_new = 0;
    if (m_open && !open) // what was taken back is off the screen with the screen
        std::erase_if(m_lines, [](const BoardLine& each) { return each.stand == Stand::takenBack && each.item != 0; });
    m_open = open;
}

void WordsHere::setDraft(const QString& text)
{
    if (text == m_draft)
        return;
    m_draft = text;
    m_said = {};
}

const BoardLine* WordsHere::send()
{
    if (m_restsUntil) {
        say(pausedWords(*this), true);
        return nullptr;
    }
    const std::string written = m_draft.toStdString();
    const auto clean = cleanLine(written, wire::kChatLength, LineBreaks::keep);
    if (!clean) {
        if (cleanLine(written, written.size(), LineBreaks::keep))
            say(tr("This is longer than %1 letters. Please make it shorter.").arg(wire::kChatLength), true);
        else
            setDraft({});
        return nullptr;
    }
    m_draft.clear();
    BoardLine line;
    line.stand = Stand::onItsWay;
    line.text = QString::fromStdString(*clean);
    m_said = {};
    return &add(std::move(line));
}

/// Nothing that stands there is lost.
void WordsHere::toDraft(const QString& text)
{
    m_draft = m_draft.trimmed().isEmpty() ? text : text + '\n' + m_draft;
    m_said = {};
}

std::optional<std::uint64_t> WordsHere::press(std::uint64_t key)
{
    BoardLine* line = byKey(key);
    if (!line || !line->isMine())
        return std::nullopt;
    switch (line->stand) {
    case Stand::onItsWay:
        line->stand = Stand::takenBack;
        m_takenBack.insert(key);
        say(tr("You have taken it back."));
        return std::nullopt;
    case Stand::toRead:
    case Stand::withLeader:
    case Stand::onBoard:
        line->stand = Stand::takenBack;
        say(tr("You have taken it back."));
        return line->item;
    case Stand::takenBack:
    case Stand::refused: {
        if (line->isPicture)
            return std::nullopt;
        toDraft(line->text);
        if (m_takenBack.contains(key)) // still without a number: it is taken back once it has one
            line->text.clear();
        else
            std::erase_if(m_lines, [&](const BoardLine& each) { return each.key == key; });
        return std::nullopt;
    }
    case Stand::notMine:
    case Stand::read:
    case Stand::offBoard:
        break;
    }
    return std::nullopt;
}

std::optional<std::uint64_t> WordsHere::putAway()
{
    const BoardLine* shown = answer();
    if (!shown)
        return std::nullopt;
    m_putAway.insert(shown->item);
    return shown->item;
}

// --- how it is -----------------------------------------------------------------------------------------------------

bool WordsHere::isAnyOnItsWay() const
{
    return std::any_of(m_lines.begin(), m_lines.end(), [](const auto& each) { return each.stand == Stand::onItsWay; });
}

const BoardLine* WordsHere::latest() const
{
    const auto found =
        std::find_if(m_lines.begin(), m_lines.end(), [&](const BoardLine& each) { return each.key == m_latest; });
    if (found == m_lines.end())
        return nullptr;
    const bool fresh = found->kind == BoardLine::Kind::notice && m_moment.now - m_latestAt < kNoticeStays;
    return m_moment.boardRests && !fresh ? nullptr : &*found;
}

const BoardLine* WordsHere::answer() const
{
    const auto found = std::find_if(m_lines.begin(), m_lines.end(), [&](const BoardLine& each) {
        return each.kind == BoardLine::Kind::answer && each.key <= m_spokenOf && !m_putAway.contains(each.item);
    });
    return found == m_lines.end() ? nullptr : &*found;
}

} // namespace vh::join
