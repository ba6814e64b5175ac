#pragma once
// The hall for screen readers: a list with one child per taken seat, in the order of their places; a child says name
// and standing, has the focus when the keyboard is there, and its press asks for the seat. GUI thread.
namespace vh
{

class HallView;

/// Once per program; later calls are free.
void useHallAccess();
/// Which child of the list the seat at a place is; -1: none.
int childOf(const HallView& hall, int place);

} // namespace vh
