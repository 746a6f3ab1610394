// What a report over a large journal costs: copies a journal's bakes with their readings and
// pictures until there are enough, has the program write the report, and prints the CPU time that
// took and how large the page is.
//   loafmark-report-benchmark PROGRAM JOURNAL [BAKES [PAGE.html]]
// JOURNAL is one that `loafmark demo` made; it is copied, not changed. PAGE keeps the page, to be
// looked at.
#include <SQLiteCpp/Statement.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

#include "journal/database.h"

namespace {

namespace fs = std::filesystem;
using loafmark::journal::database_name;

// What a copied row refers to is the copy, told by an offset.
struct Table {
    std::string name;
    std::vector<std::string> shifted;
};
const std::array<Table, 12> tables{{{"bake_day", {"id"}},
                                    {"bake", {"id", "bake_day"}},
                                    {"mixed_amount", {"bake"}},
                                    {"bake_step", {"bake"}},
                                    {"loaf", {"id", "bake"}},
                                    {"slice", {"id", "loaf"}},
                                    {"slice_thickness", {"slice"}},
                                    {"reading", {"id", "slice"}},
                                    {"reading_value", {"reading"}},
                                    {"reading_warning", {"reading"}},
                                    {"reading_cells", {"reading"}},
                                    {"reading_picture", {"reading"}}}};
constexpr int offset = 100'000;  // between copies, more than any number of the original

// "INSERT INTO bake SELECT id + 100000, uid || '-1', ... WHERE the original"
std::string copying(const SQLite::Database& db, const Table& table, int copy) {
    std::string columns;
    SQLite::Statement info(db, "SELECT name FROM pragma_table_info(?)");
    info.bind(1, table.name);
    while (info.executeStep()) {
        const std::string name = info.getColumn(0).getString();
        if (!columns.empty()) columns += ", ";
        if (std::ranges::find(table.shifted, name) != table.shifted.end())
            columns += name + " + " + std::to_string(copy * offset);
        else if (name == "uid")
            columns += "uid || '-" + std::to_string(copy) + "'";
        else if (table.name == "bake_day" && name == "date")
            columns += "date(date, '-" + std::to_string(80 * copy) + " days')";
        else
            columns += name;
    }
    return "INSERT INTO " + table.name + " SELECT " + columns + " FROM " + table.name + " WHERE " +
           table.shifted.front() + " < " + std::to_string(offset);
}

int enlarge(const fs::path& folder, int bakes) {
    SQLite::Database db =
        loafmark::journal::open_to_write(folder / database_name, std::chrono::seconds(10));
    const int there = db.execAndGet("SELECT count(*) FROM bake").getInt();
    if (there == 0) throw std::runtime_error("the journal has no bake");
    const int copies = (bakes + there - 1) / there - 1;
    db.exec("BEGIN");
    for (int copy = 1; copy <= copies; ++copy)
        for (const Table& table : tables)
            db.exec(copying(db, table, copy));
    db.exec("COMMIT");
    return there * (copies + 1);
}

double seconds(const ::timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

// CPU time, user and system.
double seconds_to_write(const std::string& program, const fs::path& folder, const fs::path& page) {
    const ::pid_t child = ::fork();
    if (child == 0) {
        ::execl(program.c_str(), program.c_str(), "--journal", folder.c_str(), "report", "-o",
                page.c_str(), nullptr);
        ::_exit(127);
    }
    int status = 0;
    ::rusage usage{};
    if (child < 0 || ::wait4(child, &status, 0, &usage) != child || status != 0)
        throw std::runtime_error(program + " did not write the report");
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

void measure(const std::string& program, const fs::path& journal, int wanted,
             const fs::path& kept) {
    const fs::path folder =
        fs::temp_directory_path() / ("loafmark-report-benchmark-" + std::to_string(::getpid()));
    fs::create_directories(folder);
    fs::copy_file(journal / database_name, folder / database_name);
    const int bakes = enlarge(folder, wanted);
    const fs::path page = folder / "report.html";
    const double cpu = seconds_to_write(program, folder, page);
    std::printf("%d bakes: %.1f s of CPU, %.1f MB of HTML\n", bakes, cpu,
                static_cast<double>(fs::file_size(page)) / 1e6);
    if (!kept.empty()) fs::copy_file(page, kept, fs::copy_options::overwrite_existing);
    fs::remove_all(folder);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 3) {
        std::cerr << "loafmark-report-benchmark PROGRAM JOURNAL [BAKES [PAGE.html]]\n";
        return 2;
    }
    try {
        measure(argv[1], argv[2], argc > 3 ? std::atoi(argv[3]) : 1000, argc > 4 ? argv[4] : "");
    } catch (const std::exception& error) {
        std::cerr << "loafmark-report-benchmark: " << error.what() << "\n";
        return 1;
    }
}
