// Pictures that people send.
#include "server/hall/hall_store.h"

namespace vh::hall
{

namespace
{
const Error kOff{"pictures-off", "This relay takes no pictures just now.", {}};
}

void Hall::on(Session& session, wire::PicturePiece& message)
{
    session.refuse(message.id, kOff);
}

void Hall::on(Session& session, wire::PictureAsk&)
{
    session.refuse({}, {"part-unknown", "There is no such picture.", "hash"});
}

void Hall::on(Session& session, wire::EditPicture& message)
{
    session.refuse(message.id, kOff);
}

void Hall::on(Session& session, wire::ShowPicture& message)
{
    session.refuse(message.id, {"item-unknown", "This is no longer there.", "item"});
}

} // namespace vh::hall
