#include "tests/bench/relay_under_load.h"

#include "common/base/text.h"
#include "server/net/tls_context.h"
#include "server/ops/relay.h"

#include <arpa/inet.h>
#include <cstring>
#include <sstream>
#include <stdexcept>
#include <sys/socket.h>
#include <unistd.h>

namespace vh::bench
{

namespace
{

std::string get(std::uint16_t port, const std::string& path)
{
    const int descriptor = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const auto ask = "GET " + path + " HTTP/1.1\r\nHost: localhost\r\n\r\n";
    std::string answer;
    if (::connect(descriptor, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0 &&
        ::send(descriptor, ask.data(), ask.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(ask.size())) {
        char buffer[4096];
        for (ssize_t count = 0; (count = ::recv(descriptor, buffer, sizeof buffer, 0)) > 0;)
            answer.append(buffer, static_cast<std::size_t>(count));
    }
    ::close(descriptor);
    return answer;
}

double metric(const std::string& text, const std::string& name)
{
    const auto at = text.find("\nvoicehall_" + name + " ");
    if (at == std::string::npos)
        throw std::runtime_error("the relay does not count " + name);
    return std::stod(text.substr(text.find(' ', at)));
}

std::uint16_t portIn(const std::string& line)
{
    const auto at = line.find(" port ");
    if (at == std::string::npos)
        throw std::runtime_error("the relay did not start: " + line);
    return static_cast<std::uint16_t>(std::stoul(line.substr(at + std::strlen(" port "))));
}

} // namespace

UnderLoad::UnderLoad(const std::string& kind, const Seed& seed, int core)
{
    if (kind.starts_with("relay")) {
        startRelay(seed, kind == "relay-tls", core);
        return;
    }
    m_process.emplace("/proc/self/exe", std::vector<std::string>{"--serve", kind}, core);
    if (kind == "net-tls")
        m_pin = m_process->hear().substr(std::strlen("pin "));
    m_port = static_cast<std::uint16_t>(m_process->waitFor("port").at("port"));
}

void UnderLoad::startRelay(const Seed& seed, bool tls, int core)
{
    m_folder.emplace();
    ops::Config config;
    config.data = m_folder->path() / "data";
    seed.copyTo(config.data);
    if (tls)
        m_pin = hexOf(*net::TlsContext::server(ops::ownCertificate(config).value()).value()->pin());
    m_group = seed.group().hex();
    const auto program = std::filesystem::read_symlink("/proc/self/exe").parent_path() / "voicehall-relay";
    m_process.emplace(program.string(),
                      std::vector<std::string>{"--data", config.data.string(), "--tls", tls ? "self-signed" : "off",
                                               "--port", "0", "--ops-port", "0", "--log-level", "warn"},
                      core);
    m_port = portIn(m_process->hear());
    m_opsPort = portIn(m_process->hear());
}

std::map<std::string, double> UnderLoad::counted()
{
    if (m_opsPort == 0) {
        m_process->say("stat");
        return m_process->waitFor("stat");
    }
    const auto text = get(m_opsPort, "/metrics");
    return {{"frames", metric(text, "frames_out_total")},
            {"sends", metric(text, "log_sends_total")},
            {"readings", metric(text, "messages_in_total")},
            {"skipped", metric(text, "skipped_droppable_total") + metric(text, "skipped_lasting_total")},
            {"open", metric(text, "lines_open")}};
}

std::map<std::string, double> UnderLoad::now()
{
    auto values = counted();
    values["cpu"] = static_cast<double>(m_process->cpuUsed().count());
    values["rss"] = m_process->residentKib();
    return values;
}

} // namespace vh::bench
