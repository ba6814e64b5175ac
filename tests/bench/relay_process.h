#pragma once
// A child process of a bench, pinned to one core and spoken to in lines; and what a process has used so far. Throws
// std::runtime_error: a bench that cannot start has nothing to say.
#include <chrono>
#include <map>
#include <string>
#include <vector>

namespace vh::bench
{

class Process
{
public:
    Process(std::string program, const std::vector<std::string>& arguments, int core);
    ~Process(); ///< ends it
    Process(const Process&) = delete;
    Process& operator=(const Process&) = delete;

    /// User and system time so far, all threads.
    [[nodiscard]] std::chrono::nanoseconds cpuUsed() const;
    [[nodiscard]] double residentKib() const;

    void say(const std::string& line) const;
    /// The next line, without its end; empty when the process has ended.
    std::string hear();
    /// Reads lines until one begins with `word`; returns the rest of that line as `name=value` pairs.
    std::map<std::string, double> waitFor(const std::string& word);

private:
    int m_pid = -1;
    int m_in = -1;
    int m_out = -1;
    std::string m_heard;
};

/// Of this process.
std::chrono::nanoseconds cpuUsed();
/// Room for some thousands of sockets, as far as the hard limit goes.
void raiseDescriptorLimit();

} // namespace vh::bench
