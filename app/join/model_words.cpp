// The board, as the participant's model has it: what happens to it, and what the person does there.
#include "app/join/join_model.h"

#include "common/live/board_rest.h"

#include <QCoreApplication>

#include <utility>

namespace vh::join
{

bool JoinModel::takeWords(const wire::ToClient& message)
{
    if (const auto* board = std::get_if<wire::Board>(&message)) {
        m_said.clear();
        m_words.take(*board);
    } else if (const auto* own = std::get_if<wire::OwnNow>(&message)) {
        m_words.take(*own);
    } else if (const auto* answer = std::get_if<wire::Answer>(&message)) {
        m_words.take(*answer);
    } else if (const auto* mayWrite = std::get_if<wire::MayWrite>(&message)) {
        m_words.take(*mayWrite);
    } else if (const auto* people = std::get_if<wire::People>(&message)) {
        m_people = *people;
    } else {
        return false;
    }
    return true;
}

/// Where the class is decides what may come onto the screen.
void JoinModel::lookAtWords(Instant now)
{
    const bool runs = m_placeNow && m_placeNow->phase == Phase::running && m_script;
    const auto isOwn = [](const std::optional<TurnAt>& at) { return at && isOwnTurn(at->turn->kind); };
    WordsHere::Moment moment;
    moment.now = now;
    moment.boardRests = runs && boardRestsIn(*m_script, m_placeNow->place);
    // The cue may be behind the text; both are the person's own time.
    moment.ownTurn = runs && (isOwn(turnAt(*m_script, m_placeNow->place)) || isOwn(cuedTurn()));
    m_words.look(moment);
    if (!moment.ownTurn && m_reads == Reads::wished)
        m_reads = Reads::now;
    else if (moment.ownTurn && m_reads == Reads::now)
        m_reads = Reads::no; // steps aside, and is spoken of again
}

bool JoinModel::showsAnswer() const
{
    return m_screen == Screen::inClass && m_words.answer() && !m_words.ownTurn() &&
           (m_reads != Reads::no || !m_words.boardRests());
}

Wishes JoinModel::lineHasGoneOut(std::uint64_t line, std::uint64_t item)
{
    const auto back = m_words.acknowledged(line, item);
    return back ? Wishes{{.kind = Wish::Kind::takeBackLine, .line = *back}} : Wishes{};
}

void JoinModel::lineRefused(std::uint64_t line, const QString& why)
{
    m_words.refused(line, why);
}

void JoinModel::pressWrite()
{
    if (m_screen != Screen::inClass)
        return;
    m_screen = Screen::writing;
    m_words.boardIsOpen(true);
}

Wishes JoinModel::send()
{
    const BoardLine* sent = m_screen == Screen::writing ? m_words.send() : nullptr;
    return sent ? Wishes{{.kind = Wish::Kind::write, .value = sent->text.toStdString(), .line = sent->key}} : Wishes{};
}

Wishes JoinModel::pressLine(std::uint64_t line)
{
    const auto back = m_words.press(line);
    return back ? Wishes{{.kind = Wish::Kind::takeBackLine, .line = *back}} : Wishes{};
}

Wishes JoinModel::pressPeople()
{
    if (m_screen != Screen::writing)
        return {};
    m_screen = Screen::people;
    return {{Wish::Kind::askPeople}};
}

Wishes JoinModel::putAwayAnswer(bool writeBack)
{
    const auto item = showsAnswer() ? m_words.putAway() : std::nullopt;
    if (!item)
        return {};
    m_reads = Reads::no;
    if (writeBack)
        pressWrite();
    return {{.kind = Wish::Kind::keepPutAway, .line = *item}};
}

} // namespace vh::join
