#pragma once
// One person whom the leader asks to be heard by all: asked, heard, and how it ended, in kind words. The hall decides;
// this only says which presses make sense and what stands. Part of LeadModel. Pure; any one thread.
#include "app/lead/hall_view_state.h"
#include "common/base/result.h"
#include "common/wire/to_client.h"
#include "common/wire/to_relay.h"

namespace vh::lead
{

class Guest
{
public:
    enum class Standing { nobody, asked, heard };

    void welcome(const wire::Welcome& welcome);
    void take(const wire::Speaking& speaking);
    /// What to say to her of it.
    [[nodiscard]] QString take(const wire::InviteOver& over);
    void forget() { m_standing = Standing::nobody; }

    /// As it goes out; nothing while somebody is asked or heard.
    std::optional<wire::InviteToSpeak> invite(PersonId person, const QString& name);
    /// What to say to her, where it was refused.
    [[nodiscard]] QString inviteAnswered(PersonId person, const Error* error);
    /// Taken back, or ended. False: there was nothing to end.
    bool end();

    [[nodiscard]] Standing standing() const { return m_standing; }
    /// How it stands with whoever sits there.
    [[nodiscard]] HeardByAll heard(int seat, PersonId person) const;
    [[nodiscard]] std::uint32_t stream() const { return m_speaking.stream; }
    /// While the hall is covered, without the name.
    [[nodiscard]] GuestState state(bool covered) const;

private:
    wire::Speaking m_speaking;
    Standing m_standing = Standing::nobody;
    PersonId m_person;
    QString m_name;
};

} // namespace vh::lead
