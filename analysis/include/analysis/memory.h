// What a program that measures does with memory, before anything else.
#pragma once

#include <cstdlib>  // says which C library it is

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace loafmark::analysis {

// For the rest of the program, memory that was given back is kept to be given out again. Pictures
// are large, and glibc would return each one to the system, which hands out and clears fresh pages
// for the next: a twentieth of the time that a photo takes. What lies free between two pieces in
// use cannot go back either. Nothing where the C library is another.
inline void keep_memory() {
#ifdef __GLIBC__
    constexpr int most = 2'000'000'000;  // bytes; more than any photo takes
    ::mallopt(M_MMAP_MAX, 0);
    ::mallopt(M_TRIM_THRESHOLD, most);
    ::mallopt(M_ARENA_MAX, 1);  // every photo has a thread of its own, which would keep its own
#endif
}

}  // namespace loafmark::analysis
