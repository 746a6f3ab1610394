#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>

namespace loafmark::commands {

// A line on stderr that says how far the work is, rewritten in place. Silent off a terminal.
class Progress {
  public:
    // `what`: "measuring".
    Progress(std::ostream& err, bool is_terminal, std::string what, std::size_t total);
    ~Progress();  // wipes the line
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    // One more of `total` is done.
    void step();
    // Wipes the line so that something else can be printed; the next step() draws it again.
    void wipe();

  private:
    void draw();
    std::ostream& err_;
    bool shown_;
    std::string what_;
    std::size_t total_;
    std::size_t done_ = 0;
};

}  // namespace loafmark::commands
