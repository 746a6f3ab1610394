#include "journal/checkup.h"

#include <SQLiteCpp/Exception.h>

#include <algorithm>
#include <set>

#include "arithmetic/near_names.h"
#include "journal/durable_files.h"
#include "journal/rows.h"
#include "journal/things.h"

namespace loafmark::journal {
namespace {

constexpr const char* from_backup = "take it from a backup: loafmark restore FILE";

std::vector<std::string> texts(const Store& store, const std::string& sql) {
    SQLite::Statement statement(store.db, sql);
    std::vector<std::string> all;
    while (statement.executeStep())
        all.push_back(statement.getColumn(0).getString());
    return all;
}

class Checkup {
  public:
    Checkup(Store& store, const PhotoStore& photos, const std::filesystem::path& folder, bool mend)
        : store_(store), photos_(photos), folder_(folder), mend_(mend) {}

    std::vector<Finding> all() {
        database();
        references();
        for (const std::string& unsound : unsound_things(store_))
            found(unsound, "correct it, or take an older state: loafmark restore FILE");
        folded_names();
        what_follows();
        bags();
        photo_rows();
        photo_files();
        leftovers();
        return std::move(findings_);
    }

  private:
    void found(const std::string& what, const std::string& remedy) {
        findings_.push_back({.what = what, .harmless = false, .mended = false, .remedy = remedy});
    }
    void worth_knowing(const std::string& what, const std::string& remedy) {
        findings_.push_back({.what = what, .harmless = true, .mended = false, .remedy = remedy});
    }
    // What can be put right here: done where asked.
    template <class Work>
    void mendable(const std::string& what, Work work) {
        if (mend_) work();
        findings_.push_back({.what = what,
                             .harmless = false,
                             .mended = mend_,
                             .remedy = mend_ ? "" : "loafmark check --mend puts it right"});
    }

    void database() {
        const auto complaints = texts(store_, "PRAGMA integrity_check(20)");
        const bool only_indices = std::ranges::all_of(complaints, [](const std::string& one) {
            return one == "ok" || one.find("index") != std::string::npos;
        });
        for (const std::string& complaint : complaints) {
            if (complaint == "ok") continue;
            const std::string what = "the database: " + complaint;
            if (only_indices)
                mendable(what, [&] { store_.db.exec("REINDEX"); });
            else
                found(what, from_backup);
        }
    }

    void references() {
        SQLite::Statement broken(store_.db, "PRAGMA foreign_key_check");
        while (broken.executeStep())
            found(words_for(broken.getColumn(0).getString()) + " " +
                      broken.getColumn(1).getString() + " names a " +
                      words_for(broken.getColumn(2).getString()) + " that is not there",
                  from_backup);
    }

    void folded_names() {
        for (const Thing& thing : things_of(store_.db))
            for (const Column& column : thing.columns) {
                if (!follows_from_another(column.name)) continue;
                const std::string name = source_of(column.name);
                const std::string wrong =
                    " FROM " + thing.table + " WHERE " + column.name + " <> folded(" + name + ")";
                for (const std::string& one : texts(store_, "SELECT " + name + wrong))
                    mendable(
                        "the " + words_for(thing.table) + " '" + one + "' is not found by its name",
                        [&] {
                            execute(store_.db,
                                    "UPDATE " + thing.table + " SET " + column.name + " = folded(" +
                                        name + ") WHERE " + name + " = ?",
                                    one);
                        });
            }
    }

    bool holds(const char* query) { return store_.db.execAndGet(query).getInt() == 0; }

    void what_follows() {
        if (!holds(
                "SELECT EXISTS (SELECT * FROM figures_of_bake EXCEPT SELECT * FROM bake_figures) "
                "OR (SELECT count(*) FROM figures_of_bake) <> "
                "(SELECT count(*) FROM bake_figures)"))
            mendable("figures of bakes do not agree with what was mixed", [&] {
                store_.db.exec(
                    "DELETE FROM bake_figures; "
                    "INSERT INTO bake_figures SELECT * FROM figures_of_bake");
            });
        if (!holds("SELECT EXISTS (SELECT slice, key, value, bake FROM value_of_slice "
                   "EXCEPT SELECT * FROM slice_value) OR (SELECT count(*) FROM value_of_slice) <> "
                   "(SELECT count(*) FROM slice_value)"))
            mendable("what find looks through does not agree with the newest readings", [&] {
                store_.db.exec(
                    "DELETE FROM slice_value; INSERT INTO slice_value "
                    "SELECT slice, key, value, bake FROM value_of_slice");
            });
        if (mend_) store_.db.exec("INSERT INTO bake_text (bake_text) VALUES ('rebuild')");
    }

