// voicehall: lead, join or help.
#include "app/help/desk_control.h"
#include "app/join/join_control.h"
#include "app/lead/lead_control.h"
#include "app/look/look.h"

int main() {}
