// What export, merge, backup, restore and check answer.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace loafmark::journal {

using CountsByTable = std::map<std::string, int>;

struct ExportCounts {
    CountsByTable things;
    int photos = 0;
    std::vector<std::string> missing_photos;  // names of files that are no longer there
};

// What to do where both journals know a thing and tell it differently.
enum class OnConflict { refuse, keep_mine, take_theirs };
// What to do with another flour or formula of a name that is taken here.
enum class OnSameName { refuse, same_thing, keep_apart };

struct MergeChoices {
    OnConflict on_conflict = OnConflict::refuse;
    OnSameName on_same_name = OnSameName::refuse;
};

struct Conflict {
    std::string thing;   // "flour 'Strong white'"
    std::string column;  // "protein_fraction", or the table of a part
    std::string mine;
    std::string theirs;
    bool same_name = false;  // two things of one name
};

struct Merged {
    bool done = false;  // false: conflicts, and nothing was done
    CountsByTable added;
    CountsByTable changed;  // took theirs
    int unchanged = 0;
    std::vector<Conflict> conflicts;
    std::vector<std::string> renamed;  // "flour 'White' is 'White (3f2a)' here"
    int photos = 0;                    // brought in
    std::vector<std::string> missing_photos;
};

struct BackupCounts {
    int photos = 0;
    std::uintmax_t bytes = 0;
};

struct Restored {
    int bakes = 0;
    int photos = 0;                              // brought in
    std::optional<std::filesystem::path> aside;  // where what stood there lies now
};

struct Finding {
    std::string what;
    bool harmless = false;  // worth knowing, nothing wrong
    bool mended = false;
    std::string remedy;  // where it is not mended
};

}  // namespace loafmark::journal
