#pragma once
// Counts what this thread takes from the heap, to prove that the sound path takes nothing: operator new, and malloc and
// its kin too (C libraries), except under a sanitizer, which needs them for itself. Include it in exactly one source
// file of a test program: it replaces the global functions.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <new>

namespace vh::test
{
inline thread_local std::uint64_t allocationCount = 0;

/// Heap allocations of this thread since construction.
class AllocationCounter
{
public:
    [[nodiscard]] std::uint64_t count() const { return allocationCount - m_start; }

private:
    std::uint64_t m_start = allocationCount;
};

inline void* countedNew(std::size_t size)
{
    ++allocationCount;
    if (void* memory = std::malloc(size > 0 ? size : 1))
        return memory;
    throw std::bad_alloc();
}
inline void* countedAlignedNew(std::size_t size, std::align_val_t alignment)
{
    ++allocationCount;
    const auto step = static_cast<std::size_t>(alignment);
    if (void* memory = std::aligned_alloc(step, (size + step - 1) / step * step))
        return memory;
    throw std::bad_alloc();
}
} // namespace vh::test

// NOLINTBEGIN(misc-definitions-in-headers,bugprone-reserved-identifier): one source file per program includes this.
void* operator new(std::size_t size)
{
    return vh::test::countedNew(size);
}
void* operator new[](std::size_t size)
{
    return vh::test::countedNew(size);
}
void* operator new(std::size_t size, std::align_val_t at)
{
    return vh::test::countedAlignedNew(size, at);
}
void* operator new[](std::size_t size, std::align_val_t at)
{
    return vh::test::countedAlignedNew(size, at);
}
void operator delete(void* memory) noexcept
{
    std::free(memory);
}
void operator delete[](void* memory) noexcept
{
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept
{
    std::free(memory);
}
void operator delete[](void* memory, std::size_t) noexcept
{
    std::free(memory);
}
void operator delete(void* memory, std::align_val_t) noexcept
{
    std::free(memory);
}
void operator delete[](void* memory, std::align_val_t) noexcept
{
    std::free(memory);
}
void operator delete(void* memory, std::size_t, std::align_val_t) noexcept
{
    std::free(memory);
}
void operator delete[](void* memory, std::size_t, std::align_val_t) noexcept
{
    std::free(memory);
}

#if defined(__GLIBC__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define VH_COUNTS_MALLOC 1
extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* memory, std::size_t size);

void* malloc(std::size_t size)
{
    ++vh::test::allocationCount;
    return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size)
{
    ++vh::test::allocationCount;
    return __libc_calloc(count, size);
}
void* realloc(void* memory, std::size_t size)
{
    ++vh::test::allocationCount;
    return __libc_realloc(memory, size);
}
}
#endif
// NOLINTEND(misc-definitions-in-headers,bugprone-reserved-identifier)
