// voicehall-relay: holds the halls and stores what must last.
#include "common/wire/join_link.h"
#include "server/ops/relay.h"

#include <CLI/CLI.hpp>
#include <csignal>
#include <iostream>
#include <spdlog/spdlog.h>

namespace
{

using namespace vh;

int failed(const Error& error)
{
    std::cerr << "voicehall-relay: " << error.message;
    if (!error.where.empty())
        std::cerr << " (" << error.where << ")";
    std::cerr << '\n';
    return 1;
}

int run(const ops::Config& config)
{
    // Every thread inherits the blocked signals; this one alone waits for them.
    sigset_t ends;
    sigemptyset(&ends);
    sigaddset(&ends, SIGTERM);
    sigaddset(&ends, SIGINT);
    pthread_sigmask(SIG_BLOCK, &ends, nullptr);
    std::signal(SIGPIPE, SIG_IGN);

    ops::Relay relay(config);
    if (auto started = relay.start(); !started)
        return failed(started.error());
    if (config.unixPath.empty())
        std::cout << "listening on " << config.address << " port " << relay.port() << '\n';
    else
        std::cout << "listening on " << config.unixPath << '\n';
    if (config.ops)
        std::cout << "health and metrics on 127.0.0.1 port " << relay.opsPort() << '\n';
    std::cout << "ready" << std::endl;
    int signal = 0;
    sigwait(&ends, &signal);
    spdlog::info("stopping");
    relay.stop();
    return 0;
}

/// The link's address part: what homes type and what the certificate stands for.
Result<wire::JoinLink> linkBase(const ops::Config& config)
{
    wire::JoinLink link;
    link.host = config.host.empty() ? config.address : config.host;
    link.port = config.linkPort != 0 ? config.linkPort : config.port;
    if (config.tls == ops::Tls::selfSigned) {
        auto pem = ops::ownCertificate(config);
        auto context = pem ? net::TlsContext::server(*pem) : tl::unexpected<Error>(pem.error());
        if (!context)
            return tl::unexpected<Error>(context.error());
        link.pin = (*context)->pin();
    }
    return link;
}

template <class Work>
int withStore(const ops::Config& config, Work work)
{
    std::error_code error;
    std::filesystem::create_directories(config.data, error);
    auto opening = store::Store::open(ops::storeOptions(config, store::StoreOptions::Hold::alongside));
    if (!opening.store)
        return failed({"store", opening.message, config.data.string()});
    return work(*opening.store);
}

int groupAdd(const ops::Config& config, const std::string& name)
{
    return withStore(config, [&](store::Store& store) {
        const Instant now = SystemClock().now();
        struct Added {
            store::GroupRow group;
            store::LinkToken token;
        };
        auto added = store.run([&](store::Tables& tables) -> Result<Added> {
            Added result;
            result.group = tables.groups.add(name, now);
            result.token = tables.links.make(result.group.id, store::Role::leader, {}, now);
            return result;
        });
        if (!added)
            return failed(added.error());
        auto link = linkBase(config);
        if (!link)
            return failed(link.error());
        link->token = added->token.bytes;
        std::cout << "group " << added->group.id.hex() << "\ncode " << spacedCode(added->group.code)
                  << "\nleader link, good once within seven days:\n"
                  << wire::format(*link) << std::endl;
        return 0;
    });
}

int linkFor(const ops::Config& config, const std::string& groupHex, Role role)
{
    const auto group = GroupId::fromHex(groupHex);
    if (!group)
        return failed({"group", "a group is named by its 32 hexadecimal digits; see 'group list'", groupHex});
    return withStore(config, [&](store::Store& store) {
        const Instant now = SystemClock().now();
        auto token = store.run([&](store::Tables& tables) -> Result<store::LinkToken> {
            if (!tables.groups.byId(*group))
                return fail("group-unknown", "There is no such group.", groupHex);
            return tables.links.make(*group, hall::toStore(role), {}, now);
        });
        if (!token)
            return failed(token.error());
        auto link = linkBase(config);
        if (!link)
            return failed(link.error());
        link->token = token->bytes;
        std::cout << wire::format(*link) << std::endl;
        return 0;
    });
}

int groupList(const ops::Config& config)
{
    return withStore(config, [&](store::Store& store) {
        const auto groups = store.run(
            [](store::Tables& tables) -> Result<std::vector<store::GroupRow>> { return tables.groups.all(); });
        if (!groups)
            return failed(groups.error());
        for (const store::GroupRow& group : *groups)
            std::cout << group.id.hex() << "  " << spacedCode(group.code) << "  " << group.name << '\n';
        return 0;
    });
}

} // namespace

