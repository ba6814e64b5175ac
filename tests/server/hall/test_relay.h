#pragma once
// A relay inside the test: store, loops, halls and a plain listener on a free loopback port, over a clock that the test
// moves by hand; it can be stopped and started again on the same data. Also the everyday steps: a group, somebody who
// is in, a class that is open. Thread: the test's.
#include "server/hall/halls.h"
#include "server/hall/picture_works.h"
#include "server/net/listener.h"
#include "tests/common/live/scripts.h"
#include "tests/server/hall/test_line.h"

#include <QTemporaryDir>
#include <atomic>

namespace vh::testing
{

class SharedHandClock final : public Clock
{
public:
    [[nodiscard]] Instant now() const override { return Instant{Millis{m_now.load()}}; }
    void advance(Millis by) { m_now += by.count(); }

private:
    std::atomic<std::int64_t> m_now{1'700'000'000'000};
};

/// Somebody who is in.
struct Visitor {
    std::unique_ptr<TestLine> line;
    wire::KeyPair keys;
    wire::Welcome welcome;
    TestLine* operator->() const { return line.get(); }
};

class TestRelay
{
public:
    explicit TestRelay(unsigned loops = 1, Millis comingIn = std::chrono::seconds{15});
    ~TestRelay();

    void start();
    void stop();
    void restart()
    {
        stop();
        start();
    }
    /// From the next start on: pictures are made anew by this program.
    void takePicturesWith(std::filesystem::path program) { m_photos = std::move(program); }
    [[nodiscard]] std::string file() const { return m_folder.filePath("store.sqlite").toStdString(); }
    [[nodiscard]] store::Store& store() { return *m_store; }
    /// Everything accepted so far is on disk, answered, and the answers have been acted upon.
    void settle();

    GroupId addGroup(const std::string& name);
    std::string codeOf(GroupId group);
    wire::Token link(GroupId group, Role role);
    std::unique_ptr<TestLine> connect(const std::string& extraHeaders = {}, int receiveBufferBytes = 0);

    /// Comes with a fresh one-time link.
    Visitor enrol(GroupId group, Role role, const std::string& name);
    /// Comes again with the device they have, after a stop or beside the line they have.
    Visitor again(const Visitor& before, std::uint64_t boardSince = 0);

    SharedHandClock clock;

private:
    QTemporaryDir m_folder;
    unsigned m_loopCount;
    Millis m_comingIn;
    net::LoopThread m_clients;
    std::filesystem::path m_photos;
    std::unique_ptr<hall::PictureWorks> m_pictures;
    std::unique_ptr<store::Store> m_store;
    std::vector<std::unique_ptr<net::LoopThread>> m_loops;
    std::unique_ptr<hall::Halls> m_halls;
    std::unique_ptr<net::Listener> m_listener;
    std::uint16_t m_port = 0;
};

struct OpenedClass {
    ClassId id;
    std::uint32_t lease = 0;
    wire::Hash script{};
};
/// Puts the script where homes can fetch it.
wire::Hash put(TestLine& leader, const ClassScript& script);
/// Publishes the small class of tests/common/live, or another, and opens it.
OpenedClass openSmallClass(TestLine& leader, const ClassScript& script = smallClass());
/// A press that means what the leader has just seen.
wire::Ack press(TestLine& leader, CommandKind command, std::uint32_t lease, std::uint32_t serial);
/// Waits until the desk has been told that the item is so.
wire::DeskItem onDesk(const Visitor& helper, std::uint64_t item, wire::DeskState state);
/// Decides on what was seen; the acknowledgement has come.
void decide(const Visitor& helper, const wire::DeskItem& seen, wire::Decision decision);
/// Agrees and waits until it is on disk.
void agree(TestLine& line, AgreementKind kind, const std::string& value);

} // namespace vh::testing