    void bags() {
        for (const std::string& bag : texts(
                 store_,
                 "SELECT 'bag ' || bag.id || ' of ' || flour.name FROM bag JOIN flour "
                 "ON flour.id = bag.flour WHERE bag.dropped_at IS NULL AND stock_mass_g < "
                 "(SELECT total(m.mass_g * m.flour_fraction) FROM mixed_amount AS m "
                 "JOIN bake ON bake.id = m.bake WHERE m.bag = bag.id AND bake.dropped_at IS NULL) "
                 "- 0.5"))
            worth_knowing(bag + " gave more than it held",
                          "weigh what is left: loafmark bag edit BAG --left 1kg");
    }

    void photo_rows() {
        SQLite::Statement rows(store_.db, "SELECT hash, extension FROM photo");
        while (rows.executeStep()) {
            const std::string hash = rows.getColumn(0).getString();
            const auto file = photos_.file_of(hash, rows.getColumn(1).getString());
            known_.insert(file);
            if (!std::filesystem::exists(file))
                found("the photo " + file.string() + " is no longer there", from_backup);
            else if (sha256_of(file) != hash)
                found("the photo " + file.string() + " is not what it was when it was filed",
                      from_backup);
        }
        const auto unused =
            texts(store_, "SELECT hash FROM photo WHERE id NOT IN (SELECT photo FROM slice)");
        if (!unused.empty())
            worth_knowing(std::to_string(unused.size()) + " photos are kept that no slice shows",
                          "nothing to do");
    }

    void photo_files() {
        std::error_code absent;
        int strangers = 0;
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator(folder_ / "photos", absent))
            if (entry.is_regular_file() && !known_.contains(entry.path())) ++strangers;
        if (strangers > 0)
            worth_knowing(std::to_string(strangers) + " files under " +
                              (folder_ / "photos").string() +
                              " belong to no bake: of what was taken back, or of an older state",
                          "nothing to do; they are never removed by themselves");
    }

    void leftovers() {
        for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
            const std::string name = entry.path().filename().string();
            if (name.starts_with("restoring-"))
                mendable(entry.path().string() + " was left by a restore that was broken off",
                         [&] { std::filesystem::remove_all(entry.path()); });
        }
    }

    Store& store_;
    const PhotoStore& photos_;
    const std::filesystem::path& folder_;
    bool mend_;
    std::set<std::filesystem::path> known_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<std::string> unsound_things(const Store& store) {
    std::vector<std::string> all = texts(
        store,
        "SELECT 'the flour of formula ' || formula.name || ', version ' || v.version || ', makes ' "
        "|| round(100 * total(i.share_of_flour * i.flour_fraction), 4) || ' % instead of 100 %' "
        "FROM formula_version AS v JOIN formula ON formula.id = v.formula "
        "LEFT JOIN ingredient AS i ON i.formula_version = v.id GROUP BY v.id "
        "HAVING abs(total(i.share_of_flour * i.flour_fraction) - 1) > 1e-6");
    // date() alone takes the 30th of February as it stands.
    for (const std::string& day : texts(
             store,
             "SELECT day || ' is not a day of the calendar' FROM (SELECT date AS day FROM bake_day "
             "UNION SELECT bought_on FROM bag UNION SELECT best_before FROM bag "
             "UNION SELECT opened_on FROM bag UNION SELECT milled_on FROM bag) "
             "WHERE day IS NOT date(day, '+0 days')"))
        all.push_back(day);
    for (const std::string& bake :
         texts(store,
               "SELECT 'nothing went into bake ' || id || ', ' || title FROM bake "
               "WHERE id NOT IN (SELECT bake FROM mixed_amount)"))
        all.push_back(bake);
    for (const std::string& bake :
         texts(store,
               "SELECT 'bake ' || id || ', ' || title || ', has no loaf' FROM bake "
               "WHERE id NOT IN (SELECT bake FROM loaf)"))
        all.push_back(bake);
    return all;
}

std::vector<Finding> look_through(Store& store, const PhotoStore& photos,
                                  const std::filesystem::path& folder, bool mend) {
    return Checkup(store, photos, folder, mend).all();
}

}  // namespace loafmark::journal