int main(int argc, char** argv)
{
    vh::ops::Config config;
    CLI::App app{"The relay of Voicehall: holds the halls of its groups and stores what must last."};
    app.set_config("--config", "", "A configuration file (TOML): the options below, by their long names");
    app.add_option("--data", config.data, "Folder of the store and the relay's own key")->capture_default_str();
    app.add_option("--address", config.address, "Numeric address to listen on")->capture_default_str();
    app.add_option("--port", config.port, "Port to listen on; 0: any free one")->capture_default_str();
    app.add_option("--unix", config.unixPath, "Listen on this Unix socket instead, behind a proxy");
    const std::map<std::string, vh::ops::Tls> tlsNames{{"certificate", vh::ops::Tls::certificate},
                                                       {"self-signed", vh::ops::Tls::selfSigned},
                                                       {"off", vh::ops::Tls::off}};
    app.add_option("--tls", config.tls, "certificate, self-signed, or off (behind a proxy on this machine)")
        ->transform(CLI::CheckedTransformer(tlsNames, CLI::ignore_case));
    app.add_option("--certificate", config.certificate, "PEM file with the certificate's whole chain");
    app.add_option("--key", config.key, "PEM file with its key");
    app.add_option("--proxy", config.proxies, "Address of a proxy whose X-Forwarded-For is believed");
    app.add_option("--ops-port", config.opsPort, "Port on loopback for /healthz and /metrics; 0: any free one");
    app.add_option("--loops", config.loops, "Threads that serve halls")->capture_default_str();
    app.add_option("--max-connections", config.maxConnections, "Lines at once")->capture_default_str();
    app.add_option("--host", config.host, "Name of this relay as links carry it");
    app.add_option("--link-port", config.linkPort, "Port as links carry it, where a proxy has another one");
    app.add_option("--log-level", config.logLevel, "debug, info, warn or error")->capture_default_str();

    CLI::App* group = app.add_subcommand("group", "Groups: the public cannot make any");
    group->require_subcommand(1);
    std::string name;
    CLI::App* add = group->add_subcommand("add", "Makes a group and prints its leader's one-time link");
    add->add_option("name", name, "Its name, as people will read it")->required();
    CLI::App* list = group->add_subcommand("list", "Prints all groups");
    CLI::App* link = app.add_subcommand("link", "Prints a one-time link for somebody of a group");
    std::string groupHex;
    vh::Role role = vh::Role::leader;
    const std::map<std::string, vh::Role> roleNames{{"leader", vh::Role::leader},
                                                    {"helper", vh::Role::moderator},
                                                    {"stand-in", vh::Role::standIn},
                                                    {"participant", vh::Role::participant}};
    link->add_option("group", groupHex, "The group, as 'group list' prints it")->required();
    link->add_option("role", role, "leader, helper, stand-in or participant")
        ->required()
        ->transform(CLI::CheckedTransformer(roleNames, CLI::ignore_case));
    CLI11_PARSE(app, argc, argv);

    spdlog::set_level(spdlog::level::from_str(config.logLevel));
    if (add->parsed())
        return groupAdd(config, name);
    if (list->parsed())
        return groupList(config);
    if (link->parsed())
        return linkFor(config, groupHex, role);
    return run(config);
}
