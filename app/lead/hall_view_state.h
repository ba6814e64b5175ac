#pragma once
// What the leader's screen shows of the people, as values. Made by HallModel, shown by HallSide.
#include "app/people/seat_book.h"

#include <QStringList>

#include <optional>
#include <vector>

namespace vh::lead
{

/// A line of worth a word.
struct WorthLineState {
    int seat = -1;
    QStringList words; ///< the whole sentence, then shorter ones for a narrow screen
    QString word;      ///< what its key sends
    bool said = false; ///< on its way, or said
    friend bool operator==(const WorthLineState&, const WorthLineState&) = default;
};

enum class BandMove { askLess, askMore, asUsual, undo };

/// The one person whom she has asked to be heard by all.
struct GuestState {
    QStringList words; ///< "Ruth is heard by all", then shorter; empty: nobody
    QString press;     ///< what V does then
    bool heard = false;
    friend bool operator==(const GuestState&, const GuestState&) = default;
};

/// The panel of one seat.
struct SeatPanelState {
    int seat = -1;
    SeatRow row;       ///< name, standing, column
    QString addressed; ///< how this person may be addressed, as a sentence
    QString band;
    bool mayAskLess = false, mayAskMore = false, mayReset = false, mayUndo = false;
    struct Word {
        int which = 0; ///< of ownWords()
        QString text;
        friend bool operator==(const Word&, const Word&) = default;
    };
    std::vector<Word> words; ///< only those agreed to
    QString sent;            ///< what came of the last word to this person
    bool mayInvite = false;  ///< this person may be asked to be heard by all
    GuestState guest;        ///< whoever is asked or heard, this person or another
    friend bool operator==(const SeatPanelState&, const SeatPanelState&) = default;
};

struct HallState {
    bool covered = false; ///< then nothing below but the guest is filled in
    bool asTable = false;
    std::vector<SeatRow> seats;
    int places = 0; ///< in the hall, empty seats included
    SeatCounts counts;
    QString group; ///< one line about a group too large for names; else empty
    std::vector<WorthLineState> worth;
    QString sent; ///< what came of the last private word
    std::optional<SeatPanelState> panel;
    GuestState guest; ///< also while covered, without the name
    friend bool operator==(const HallState&, const HallState&) = default;
};

} // namespace vh::lead
