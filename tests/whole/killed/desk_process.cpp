#include "tests/whole/killed/desk_process.h"

#include "common/base/text.h"

#include <QCoreApplication>
#include <QSocketNotifier>

#include <csignal>
#include <iostream>
#include <sys/prctl.h>
#include <unistd.h>

namespace vh::testing
{

namespace
{

void say(const std::string& text)
{
    const std::string line = text + "\n";
    if (::write(STDOUT_FILENO, line.data(), line.size()) != static_cast<ssize_t>(line.size()))
        ::_exit(3); // nobody would know what is asked
}

class SpokenScribe final : public Scribe
{
public:
    void asked(const std::string& request, const Trace& trace) override { say("asked " + request + " " + trace); }
    void acknowledged(const std::string& request, std::uint64_t item) override
    {
        say("done " + request + " " + std::to_string(item));
    }
    void refused(const std::string& request, const std::string& code) override
    {
        say("refused " + request + " " + code);
    }
};

Seat readSeat(std::uint64_t& seed)
{
    Seat seat;
    std::string group;
    std::string secret;
    std::cin >> seat.port >> group >> secret >> seed;
    std::cin.ignore();
    seat.group = *GroupId::fromHex(group);
    const auto bytes = *bytesOfHex(secret);
    std::copy(bytes.begin(), bytes.end(), seat.keys.secretKey.begin());
    std::copy(bytes.end() - 32, bytes.end(), seat.keys.publicKey.begin()); // RFC 8032's pair, as libsodium keeps it
    seat.role = Role::moderator;
    return seat;
}

} // namespace

int runDesk(int argc, char** argv)
{
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    QCoreApplication app(argc, argv);
    std::uint64_t seed = 0;
    const Seat seat = readSeat(seed);
    SpokenScribe scribe;
    DeskActor desk(seat, "Kim", scribe, seed);
    bool enough = false;
    bool told = false;
    QSocketNotifier input(STDIN_FILENO, QSocketNotifier::Read);
    QObject::connect(&input, &QSocketNotifier::activated, &app, [&] {
        enough = true;
        input.setEnabled(false);
    });
    QTimer timer;
    QObject::connect(&timer, &QTimer::timeout, &app, [&] {
        if (!enough)
            return desk.act();
        if (desk.isSettled() && !std::exchange(told, true))
            say("settled");
    });
    timer.start(std::chrono::milliseconds(1));
    return QCoreApplication::exec();
}

DeskProcess::DeskProcess(const Seat& seat, Ledger& ledger) : m_seat(seat), m_ledger(ledger) {}

DeskProcess::~DeskProcess()
{
    kill();
}

void DeskProcess::start(std::uint64_t seed)
{
    m_settled = false;
    m_process = std::make_unique<QProcess>();
    m_process->setProcessChannelMode(QProcess::ForwardedErrorChannel);
    QObject::connect(m_process.get(), &QProcess::readyReadStandardOutput, [this] { hear(); });
    m_process->start(QCoreApplication::applicationFilePath(), {QString::fromLatin1(kDeskArgument)});
    m_process->write(QStringLiteral("%1 %2 %3 %4\n")
                         .arg(m_seat.port)
                         .arg(QString::fromStdString(m_seat.group.hex()))
                         .arg(QString::fromStdString(hexOf(m_seat.keys.secretKey)))
                         .arg(seed)
                         .toLatin1());
}

void DeskProcess::kill()
{
    if (!m_process)
        return;
    m_process->kill();
    m_process->waitForFinished();
    hear();
    m_heard.clear(); // half a line was never said: nothing had gone out for it
    m_process.reset();
}

void DeskProcess::enough()
{
    m_process->write("enough\n");
}

void DeskProcess::hear()
{
    m_heard += m_process->readAllStandardOutput();
    for (qsizetype end = m_heard.indexOf('\n'); end >= 0; end = m_heard.indexOf('\n')) {
        line(m_heard.left(end));
        m_heard.remove(0, end + 1);
    }
}

void DeskProcess::line(const QByteArray& text)
{
    const std::string line = text.toStdString();
    if (line == "settled") {
        m_settled = true;
        return;
    }
    const std::size_t first = line.find(' ');
    const std::size_t second = line.find(' ', first + 1);
    const std::string word = line.substr(0, first);
    const std::string request = line.substr(first + 1, second - first - 1);
    const std::string rest = line.substr(second + 1);
    if (word == "asked")
        m_ledger.asked(request, rest);
    else if (word == "done")
        m_ledger.acknowledged(request, std::stoull(rest));
    else
        m_ledger.refused(request, rest);
}

} // namespace vh::testing
