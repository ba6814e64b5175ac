#include "app/help/act_words.h"

#include "app/people/act_words.h"

namespace vh::help
{

RowList::Row rowOf(const wire::Act& act)
{
    RowList::Row row;
    row.before = actTime(act);
    row.head = actWords(act);
    row.below = actDetail(act).simplified();
    return row;
}

} // namespace vh::help
