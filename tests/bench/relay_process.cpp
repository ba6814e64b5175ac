#include "tests/bench/relay_process.h"

#include <csignal>
#include <ctime>
#include <fcntl.h>
#include <fstream>
#include <sched.h>
#include <sstream>
#include <stdexcept>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace vh::bench
{

Process::Process(std::string program, const std::vector<std::string>& arguments, int core)
{
    int in[2];
    int out[2];
    if (::pipe2(in, O_CLOEXEC) != 0 || ::pipe2(out, O_CLOEXEC) != 0)
        throw std::runtime_error("no pipe");
    std::vector<char*> argv;
    argv.push_back(program.data());
    auto copies = arguments;
    for (auto& each : copies)
        argv.push_back(each.data());
    argv.push_back(nullptr);
    m_pid = ::fork();
    if (m_pid < 0)
        throw std::runtime_error("cannot fork");
    if (m_pid == 0) {
        ::prctl(PR_SET_PDEATHSIG, SIGKILL); // a bench that is stopped leaves nobody behind
        ::dup2(in[0], 0);
        ::dup2(out[1], 1);
        cpu_set_t set;
        CPU_ZERO(&set);
        CPU_SET(core, &set);
        ::sched_setaffinity(0, sizeof set, &set);
        ::execv(argv[0], argv.data());
        ::_exit(127);
    }
    ::close(in[0]);
    ::close(out[1]);
    m_in = in[1];
    m_out = out[0];
}

Process::~Process()
{
    ::close(m_in);
    ::close(m_out);
    ::kill(m_pid, SIGKILL);
    ::waitpid(m_pid, nullptr, 0);
}

void Process::say(const std::string& line) const
{
    const auto text = line + "\n";
    if (::write(m_in, text.data(), text.size()) != static_cast<ssize_t>(text.size()))
        throw std::runtime_error("a process of the bench has ended");
}

std::string Process::hear()
{
    for (;;) {
        if (const auto end = m_heard.find('\n'); end != std::string::npos) {
            auto line = m_heard.substr(0, end);
            m_heard.erase(0, end + 1);
            return line;
        }
        char buffer[4096];
        const auto count = ::read(m_out, buffer, sizeof buffer);
        if (count <= 0)
            return {};
        m_heard.append(buffer, static_cast<std::size_t>(count));
    }
}

std::map<std::string, double> Process::waitFor(const std::string& word)
{
    for (;;) {
        const auto line = hear();
        if (line.empty())
            throw std::runtime_error("a process of the bench ended before it said " + word);
        std::istringstream words(line);
        std::string each;
        words >> each;
        if (each != word)
            continue;
        std::map<std::string, double> values;
        while (words >> each)
            if (const auto sign = each.find('='); sign != std::string::npos)
                values[each.substr(0, sign)] = std::stod(each.substr(sign + 1));
        return values;
    }
}

namespace
{

std::chrono::nanoseconds timeOf(clockid_t clock)
{
    timespec time{};
    ::clock_gettime(clock, &time);
    return std::chrono::seconds(time.tv_sec) + std::chrono::nanoseconds(time.tv_nsec);
}

} // namespace

std::chrono::nanoseconds Process::cpuUsed() const
{
    clockid_t clock{};
    if (::clock_getcpuclockid(m_pid, &clock) != 0)
        throw std::runtime_error("a process of the bench has ended");
    return timeOf(clock);
}

double Process::residentKib() const
{
    std::ifstream file("/proc/" + std::to_string(m_pid) + "/statm");
    double total = 0;
    double resident = 0;
    if (!(file >> total >> resident))
        throw std::runtime_error("a process of the bench has ended");
    return resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1024;
}

std::chrono::nanoseconds cpuUsed()
{
    return timeOf(CLOCK_PROCESS_CPUTIME_ID);
}

void raiseDescriptorLimit()
{
    rlimit limit{};
    ::getrlimit(RLIMIT_NOFILE, &limit);
    limit.rlim_cur = limit.rlim_max;
    ::setrlimit(RLIMIT_NOFILE, &limit);
}

} // namespace vh::bench
