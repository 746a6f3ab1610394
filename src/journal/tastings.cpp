#include "journal/tastings.h"

#include <set>

#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

void check_place(double score, const std::string& what) {
    if (!(score >= 0 && score <= end_of_line))
        throw Error(what + " is " + number_text(score) + ", not within 0 to 10");
}

void check(const TasteScores& scores) {
    for (const auto& [key, score] : scores.lines) {
        if (std::ranges::find(tasting_lines, key, &TastingLine::key) == tasting_lines.end())
            throw Error("'" + key + "' is no line of a tasting");
        check_place(score, "the score of " + key);
    }
    if (scores.liking) check_place(*scores.liking, "the liking");
    if (scores.lines.empty() && !scores.liking && !scores.words)
        throw Error("a tasting without any score or word says nothing");
}

void check_loaf(const Store& store, BakeId bake, int loaf) {
    auto known = prepared(store.db, "SELECT 1 FROM loaf WHERE bake = ? AND number = ?", bake, loaf);
    if (!known.executeStep())
        throw NotFound(
            "bake " + std::to_string(bake.value) + " has no loaf " + std::to_string(loaf), {});
}

// From the words of the sitting on: what the taster said, put in the place of what was there.
void keep_scores(Store& store, TastingId id, const TasteScores& scores) {
    execute(store.db, "UPDATE tasting SET liking = ?, words = ?, scored_at = ? WHERE id = ?",
            scores.liking, scores.words, store.now(), id);
    execute(store.db, "DELETE FROM tasting_score WHERE tasting = ?", id);
    for (const auto& [key, score] : scores.lines)
        execute(store.db, "INSERT INTO tasting_score (tasting, line, score) VALUES (?, ?, ?)", id,
                key, score);
}

constexpr const char* columns =
    "SELECT id, bake, loaf_number, taster, tasted_on, since_oven_h, kept, liking, words, sitting, "
    "turn, code, scored_at IS NOT NULL FROM tasting ";

std::vector<Tasting> read_all(const Store& store, SQLite::Statement statement) {
    std::vector<Tasting> tastings;
    while (statement.executeStep()) {
        Row row(statement);
        Tasting& tasting = tastings.emplace_back();
        row.into(tasting.id);
        row.into(tasting.bake);
        row.into(tasting.loaf);
        row.into(tasting.taster);
        row.into(tasting.date);
        row.into(tasting.since_oven);
        row.into(tasting.kept);
        row.into(tasting.scores.liking);
        row.into(tasting.scores.words);
        row.into(tasting.sitting);
        row.into(tasting.turn);
        row.into(tasting.code);
        tasting.scored = row.take<int>() != 0;
    }
    for (Tasting& tasting : tastings) {
        auto scores = prepared(store.db, "SELECT line, score FROM tasting_score WHERE tasting = ?",
                               tasting.id);
        while (scores.executeStep()) {
            Row row(scores);
            const auto line = row.take<std::string>();
            row.into(tasting.scores.lines[line]);
        }
    }
    return tastings;
}

Tasting tasting_of(const Store& store, TastingId id) {
    auto found = read_all(store, prepared(store.db, std::string(columns) + "WHERE id = ?", id));
    if (found.empty()) throw NotFound("there is no tasting " + std::to_string(id.value), {});
    return std::move(found.front());
}

}  // namespace

std::vector<Tasting> add_tastings(Store& store, const std::vector<NewTasting>& tastings) {
    std::vector<Tasting> added;
    for (const NewTasting& tasting : tastings) {
        check(tasting.scores);
        check_date(tasting.date, "the day of tasting");
        check_loaf(store, tasting.bake, tasting.loaf);
        const auto id = insert<TastingId>(
            store.db,
            "INSERT INTO tasting (uid, bake, loaf_number, taster, tasted_on, since_oven_h, kept, "
            "created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            store.new_uid(), tasting.bake, tasting.loaf,
            not_empty(tasting.taster, "the taster's name"), tasting.date, tasting.since_oven,
            tasting.kept, store.now());
        keep_scores(store, id, tasting.scores);
        added.push_back(tasting_of(store, id));
    }
    return added;
}

Sitting add_sitting(Store& store, const NewSitting& sitting) {
    check_date(sitting.date, "the day of tasting");
    const auto id = insert<SittingId>(
        store.db, "INSERT INTO sitting (uid, held_on, seed, created_at) VALUES (?, ?, ?, ?)",
        store.new_uid(), sitting.date, sitting.seed, store.now());
    for (const Serving& serving : sitting.servings) {
        check_loaf(store, serving.bake, serving.loaf);
        execute(store.db,
                "INSERT INTO tasting (uid, bake, loaf_number, taster, tasted_on, since_oven_h, "
                "kept, sitting, turn, code, created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                store.new_uid(), serving.bake, serving.loaf,
                not_empty(serving.taster, "the taster's name"), sitting.date, serving.since_oven,
                serving.kept, id, serving.turn, serving.code, store.now());
    }
    return sitting_of(store, id);
}

Tasting score_serving(Store& store, TastingId id, const TasteScores& scores) {
    check(scores);
    if (tasting_of(store, id).scored)
        throw Error("tasting " + std::to_string(id.value) + " has its scores already");
    keep_scores(store, id, scores);
    return tasting_of(store, id);
}

Sitting sitting_of(const Store& store, SittingId id) {
    auto statement = prepared(store.db, "SELECT held_on, seed FROM sitting WHERE id = ?", id);
    if (!statement.executeStep())
        throw NotFound("there is no sitting " + std::to_string(id.value), {});
    Row row(statement);
    Sitting sitting;
    sitting.id = id;
    row.into(sitting.date);
    row.into(sitting.seed);
    sitting.tastings = read_all(
        store,
        prepared(store.db, std::string(columns) + "WHERE sitting = ? ORDER BY taster, turn", id));
    return sitting;
}

std::vector<Tasting> all_tastings(const Store& store) {
    return read_all(store, prepared(store.db, std::string(columns) + "ORDER BY tasted_on, id"));
}

}  // namespace loafmark::journal
