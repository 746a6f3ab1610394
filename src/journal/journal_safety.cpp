// What keeps a journal safe: the bin, taking back, export and merge, backup, checking.
#include <algorithm>

#include "journal/backup.h"
#include "journal/bakes.h"
#include "journal/bin.h"
#include "journal/checkup.h"
#include "journal/durable_files.h"
#include "journal/exchange.h"
#include "journal/journal_impl.h"
#include "journal/merge.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

bool is_whole(const std::filesystem::path& photo, const std::string& hash) {
    return std::filesystem::exists(photo) && sha256_of(photo) == hash;
}

// Copies each photo that the folder has not, named by its hash.
void export_photos(const Store& store, const PhotoStore& photos,
                   const std::filesystem::path& folder, ExportCounts& counts) {
    std::filesystem::create_directories(folder);
    auto rows = prepared(store.db, "SELECT hash, extension FROM photo ORDER BY hash");
    while (rows.executeStep()) {
        const std::string hash = rows.getColumn(0).getString();
        const std::string extension = rows.getColumn(1).getString();
        const auto from = photos.file_of(hash, extension);
        const auto to = folder / (hash + extension);
        if (!std::filesystem::exists(from)) {
            counts.missing_photos.push_back(hash + extension);
            continue;
        }
        if (!is_whole(to, hash)) {
            std::filesystem::remove(to);
            (void)copy_durably(from, to);
        }
        ++counts.photos;
    }
}

struct NamedPhoto {
    std::string hash;
    std::string extension;
};

// What the document names, checked, since it becomes the name of a file.
std::vector<NamedPhoto> photos_of(const std::vector<RecordsOfThing>& theirs) {
    std::vector<NamedPhoto> photos;
    for (const RecordsOfThing& things : theirs) {
        if (things.thing.table != "photo") continue;
        const std::size_t place = things.thing.place_of("extension");
        for (const Record& record : things.records) {
            const auto* const extension = std::get_if<std::string>(&record.values[place]);
            const bool good =
                record.uid.size() == 64 &&
                record.uid.find_first_not_of("0123456789abcdef") == std::string::npos &&
                extension &&
                extension->find_first_not_of(".0123456789abcdefghijklmnopqrstuvwxyz") ==
                    std::string::npos;
            if (!good) throw Error("the photo '" + record.uid + "' is named by no hash");
            photos.push_back({record.uid, *extension});
        }
    }
    return photos;
}

// Photos on their way in with what is merged.
class Filings {
  public:
    Filings(const PhotoStore& store, const Store& rows, const PhotoStore::FiledAs& filed_as)
        : store_(store), rows_(rows), filed_as_(filed_as) {}

    void bring(const std::vector<NamedPhoto>& photos, const std::filesystem::path& folder,
               Merged& merged) {
        for (const NamedPhoto& photo : photos) {
            const std::string extension = filed_as_(photo.hash).value_or(photo.extension);
            if (std::filesystem::exists(store_.file_of(photo.hash, extension))) continue;
            const auto file = folder / (photo.hash + photo.extension);
            if (!std::filesystem::exists(file)) {
                merged.missing_photos.push_back(file.filename().string());
                continue;
            }
            filings_.push_back(
                std::make_unique<PhotoStore::Filing>(store_, file, rows_.new_uid(), filed_as_));
            if (filings_.back()->photo().hash != photo.hash)
                throw Error("the photo " + file.string() + " is not what its name says");
            ++merged.photos;
        }
    }
    void about_to_commit() {
        for (const auto& filing : filings_)
            filing->about_to_commit();
    }
    void committed() {
        for (const auto& filing : filings_)
            filing->committed();
    }

  private:
    const PhotoStore& store_;
    const Store& rows_;
    const PhotoStore::FiledAs& filed_as_;
    std::vector<std::unique_ptr<PhotoStore::Filing>> filings_;
};

void refuse_if_unsound(const Store& store, const std::vector<std::string>& before) {
    for (const std::string& one : unsound_things(store))
        if (std::ranges::find(before, one) == before.end()) throw Error(one);
}

}  // namespace

Dropped Journal::drop(Droppable kind, std::int64_t number) {
    return impl_->write([&](Store& store) { return journal::drop(store, kind, number); });
}
Dropped Journal::take_out(Droppable kind, std::int64_t number) {
    return impl_->write([&](Store& store) { return journal::take_out(store, kind, number); });
}
std::vector<Dropped> Journal::bin() const {
    return impl_->read(journal::bin);
}
Emptied Journal::empty_bin() {
    const EmptiedRows emptied = impl_->write_unrecorded(journal::empty_bin);
    // Files after their rows: a kill between leaves files without rows, which harm nobody.
    for (const StoredPhotoName& photo : emptied.photos) {
        std::error_code ignored;
        std::filesystem::remove(impl_->photos().file_of(photo.hash, photo.extension), ignored);
    }
    return {emptied.gone, emptied.kept};
}
BakeEntry Journal::set_aside(BakeId id, const std::optional<std::string>& reason) {
    return impl_->write([&](Store& store) {
        journal::set_aside(store, id, reason);
        return bake_entry(store, id);
    });
}

std::vector<Change> Journal::changes() const {
    return impl_->read(journal::changes);
}
Change Journal::undo() {
    return impl_->write_unrecorded(journal::undo);
}
Change Journal::redo() {
    return impl_->write_unrecorded(journal::redo);
}

ExportCounts Journal::export_to(std::ostream& json,
                                const std::optional<std::filesystem::path>& photos) const {
    return impl_->read([&](const Store& store) {
        ExportCounts counts;
        counts.things = write_document(store, json);
        if (photos) export_photos(store, impl_->photos(), *photos, counts);
        return counts;
    });
}

Merged Journal::merge(std::string_view text, const std::filesystem::path& photos,
                      const MergeChoices& choices) {
    return impl_->in_words_of([&] {
        impl_->refuse_if_reading();
        SQLite::Database& db = impl_->database();
        auto theirs = read_document(things_of(db), text);
        const auto filed_as = impl_->filed_as();
        SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
        // After the transaction, so that it is undone before the write lock goes.
        Filings filings(impl_->photos(), impl_->store(), filed_as);
        Merged of_photos;
        filings.bring(photos_of(theirs), photos, of_photos);
        Recording recording(db);
        const auto unsound = unsound_things(impl_->store());
        Merged merged = merge_records(impl_->store(), std::move(theirs), choices);
        if (!merged.done) return merged;
        refuse_if_unsound(impl_->store(), unsound);
        recording.keep(impl_->store());
        filings.about_to_commit();
        transaction.commit();
        filings.committed();
        merged.photos = of_photos.photos;
        merged.missing_photos = of_photos.missing_photos;
        return merged;
    });
}

BackupCounts Journal::back_up(const std::filesystem::path& file) const {
    return impl_->in_words_of(
        [&] { return journal::back_up(impl_->database(), impl_->photos(), file); });
}

std::vector<Finding> Journal::check() const {
    return impl_->read([&](const Store&) {
        return look_through(impl_->store(), impl_->photos(), impl_->folder(), false);
    });
}
std::vector<Finding> Journal::mend() {
    return impl_->write_unrecorded(
        [&](Store& store) { return look_through(store, impl_->photos(), impl_->folder(), true); });
}

}  // namespace loafmark::journal
