// Composes the program, runs it, and turns what comes out into an exit code: 0 done; 1 the work
// failed or a photo could not be measured; 2 the command line was wrong.
#include <unistd.h>

#include <cstdlib>
#include <ctime>
#include <exception>
#include <filesystem>
#include <iostream>
#include <string>
#include <vector>

#include "analysis/memory.h"
#include "commands/context.h"
#include "commands/failure.h"
#include "commands/messages.h"
#include "commands/program.h"

namespace {

using namespace loafmark;

constexpr int exit_done = 0;
constexpr int exit_failed = 1;
constexpr int exit_wrong_command_line = 2;

std::optional<std::string> environment(const std::string& name) {
    const char* value = std::getenv(name.c_str());
    if (value == nullptr || *value == '\0') return std::nullopt;
    return value;
}

std::string formatted(const std::tm& time, const char* format) {
    char text[64];
    return {text, std::strftime(text, sizeof text, format, &time)};
}

std::tm local_time() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&now, &local);
    return local;
}

Date today() {
    const std::tm local = local_time();
    return {local.tm_year + 1900, local.tm_mon + 1, local.tm_mday};
}

commands::Context system_context() {
    std::error_code unknown;
    return {.out = std::cout,
            .err = std::cerr,
            .environment = environment,
            .today = today(),
            .now_local = [] { return formatted(local_time(), "%Y-%m-%d %H:%M"); },
            .program = std::filesystem::read_symlink("/proc/self/exe", unknown),
            .out_is_terminal = ::isatty(STDOUT_FILENO) == 1,
            .err_is_terminal = ::isatty(STDERR_FILENO) == 1,
            .in = &std::cin,
            .in_is_terminal = ::isatty(STDIN_FILENO) == 1};
}

int run(const std::vector<std::string>& arguments, const commands::Context& context) {
    commands::Program program;
    if (const auto text = program.parse(arguments)) {
        context.out << *text;
        return exit_done;
    }
    return program.run(context) == commands::Outcome::done ? exit_done : exit_failed;
}

}  // namespace

int main(int argc, char** argv) {
    analysis::keep_memory();
    const commands::Context context = system_context();
    const auto complain = [&](const std::string& message) {
        std::cerr << commands::stderr_line("error", message, commands::colour_on_err(context));
    };
    try {
        const int code = run({argv + 1, argv + argc}, context);
        if (std::cout.flush()) return code;
        complain("cannot write the result to standard output; is the disk full?");
    } catch (const commands::UsageError& error) {
        complain(commands::message_of(error));
        return exit_wrong_command_line;
    } catch (const std::exception& error) {
        complain(commands::message_of(error));
    } catch (...) {
        complain("unknown failure");
    }
    return exit_failed;
}
