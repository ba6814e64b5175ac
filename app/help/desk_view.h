#pragma once
// Everything the helper's desk shows, as one value; its long lists are Qt models, owned by DeskModel, which change by
// themselves. Made by DeskModel, shown by DeskRoom.
#include "app/help/people_model.h"
#include "app/help/words_model.h"
#include "app/people/call_list.h"
#include "app/people/door_list.h"
#include "app/people/lost_list.h"
#include "app/pictures/picture_sheet.h"
#include "app/widgets/notice_line.h"
#include "app/widgets/row_list.h"

namespace vh::help
{

/// Null: empty. They outlive whatever shows them.
struct DeskLists {
    WordsModel* toRead = nullptr; ///< oldest first
    WordsModel* inHand = nullptr; ///< with a clinician, with the leader, going up
    WordsModel* board = nullptr;  ///< newest last
    PeopleModel* people = nullptr;
};

struct DeskView {
    QString groupName;
    QString classLine; ///< "A morning at the lakeside plots, step 17 of 34"
    NoticeLine::State notice;
    CallList::State calls;
    LostList::State lostLines;
    DoorList::State door;
    DeskLists lists;
    QString toReadWords;            ///< "To read: 4"
    QString boardWords;             ///< "The board: lines read first"
    QString hereWords;              ///< "Here: 28, line lost: 1. Hellos: 12"
    QString came;                   ///< "Just came: Marta, Piet"; may be empty
    QString byHand;                 ///< "By hand: Marta, Piet"; may be empty
    std::vector<RowList::Row> acts; ///< what was done, as last asked for
    pictures::SheetView picture;    ///< that is looked at large; item 0: none
    bool lineUp = false;
};

} // namespace vh::help
