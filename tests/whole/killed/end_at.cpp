// Preloaded into a relay, so that its end comes at an exact place and not "some time": VH_END_AT="SYNCS SENDS before"
// (or "after") ends the process by SIGKILL, as kill -9 does, at its SYNCS-th sync of a file; with SENDS > 0 at that
// many sends on a socket later. So "1 0 after" is: written, on disk, and nobody has heard of it.
#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <dlfcn.h>
#include <sys/socket.h>
#include <sys/types.h>
#include <unistd.h>

namespace
{

struct Plan {
    long syncs = 0; ///< 0: none
    long sends = 0;
    bool before = false;
    Plan()
    {
        const char* text = std::getenv("VH_END_AT");
        char when[8] = "";
        if (!text || std::sscanf(text, "%ld %ld %7s", &syncs, &sends, when) != 3)
            syncs = 0;
        before = std::strcmp(when, "before") == 0;
    }
};

const Plan& plan()
{
    static const Plan read;
    return read;
}

std::atomic<long> syncs{0};
std::atomic<long> sends{0};

bool isSync()
{
    return plan().syncs > 0 && syncs.fetch_add(1) + 1 == plan().syncs && plan().sends == 0;
}

bool isSend()
{
    return plan().syncs > 0 && plan().sends > 0 && syncs.load() >= plan().syncs &&
           sends.fetch_add(1) + 1 == plan().sends;
}

void endIf(bool here, bool before)
{
    if (!here || before != plan().before)
        return;
    if (before && plan().sends == 0)
        ::usleep(20'000); // an answer that does not wait for the disk would leave now
    ::kill(::getpid(), SIGKILL);
}

template <class Function>
Function next(const char* name)
{
    return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name));
}

int synced(const char* name, int file)
{
    const bool here = isSync();
    endIf(here, true);
    const int result = next<int (*)(int)>(name)(file);
    endIf(here, false);
    return result;
}

} // namespace

extern "C" {

int fsync(int file)
{
    return synced("fsync", file);
}

int fdatasync(int file)
{
    return synced("fdatasync", file);
}

ssize_t send(int socket, const void* bytes, size_t count, int flags)
{
    const bool here = isSend();
    endIf(here, true);
    const ssize_t result = next<ssize_t (*)(int, const void*, size_t, int)>("send")(socket, bytes, count, flags);
    endIf(here, false);
    return result;
}

} // extern "C"
