#include "net_fixture.h"

#include <QtTest>

#include <future>
#include <sys/socket.h>
#include <unistd.h>

using namespace vh::net;
using namespace vh::net::test;
using namespace std::chrono_literals;

namespace
{

struct Reader final : PollTarget {
    Reader(Loop& onLoop, int fd, std::function<void()> function)
        : loop(onLoop), descriptor(fd), whenReady(std::move(function))
    {
        added = loop.poller().add(descriptor, *this, EPOLLIN);
    }
    ~Reader() override
    {
        loop.poller().remove(descriptor, *this);
        ::close(descriptor);
    }
    void onReady(std::uint32_t) override
    {
        char byte = 0;
        count += ::recv(descriptor, &byte, 1, 0) == 1 ? 1 : 0;
        whenReady();
    }
    Loop& loop;
    int descriptor;
    bool added = false;
    int count = 0;
    std::function<void()> whenReady;
};

} // namespace

class TestLoop : public QObject
{
    Q_OBJECT
private slots:
    void postedFunctionsRunOnTheLoopInOrder()
    {
        LoopThread thread;
        std::promise<std::vector<int>> done;
        std::vector<int> order;
        bool here = true;
        for (int i = 0; i < 100; ++i)
            thread.loop().post([&, i] {
                here = here && thread.loop().isHere();
                order.push_back(i);
                if (i == 99)
                    done.set_value(order);
            });
        const auto seen = done.get_future().get();
        QVERIFY(here);
        QVERIFY(!thread.loop().isHere());
        for (int i = 0; i < 100; ++i)
            QCOMPARE(seen[static_cast<std::size_t>(i)], i);
    }

    void aCancelledTimerIsNotCalled()
    {
        Loop loop;
        bool early = false;
        bool late = false;
        bool dropped = false;
        auto cancelled = loop.after(1ms, [&] { early = true; });
        const auto kept = loop.after(20ms, [&] { late = true; });
        {
            const auto gone = loop.after(1ms, [&] { dropped = true; });
        }
        cancelled.cancel();
        QVERIFY(runUntil(loop, [&] { return late; }));
        QVERIFY(!early);
        QVERIFY(!dropped);
    }

    void aRepeatingTimerMayEndItself()
    {
        Loop loop;
        int calls = 0;
        Loop::Timer timer;
        timer = loop.every(1ms, [&] {
            if (++calls == 3)
                timer.cancel();
        });
        bool after = false;
        QVERIFY(runUntil(loop, [&] { return calls == 3; }));
        const auto wait = loop.after(10ms, [&] { after = true; });
        QVERIFY(runUntil(loop, [&] { return after; }));
        QCOMPARE(calls, 3);
    }

    void nobodyIsCalledAfterItsRemoval()
    {
        // Both are readable in the same batch, and whoever comes first destroys the other.
        Loop loop;
        int a[2];
        int b[2];
        QVERIFY(::socketpair(AF_UNIX, SOCK_STREAM, 0, a) == 0 && ::socketpair(AF_UNIX, SOCK_STREAM, 0, b) == 0);
        std::unique_ptr<Reader> first;
        std::unique_ptr<Reader> second;
        int calls = 0;
        first = std::make_unique<Reader>(loop, a[0], [&] {
            ++calls;
            second.reset();
        });
        second = std::make_unique<Reader>(loop, b[0], [&] {
            ++calls;
            first.reset();
        });
        QVERIFY(first->added && second->added);
        QCOMPARE(::write(a[1], "x", 1), ssize_t{1});
        QCOMPARE(::write(b[1], "x", 1), ssize_t{1});
        QVERIFY(runUntil(loop, [&] { return calls > 0; }));
        bool later = false;
        const auto wait = loop.after(10ms, [&] { later = true; });
        QVERIFY(runUntil(loop, [&] { return later; }));
        QCOMPARE(calls, 1);
        ::close(a[1]);
        ::close(b[1]);
    }
};

QTEST_GUILESS_MAIN(TestLoop)
#include "test_loop.moc"
