#include "process.h"

#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <thread>

namespace loafmark::end_to_end {
namespace {

constexpr const char* out_name = ".stdout";
constexpr const char* err_name = ".stderr";

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
    std::vector<char*> pointers;
    for (std::string& text : texts)
        pointers.push_back(text.data());
    pointers.push_back(nullptr);
    return pointers;
}

constexpr ::uid_t nobody = 65534;

void redirect(int descriptor, const std::string& file) {
    const int opened = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(opened, descriptor);
    ::close(opened);
}

}  // namespace

Kitchen::Kitchen() {
    std::string name = (std::filesystem::temp_directory_path() / "loafmark-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    folder_ = name;
    environment_ = {"PATH=/usr/bin:/bin", "LOAFMARK_JOURNAL=" + (folder_ / "journal").string()};
}

Kitchen::~Kitchen() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

void Kitchen::write(const std::string& name, const std::string& content) const {
    std::ofstream(folder_ / name, std::ios::binary) << content;
}

std::string Kitchen::read(const std::string& name) const {
    std::ifstream stream(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

void Kitchen::become_nobody() {
    if (::geteuid() != 0) return;
    as_nobody_ = true;
    std::vector<std::filesystem::path> all{folder_};
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder_))
        all.push_back(entry.path());
    for (const auto& path : all)
        if (::chown(path.c_str(), nobody, nobody) != 0)
            throw std::runtime_error("cannot give away " + path.string());
}

::pid_t Kitchen::start(const std::vector<std::string>& arguments) const {
    std::vector<std::string> words{LOAFMARK_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<std::string> environment = environment_;
    const std::vector<char*> argv = pointers_to(words);
    const std::vector<char*> envp = pointers_to(environment);
    const std::string out = (folder_ / out_name).string();
    const std::string err = (folder_ / err_name).string();
    const ::pid_t child = ::fork();
    if (child < 0) throw std::runtime_error("cannot fork");
    if (child == 0) {
        redirect(STDOUT_FILENO, out);
        redirect(STDERR_FILENO, err);
        if (as_nobody_ && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) ::_exit(126);
        if (::chdir(folder_.c_str()) == 0) ::execve(LOAFMARK_PROGRAM, argv.data(), envp.data());
        ::_exit(126);
    }
    return child;
}

Finished Kitchen::wait_for(::pid_t child) const {
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    Finished finished;
    finished.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    finished.out = read(out_name);
    finished.err = read(err_name);
    return finished;
}

Finished Kitchen::run(const std::vector<std::string>& arguments) const {
    const auto begin = std::chrono::steady_clock::now();
    Finished finished = wait_for(start(arguments));
    finished.took = std::chrono::duration_cast<std::chrono::microseconds>(
        std::chrono::steady_clock::now() - begin);
    return finished;
}

Finished Kitchen::run_at_terminal(const std::vector<std::string>& arguments,
                                  const std::string& typed) const {
    constexpr int patience_ms = 20'000;
    std::vector<std::string> words{LOAFMARK_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<std::string> environment = environment_;
    const std::vector<char*> argv = pointers_to(words);
    const std::vector<char*> envp = pointers_to(environment);
    const int ours = ::posix_openpt(O_RDWR | O_NOCTTY);
    if (ours < 0 || ::grantpt(ours) != 0 || ::unlockpt(ours) != 0)
        throw std::runtime_error("no terminal to be had");
    const std::string theirs = ::ptsname(ours);
    const ::pid_t child = ::fork();
    if (child < 0) throw std::runtime_error("cannot fork");
    if (child == 0) {
        ::setsid();
        const int terminal = ::open(theirs.c_str(), O_RDWR);  // the new session's own
        for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
            ::dup2(terminal, descriptor);
        if (::chdir(folder_.c_str()) == 0) ::execve(LOAFMARK_PROGRAM, argv.data(), envp.data());
        ::_exit(126);
    }
    Finished finished;
    std::size_t sent = 0;
    ::pollfd waiting{.fd = ours, .events = POLLIN, .revents = 0};
    while (::poll(&waiting, 1, patience_ms) > 0) {
        std::array<char, 4096> shown{};
        const ::ssize_t got = ::read(ours, shown.data(), shown.size());
        if (got <= 0) break;  // the program has ended
        finished.out.append(shown.data(), static_cast<std::size_t>(got));
        // One line for one question.
        if (sent < typed.size() && finished.out.ends_with(' ')) {
            const std::size_t end =
                std::min(typed.find_first_of("\n\x03\x04", sent) + 1, typed.size());
            if (::write(ours, typed.data() + sent, end - sent) < 0) break;
            sent = end;
        }
    }
    ::kill(child, SIGKILL);  // one that still waits; of no effect on one that has ended
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(ours);
    finished.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return finished;
}

Finished Kitchen::run_and_kill(const std::vector<std::string>& arguments,
                               std::chrono::microseconds after) const {
    const ::pid_t child = start(arguments);
    std::this_thread::sleep_for(after);
    ::kill(child, SIGKILL);
    return wait_for(child);
}

std::string Kitchen::done(const std::vector<std::string>& arguments) const {
    Finished finished = run(arguments);
    if (finished.exit_code != 0 || !finished.err.empty())
        throw std::runtime_error("exit code " + std::to_string(finished.exit_code) + ": " +
                                 finished.err);
    return finished.out;
}

}  // namespace loafmark::end_to_end
