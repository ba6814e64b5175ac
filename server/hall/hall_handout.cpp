// The day's handout: offered by a leader while a class is open, there for everybody who is in until the next one opens.
#include "server/hall/hall_store.h"

namespace vh::hall
{

wire::HandoutNow handoutNow(const store::HandoutRow& row)
{
    wire::HandoutNow now;
    now.classId = row.classId;
    now.title = row.title;
    now.bytes = static_cast<std::uint32_t>(row.bytes);
    now.hash = row.hash;
    now.parts = row.parts;
    return now;
}

void Hall::on(Session& session, wire::OfferHandout& message)
{
    if (!m_run.isOpen() || m_run.about().classId != message.classId)
        return session.refuse(message.id, {"no-class", "The class of this handout is not open.", "class"});
    if (message.bytes == 0 || message.bytes > wire::kHandoutBytes)
        return session.refuse(message.id, {"handout-unfit", "A handout may have at most 4 MiB.", "bytes"});
    store::HandoutRow row{m_group.id, message.classId, {}, message.hash, message.bytes, message.parts};
    auto stored = std::make_shared<store::HandoutRow>();
    durably(
        session, message,
        [row = std::move(row), stored](store::Tables& tables) -> Result<wire::Ack> {
            auto offered = tables.handouts.offer(row);
            if (!offered)
                return tl::unexpected<Error>(offered.error());
            *stored = std::move(*offered);
            return wire::Ack{};
        },
        [self = shared_from_this(), stored] {
            // Another class may have opened while this was written: then it is on no disk any more.
            if (self->m_run.about().classId != stored->classId)
                return;
            self->m_handout = handoutNow(*stored);
            self->m_handout->seq = self->m_seq + 1;
            self->tellAll(*self->m_handout);
        });
}

} // namespace vh::hall
