// Merging journals is associative, whatever was entered in each; nothing is lost, and what is here
// already changes nothing.
#include <rapidcheck.h>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <random>
#include <set>
#include <sstream>

#include "catch.h"
#include "journal/journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

using Json = nlohmann::json;

// A journal in memory's file system, gone with this.
class Book {
  public:
    Book() {
        static int number = 0;
        folder_ = std::filesystem::temp_directory_path() /
                  ("loafmark-merge-" + std::to_string(::getpid()) + "-" + std::to_string(++number));
        Environment environment;
        environment.random_number = [engine =
                                         std::mt19937_64(static_cast<unsigned>(number))]() mutable {
            return engine();
        };
        journal_ = std::make_unique<Journal>(Journal::open(folder_, environment));
    }
    ~Book() {
        journal_.reset();
        std::filesystem::remove_all(folder_);
    }
    Book(const Book&) = delete;
    Book& operator=(const Book&) = delete;
    Journal* operator->() { return journal_.get(); }

    [[nodiscard]] std::string exported() const {
        std::ostringstream json;
        (void)journal_->export_to(json, std::nullopt);
        return json.str();
    }
    Merged take(const std::string& text) {
        return journal_->merge(text, "nowhere", {OnConflict::keep_mine, OnSameName::keep_apart});
    }

  private:
    std::filesystem::path folder_;
    std::unique_ptr<Journal> journal_;
};

std::string name_from(int number) {
    return std::string("Name ") + static_cast<char>('A' + number % 4);
}

void add_formula(Book& book, const std::string& name, double hydration) {
    const auto flours = book->flours();
    if (flours.empty()) return;
    const NewFormulaVersion version{{{IngredientKind::flour, flours[0].name, flours[0].id,
                                      Fraction(1), Fraction(0), Fraction(1), "dough"},
                                     {IngredientKind::water,
                                      "Water",
                                      {},
                                      Fraction(hydration),
                                      Fraction(1),
                                      Fraction(0),
                                      "dough"}},
                                    {}};
    for (const FormulaVersion& known : book->formulas())
        if (known.name == name) {
            (void)book->add_formula_version(known.formula, version);
            return;
        }
    (void)book->add_formula(name, version);
}

// One thing that a baker might do; nothing where it cannot be done.
void enter(Book& book, int what, int number) {
    const auto flours = book->flours();
    const auto bakes = book->find();
    const auto at = [&](const auto& list) {
        return list[static_cast<std::size_t>(number) % list.size()];
    };
    try {
        switch (what) {
            case 0: {
                NewFlour flour;
                flour.name = name_from(number);
                (void)book->add_flour(flour);
                break;
            }
            case 1: {
                FlourChange change;
                change.protein = Fraction(number / 1000.0);
                if (!flours.empty()) (void)book->change_flour(at(flours).id, change);
                break;
            }
            case 2: {
                FlourChange change;
                change.name = name_from(number / 4);
                if (!flours.empty()) (void)book->change_flour(at(flours).id, change);
                break;
            }
            case 3:
                add_formula(book, name_from(number), 0.5 + number / 1000.0);
                break;
            case 4: {
                if (book->formulas().empty()) break;
                NewBake bake;
                bake.date = {2026, 1 + number % 3, 1 + number % 28};
                bake.formula_version = at(book->formulas()).id;
                bake.dough_mass = Grams(500 + number);
                (void)book->add_bake(bake);
                break;
            }
            case 5:
                if (!bakes.empty())
                    (void)book->set_aside(at(bakes).bake.id, "reason " + std::to_string(number));
                break;
            case 6:
                if (!bakes.empty()) (void)book->drop(Droppable::bake, at(bakes).bake.id.value);
                break;
            case 7: {
                NewBag bag;
                bag.bought_mass = Grams(number);
                if (flours.empty()) break;
                bag.flour = at(flours).id;
                (void)book->add_bag(bag);
                break;
            }
            default: {
                KitchenChange change;
                change.tins = {{name_from(number), Millilitres(100.0 + number)}};
                (void)book->change_kitchen(change);
            }
        }
    } catch (const Error&) {
        // A name that is taken.
    }
}

void enter_some(Book& book) {
    const int entries = *rc::gen::inRange(0, 8);
    for (int i = 0; i < entries; ++i) {
        const int what = *rc::gen::inRange(0, 9);
        const int number = *rc::gen::inRange(0, 100);
        enter(book, what, number);
    }
}

// What a journal tells, whatever the numbers of its rows and of versions and loaves; kitchens of
// which nothing is known left out.
Json told(const std::string& exported) {
    Json all = Json::parse(exported);
    all.erase("exported_at");
    for (auto& [table, things] : all.items()) {
        if (!things.is_array()) continue;
        for (Json& thing : things)
            for (const char* const local : {"id", "version", "number", "created_at"})
                thing.erase(local);
        std::sort(things.begin(), things.end());
    }
    std::set<std::string> named;
    for (const char* const table : {"bake_day", "tin", "taster"})
        for (const Json& thing : all[table])
            named.insert(thing["kitchen"].get<std::string>());
    Json kitchens = Json::array();
    for (const Json& kitchen : all["kitchen"])
        if (named.contains(kitchen["uid"].get<std::string>())) kitchens.push_back(kitchen);
    all["kitchen"] = kitchens;
    return all;
}

std::string merged(const std::string& a, const std::string& b) {
    Book book;
    RC_ASSERT(book.take(a).done);
    RC_ASSERT(book.take(b).done);
    return book.exported();
}

std::set<std::string> uids_of(const std::string& exported) {
    std::set<std::string> uids;
    const Json all = told(exported);
    for (const auto& [table, things] : all.items())
        if (things.is_array() && table != "kitchen" && table != "tin")
            for (const Json& thing : things)
                uids.insert(thing.value("uid", ""));
    return uids;
}

}  // namespace

TEST_CASE("merging journals is associative, loses nothing, and twice is once") {
    CHECK(rc::check([] {
        Book start;
        enter_some(start);
        const std::string common = start.exported();
        std::vector<std::string> books;
        for (int i = 0; i < 3; ++i) {
            Book book;
            const bool shares_the_start = *rc::gen::arbitrary<bool>();
            if (shares_the_start) (void)book.take(common);
            enter_some(book);
            books.push_back(book.exported());
        }
        const std::string left = merged(merged(books[0], books[1]), books[2]);
        const std::string right = merged(books[0], merged(books[1], books[2]));
        RC_ASSERT(told(left) == told(right));

        const std::set<std::string> all = uids_of(left);
        for (const std::string& one : books)
            for (const std::string& uid : uids_of(one))
                RC_ASSERT(all.contains(uid));

        for (const std::string& one : books)
            RC_ASSERT(told(merged(left, one)) == told(left));
        RC_ASSERT(told(merged(left, left)) == told(left));
    }));
}
