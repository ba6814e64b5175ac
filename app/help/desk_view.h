#pragma once
// Everything the helper's desk shows, as one value; no levels. Made by DeskModel, shown by DeskRoom.
#include "app/people/call_list.h"
#include "app/people/door_list.h"
#include "app/people/lost_list.h"
#include "app/widgets/card_list.h"
#include "app/widgets/notice_line.h"

#include <QStringList>

namespace vh::help
{

struct DeskView {
    QString groupName;
    QString classLine; ///< "A morning at the lakeside plots, step 17 of 34"
    NoticeLine::State notice;
    CallList::State calls;
    LostList::State lostLines;
    std::vector<CardList::Card> toRead; ///< oldest first
    std::vector<CardList::Card> board;  ///< newest last
    DoorList::State door;
    QString hereWords; ///< "Here: 28, line lost: 1"
    QString lost;      ///< "Jonas: line lost 20 s ago"; may be empty
    QString names;     ///< of those who are here
    QString byHand;    ///< "By hand: Marta, Piet"; may be empty
    bool lineUp = false;
};

} // namespace vh::help
