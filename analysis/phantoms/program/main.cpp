// loafmark-phantoms: writes rendered slices of known truth. Exit: 0 done; 1 the work failed; 2 the
// command line was wrong.
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "commands.h"

int main(int argc, char* argv[]) {
    using namespace loafmark::phantoms;
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
