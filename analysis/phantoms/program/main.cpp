// loafmark-phantoms: writes rendered slices of known truth. Exit: 0 done; 1 the work failed; 2 the
// command line was wrong.
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#ifdef __GLIBC__
#include <malloc.h>
#endif

#include "commands.h"

namespace {

// Photos come and go in blocks of a hundred megabytes. Memory that was freed is kept for the next
// one: to have the system clear it anew takes a seventh of the time.
void keep_freed_memory() {
#ifdef __GLIBC__
    constexpr int gigabyte = 1 << 30;
    mallopt(M_MMAP_THRESHOLD, gigabyte);
    mallopt(M_TRIM_THRESHOLD, gigabyte);
    mallopt(M_TOP_PAD, gigabyte / 8);
#endif
}

}  // namespace

int main(int argc, char* argv[]) {
    using namespace loafmark::phantoms;
    keep_freed_memory();
    try {
        return run(std::vector<std::string>(argv + 1, argv + argc), std::cerr);
    } catch (const BadCommandLine& error) {
        std::cerr << "loafmark-phantoms: error: " << error.what() << "\n\n" << usage;
        return 2;
    } catch (const std::exception& error) {
        std::cerr << "loafmark-phantoms: error: " << error.what() << '\n';
        return 1;
    }
}
