// Runs the built program as a person would, and catches what comes out.
#pragma once

#include <signal.h>
#include <sys/types.h>

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

namespace loafmark::end_to_end {

struct Finished {
    int exit_code = 0;  // 128 + n: ended by signal n
    std::string out;
    std::string err;
    std::chrono::microseconds took{0};
};

// A folder of its own for one test: the program runs in it, with its journal in journal/ unless
// told otherwise, no HOME, and nothing else of the environment but PATH.
class Kitchen {
  public:
    Kitchen();
    ~Kitchen();
    Kitchen(const Kitchen&) = delete;
    Kitchen& operator=(const Kitchen&) = delete;

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return folder_ / name;
    }
    void write(const std::string& name, const std::string& content) const;
    [[nodiscard]] std::string read(const std::string& name) const;

    // More of the environment, "NAME=value".
    void set(const std::string& variable) { environment_.push_back(variable); }

    // Takes LOAFMARK_JOURNAL out of the environment.
    void unset_journal() { environment_ = {"PATH=/usr/bin:/bin"}; }

    // The superuser may write everywhere: from here on the program runs as another user, to whom
    // the folder and all in it is given. Does nothing for other users.
    void become_nobody();

    [[nodiscard]] Finished run(const std::vector<std::string>& arguments) const;
    // Sends SIGKILL that long after the start, unless it has ended before.
    [[nodiscard]] Finished run_and_kill(const std::vector<std::string>& arguments,
                                        std::chrono::microseconds after) const;
    // At a terminal, where somebody types this as soon as the program reads: \x04 is Ctrl-D, \x03
    // Ctrl-C. What it shows, prompts and what is typed among them, is in `out`.
    [[nodiscard]] Finished run_at_terminal(const std::vector<std::string>& arguments,
                                           const std::string& typed) const;
    // Throws std::runtime_error with stderr unless it exits 0 with nothing on stderr; its stdout.
    std::string done(const std::vector<std::string>& arguments) const;

  private:
    [[nodiscard]] ::pid_t start(const std::vector<std::string>& arguments) const;
    [[nodiscard]] Finished wait_for(::pid_t child) const;

    std::filesystem::path folder_;
    std::vector<std::string> environment_;
    bool as_nobody_ = false;
};

}  // namespace loafmark::end_to_end
