#pragma once
// Counts what each thread of this program allocates; the pairs below forward to malloc and free. For the one source
// file of a test.
#include <cstdlib>
#include <new>

namespace
{

thread_local std::size_t allocations = 0;

} // namespace

void* operator new(std::size_t size)
{
    ++allocations;
    if (void* memory = std::malloc(size))
        return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept
{
    std::free(memory);
}
void operator delete(void* memory, std::size_t /*size*/) noexcept
{
    std::free(memory);
}
