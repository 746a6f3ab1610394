#include "journal/print_checks.h"

#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {

void keep_print_check(Store& store, TargetKind target, Millimetres line) {
    if (!(line >= Millimetres(50) && line <= Millimetres(150)))
        throw Error("the printed 100 mm line measures between 50 and 150 mm, not " + to_text(line));
    execute(store.db,
            "INSERT INTO print_check (kitchen, target, line_mm, ruled_at) "
            "SELECT min(id), ?, ?, ? FROM kitchen WHERE true "
            "ON CONFLICT DO UPDATE SET line_mm = excluded.line_mm, ruled_at = excluded.ruled_at",
            target, line, store.now());
}

bool forget_print_check(Store& store, TargetKind target) {
    return prepared(store.db, "DELETE FROM print_check WHERE target = ?", target).exec() > 0;
}

PrintChecks all_print_checks(const Store& store) {
    auto statement = prepared(store.db, "SELECT target, line_mm, ruled_at FROM print_check");
    PrintChecks checks;
    while (statement.executeStep()) {
        Row row(statement);
        PrintCheck& check = checks[row.take<TargetKind>()];
        row.into(check.line);
        row.into(check.ruled_at);
    }
    return checks;
}

}  // namespace loafmark::journal
