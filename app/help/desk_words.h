#pragma once
// The three lists of what people wrote (to read; going up, with the leader or a clinician; on the board), as messages
// bring them, and what can be asked for a line as it was last seen. After a broken line the relay says everything anew:
// rows that are still there stay where they are. Movable; any one thread.
#include "app/help/words_model.h"
#include "common/wire/to_client.h"

#include <map>
#include <memory>
#include <set>

namespace vh::help
{

class DeskWords
{
public:
    DeskWords();
    void take(const wire::Welcome& welcome);
    void take(const wire::OnDesk& message);
    void take(const wire::Board& message);
    void take(const wire::Claimed& message);
    /// The last of what the relay says on coming in: what was there before, and has not come again, goes.
    void allIsSaid();
    void setNow(Instant now);

    /// Something was asked for it, or has been answered.
    void setOnItsWay(std::uint64_t item, bool is);
    void setPicture(std::uint64_t item, const QImage& picture);

    /// As it was last seen, wherever it is now; null: not known here (any more).
    [[nodiscard]] const WordRow* find(std::uint64_t item) const;
    /// Nothing for what is not known, or is so already.
    [[nodiscard]] std::optional<wire::Decide> decide(std::uint64_t item, wire::Decision decision) const;

    [[nodiscard]] WordsModel& toRead() const { return *m_toRead; }
    [[nodiscard]] WordsModel& inHand() const { return *m_inHand; }
    [[nodiscard]] WordsModel& board() const { return *m_board; }

private:
    void take(const wire::DeskItem& item);
    void addToBoard(const wire::BoardItem& item);
    void remember(WordRow row);

    std::unique_ptr<WordsModel> m_toRead;
    std::unique_ptr<WordsModel> m_inHand;
    std::unique_ptr<WordsModel> m_board;
    std::map<std::uint64_t, WordRow> m_dealtWith; ///< lately: it may be taken back
    std::set<std::uint64_t> m_unsaid;             ///< of before a whole list, not said again so far
    std::string m_own;
};

} // namespace vh::help
