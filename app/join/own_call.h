#pragma once
// This person's own call for help, from the press to its end; who is there to answer it; and the group's words on whom
// to ring. Part of JoinModel: no widget, no line. A call pressed while the line is lost is asked once and goes out when
// the line is back. GUI thread.
#include "app/join/join_view.h"
#include "common/wire/to_client.h"

#include <optional>

namespace vh::join
{

class OwnCall
{
public:
    void welcome(const wire::Welcome& welcome);
    /// Looks at all that comes; true: it was about the call, or whom to ring.
    bool take(const wire::ToClient& message);

    /// True: a call is to be asked for. Pressed again it is the same one.
    [[nodiscard]] bool press();
    /// The number of the call to be taken back, once it is known (hasGoneOut() gives it else).
    std::optional<std::uint64_t> takeBack();
    /// The relay has it. The number, if it was taken back meanwhile.
    [[nodiscard]] std::optional<std::uint64_t> hasGoneOut(std::uint64_t call);
    void didNotGoOut() { m_pressed = m_takenBack = false; }
    [[nodiscard]] bool isOut() const { return m_call || m_pressed; }
    /// Pressed while the line is lost, and not gone out yet.
    [[nodiscard]] bool waits(bool lineUp) const { return m_pressed && !lineUp; }
    /// Its page is closed: what was closed there is not spoken of any more.
    void pageIsLeft() { m_closed = false; }

    /// Below the words of the button: who is there now; then shorter, for a narrow window.
    [[nodiscard]] QStringList captions() const;
    /// In class, while a call is out.
    [[nodiscard]] QString notice(bool lineUp) const;
    /// In class, while nobody is there to answer; else empty.
    [[nodiscard]] QString nobodyHere() const;
    [[nodiscard]] CallView view(bool lineUp, const QString& where) const;

private:
    [[nodiscard]] QString ringWords() const;
    [[nodiscard]] QString orRing() const;
    [[nodiscard]] QStringList whoSees() const;

    std::uint32_t m_helpers = 0;
    std::uint32_t m_leaders = 0;
    QString m_whomToRing;
    std::optional<wire::CallStatus> m_call;
    bool m_pressed = false;   ///< not yet acknowledged
    bool m_takenBack = false; ///< before it was acknowledged
    bool m_closed = false;    ///< by whoever had it, and not seen yet
};

} // namespace vh::join
