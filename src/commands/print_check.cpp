#include "commands/print_check.h"

#include <array>
#include <stdexcept>
#include <vector>

#include "arithmetic/quantities.h"
#include "commands/text.h"
#include "documents/text_table.h"

namespace loafmark::commands {

std::string target_name(TargetKind target) {
    switch (target) {
        case TargetKind::a4_mat:
            return "the A4 mat";
        case TargetKind::letter_mat:
            return "the Letter mat";
        case TargetKind::strip:
            break;
    }
    return "the strip";
}

Millimetres parse_print_check(const std::string& text) {
    const Millimetres line = parse_length(text);
    if (line < Millimetres(50) || line > Millimetres(150))
        throw std::runtime_error("'" + text +
                                 "' is no print of a 100 mm line; rule it and write 98.7mm");
    return line;
}

analysis::MeasureOptions with_kept_print_checks(analysis::MeasureOptions options,
                                                const journal::Journal& journal) {
    for (const auto& [target, check] : journal.print_checks())
        options.print_checks[target] = check.line;
    return options;
}

std::string keep_print_check(journal::Journal& journal, TargetKind target, Millimetres line) {
    journal.keep_print_check(target, line);
    return "Kept: the 100 mm line of " + target_name(target) + " measures " +
           number_text(line.count(), 2) +
           " mm. Photos of it are measured by that from now on; slice remeasure brings older ones "
           "up to it.\n";
}

std::string print_checks_table(const journal::PrintChecks& checks) {
    std::vector<std::vector<std::string>> rows;
    for (const TargetKind target :
         {TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip}) {
        const auto known = checks.find(target);
        std::vector<std::string> row{target_name(target).substr(4), "not checked", ""};
        if (known != checks.end())
            row = {row[0], number_text(known->second.line.count(), 2) + " mm",
                   known->second.ruled_at.substr(0, 10)};
        rows.push_back(row);
    }
    return documents::text_table(
        {{"target"}, {"its 100 mm line", documents::Align::right}, {"told on"}}, rows);
}

}  // namespace loafmark::commands
