#pragma once
// The desk as a process of its own: the test's executable once more, with kDeskArgument. It is told by its standard
// input where to sit ("PORT GROUP SECRET SEED", then "enough" when it shall begin nothing more), and says on its
// standard output what it asks and what is answered, a line each, before anything else happens. So whatever has reached
// the relay is known here, however it ends. Thread: the test's.
#include "tests/whole/killed/actor.h"

#include <QProcess>

namespace vh::testing
{

inline constexpr const char* kDeskArgument = "--desk";
/// What stands behind that argument.
int runDesk(int argc, char** argv);

class DeskProcess
{
public:
    DeskProcess(const Seat& seat, Ledger& ledger);
    ~DeskProcess();
    void start(std::uint64_t seed);
    /// SIGKILL; what it had said is in the ledger.
    void kill();
    /// It begins nothing more; isSettled() once all it asked has been answered.
    void enough();
    [[nodiscard]] bool isSettled() const { return m_settled; }

private:
    void hear();
    void line(const QByteArray& text);

    Seat m_seat;
    Ledger& m_ledger;
    std::unique_ptr<QProcess> m_process;
    QByteArray m_heard;
    bool m_settled = false;
};

} // namespace vh::testing
