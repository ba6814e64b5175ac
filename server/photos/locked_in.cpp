#include "server/photos/locked_in.h"

#include <array>
#include <memory>

#include <seccomp.h>
#include <sys/prctl.h>
#include <sys/resource.h>

namespace vh::photos
{

namespace
{

bool limit(__rlimit_resource what, rlim_t most)
{
    const rlimit both{most, most};
    return setrlimit(what, &both) == 0;
}

#ifndef VH_SANITIZED
/// What the C library calls to read, to write, to have memory, and to end. Anything else ends the process at once.
bool onlyReadAndWrite()
{
    constexpr std::array kCalls{
        SCMP_SYS(read),   SCMP_SYS(write),         SCMP_SYS(brk),       SCMP_SYS(mmap),          SCMP_SYS(munmap),
        SCMP_SYS(mremap), SCMP_SYS(madvise),       SCMP_SYS(exit),      SCMP_SYS(exit_group),    SCMP_SYS(rt_sigreturn),
        SCMP_SYS(futex),  SCMP_SYS(clock_gettime), SCMP_SYS(getrandom), SCMP_SYS(rt_sigprocmask)};
    const std::unique_ptr<void, void (*)(scmp_filter_ctx)> filter(seccomp_init(SCMP_ACT_KILL_PROCESS), seccomp_release);
    if (!filter)
        return false;
    for (const int call : kCalls) {
        // Memory never becomes code.
        const bool added = call == SCMP_SYS(mmap)
                               ? seccomp_rule_add(filter.get(), SCMP_ACT_ALLOW, call, 1,
                                                  SCMP_A2(SCMP_CMP_MASKED_EQ, 4 /* PROT_EXEC */, 0)) == 0
                               : seccomp_rule_add(filter.get(), SCMP_ACT_ALLOW, call, 0) == 0;
        if (!added)
            return false;
    }
    return seccomp_load(filter.get()) == 0;
}
#endif

} // namespace

bool lockIn([[maybe_unused]] std::size_t mostMemory)
{
    if (!limit(RLIMIT_CPU, kMostSeconds) || !limit(RLIMIT_CORE, 0))
        return false;
#ifdef VH_SANITIZED
    return true;
#else
    return limit(RLIMIT_AS, mostMemory) && limit(RLIMIT_FSIZE, 0) && limit(RLIMIT_NOFILE, 0) &&
           prctl(PR_SET_DUMPABLE, 0) == 0 && prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && onlyReadAndWrite();
#endif
}

} // namespace vh::photos
