#pragma once
// What the helpers' desk has for the leader, as her screen shows it: three places for questions, what needs a
// clinician, and the sheet with all of it whole, her choices and the log. Plain values: made by DeskNews, shown by
// DeskTray, ClinicianStrip and DeskSheet.
#include <QString>

#include <array>
#include <cstdint>
#include <vector>

namespace vh::lead
{

/// Something that somebody wrote and the desk has passed on.
struct DeskLine {
    std::uint64_t item = 0; ///< 0: nothing
    QString name;           ///< of whoever wrote it
    QString text;           ///< whole
    bool taking = false;    ///< marked taken; the relay has not said so yet
    friend bool operator==(const DeskLine&, const DeskLine&) = default;
};

struct ActLine {
    QString time; ///< of day
    QString words;
    QString detail; ///< may be empty
    friend bool operator==(const ActLine&, const ActLine&) = default;
};

struct DeskNewsView {
    enum class Sheet { none, desk, acts };
    static constexpr std::size_t kPlaces = 3;

    std::array<DeskLine, kPlaces> places;
    std::vector<DeskLine> clinician; ///< oldest first; the first one is shown in class
    Sheet sheet = Sheet::none;
    int opened = 0; ///< counts: another number, another opening
    bool boardOpen = false;
    bool levels = false;        ///< helpers see them
    bool levelsOffered = false; ///< a class is open
    bool actsCame = false;
    std::vector<ActLine> acts; ///< oldest first
    friend bool operator==(const DeskNewsView&, const DeskNewsView&) = default;
};

/// What she asks for.
struct DeskRequest {
    enum class Kind {
        showDesk, ///< or closes the sheet
        showActs,
        close,
        take, ///< `item`
        openBoard,
        holdBoard,
        showLevels,
        hideLevels,
    };
    Kind kind = Kind::close;
    quint64 item = 0;
};

} // namespace vh::lead
