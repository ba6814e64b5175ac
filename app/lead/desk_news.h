#pragma once
// What the helpers' desk has for the leader, gathered from the relay's messages. A question takes the first free place
// between two turns, or at once while no turn is on, and keeps it until she has taken it; what needs a clinician is
// there at once. Nothing is taken that she cannot have read: what is covered, or came this very moment. Value without
// widgets; any one thread.
#include "app/lead/desk_news_view.h"
#include "common/base/result.h"
#include "common/wire/board_messages.h"

#include <map>
#include <optional>
#include <set>

namespace vh::lead
{

class DeskNews
{
public:
    using Sheet = DeskNewsView::Sheet;

    void take(const wire::OnDesk& desk);
    void take(const wire::DeskNow& now);
    void take(const wire::Acts& acts);
    /// Where the class is: changes come with another turn, or at once while nothing is to be disturbed.
    struct Turn {
        std::uint32_t serial = 0;
        bool calm = true; ///< no turn is on, or one in which people talk or drink
        friend bool operator==(const Turn&, const Turn&) = default;
    };
    void follow(const Turn& turn, bool covered, Instant now);

    /// "Taken", as it goes out; nothing where that is no line she has before her.
    std::optional<wire::TakeItem> takeItem(std::uint64_t item, Instant now);
    /// Null: it was done. True where she should hear of the error.
    bool takeAnswered(std::uint64_t item, const Error* error);

    void showDesk();
    void showActs();
    void close() { m_sheet = Sheet::none; }
    [[nodiscard]] Sheet sheet() const { return m_sheet; }

    /// What stands behind a covered hall is not in it; that something needs a clinician is for waitsForClinician().
    [[nodiscard]] DeskNewsView view(bool classOpen) const;
    [[nodiscard]] bool waitsForClinician() const;

private:
    [[nodiscard]] bool isWith(std::uint64_t item, wire::DeskState state) const;
    [[nodiscard]] DeskLine line(std::uint64_t item) const;
    [[nodiscard]] DeskLine* placeOf(std::uint64_t item);
    void arrange();
    void open(Sheet sheet);

    std::map<std::uint64_t, wire::DeskItem> m_items;      ///< with her, or for a clinician
    bool m_whole = false;                                 ///< all of them have come
    std::array<DeskLine, DeskNewsView::kPlaces> m_places; ///< as they are read, whatever has become of them since
    std::vector<std::uint64_t> m_clinician;               ///< in the order in which they came
    std::uint64_t m_first = 0;                            ///< of these, the one that is before her
    Instant m_firstSince{};
    std::set<std::uint64_t> m_taking;
    Turn m_turn;
    bool m_covered = false;
    bool m_boardOpen = false;
    bool m_levels = false;
    Sheet m_sheet = Sheet::none;
    int m_opened = 0;
    std::optional<std::vector<ActLine>> m_acts;
};

} // namespace vh::lead
