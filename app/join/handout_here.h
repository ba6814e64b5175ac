#pragma once
// The handout, as the person at home meets it: there is one, it is on its way, it is saved (and where), or it could not
// be had. What the one quiet control for it says and does, before the class and after it. Value; GUI thread.
#include <QString>

namespace vh::join
{

class HandoutHere
{
public:
    enum class State : std::uint8_t { none, offered, coming, saved, failed };
    /// What a press asks for.
    enum class Press : std::uint8_t { nothing, fetch, open };

    /// There is one now, another one, or none any more.
    void offeredIs(bool offered);
    [[nodiscard]] Press press();
    void savedAt(const QString& path);
    /// In words for the person; empty: the relay did not give it.
    void failedWith(const QString& why);
    /// Asked to be opened, and nothing on this computer can.
    void cannotOpen();

    [[nodiscard]] State state() const { return m_state; }
    [[nodiscard]] const QString& path() const { return m_path; }
    /// Of the control; empty: there is none.
    [[nodiscard]] QString button() const;
    /// Beside it; empty until something has happened.
    [[nodiscard]] QString words() const;

private:
    State m_state = State::none;
    QString m_path;
    QString m_words;
};

} // namespace vh::join
