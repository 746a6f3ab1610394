// The open journal: its database, its photos, and how work on them is wrapped.
#pragma once

#include <SQLiteCpp/Transaction.h>

#include "journal/changes.h"
#include "journal/database.h"
#include "journal/journal.h"
#include "journal/photo_store.h"
#include "journal/schema.h"
#include "journal/slices.h"
#include "journal/store.h"

namespace loafmark::journal {

// Makes the journal's folder where there is none.
inline void make_folders(const std::filesystem::path& folder) {
    std::error_code failure;
    if (std::filesystem::exists(folder, failure) && !std::filesystem::is_directory(folder, failure))
        throw Error(folder.string() + " is not a folder");
    std::filesystem::create_directories(folder, failure);
    if (failure) throw Error(folder.string() + " cannot be made: " + failure.message());
}

// Throws Error unless this program can work on a database of that version.
inline void check_known(const SQLite::Database& db, const std::filesystem::path& folder) {
    if (!is_journal(db))
        throw Error((folder / database_name).string() + " is not a journal of Loafmark");
    const int version = schema_version(db);
    if (version > current_schema_version())
        throw Error("the journal " + folder.string() +
                    " was written by a newer Loafmark (version " + std::to_string(version) +
                    " of its database; this one knows up to " +
                    std::to_string(current_schema_version()) + ")");
}

class Journal::Impl {
  public:
    enum class Access { read, write };

    Impl(std::filesystem::path folder, Environment environment, Access access)
        : folder_(std::move(folder)),
          environment_(std::move(environment)),
          access_(access),
          photos_(folder_),
          database_(in_words_of([&] { return open_database(); })),
          store_(database_, environment_) {
        in_words_of([&] {
            check_known(database_, folder_);
            if (access_ == Access::write) prepare_for_writing();
        });
    }

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
    [[nodiscard]] bool up_to_date() const {
        return schema_version(database_) == current_schema_version();
    }

    // What `work(store)` reads is the state of one moment.
    template <class Work>
    auto read(Work work) const {
        return in_words_of([&] {
            const SQLite::Transaction moment(database_);
            return work(store_);
        });
    }

    // What `work(store)` writes is done wholly or not at all.
    template <class Work>
    auto write(Work work) {
        return in_words_of([&] {
            refuse_if_reading();
            SQLite::Transaction transaction(database_, SQLite::TransactionBehavior::IMMEDIATE);
            Recording recording(database_);
            auto result = work(store_);
            recording.keep(store_);
            transaction.commit();
            return result;
        });
    }

    // The same for what cannot be taken back, or is itself a taking back.
    template <class Work>
    auto write_unrecorded(Work work) {
        return in_words_of([&] {
            refuse_if_reading();
            SQLite::Transaction transaction(database_, SQLite::TransactionBehavior::IMMEDIATE);
            auto result = work(store_);
            transaction.commit();
            return result;
        });
    }

    std::vector<SliceEntry> file_photo(const std::filesystem::path& photo,
                                       const std::vector<NewSlice>& slices) {
        return in_words_of([&] {
            refuse_if_reading();
            SQLite::Transaction transaction(database_, SQLite::TransactionBehavior::IMMEDIATE);
            // After the transaction, so that it is undone before the write lock goes.
            PhotoStore::Filing filing(photos_, photo, store_.new_uid(), filed_as());
            Recording recording(database_);
            const auto ids = add_slices(store_, filing.photo(), photo.filename().string(), slices);
            auto entries = slice_entries(store_, ids);
            recording.keep(store_);
            filing.about_to_commit();
            transaction.commit();
            filing.committed();
            return entries;
        });
    }

    [[nodiscard]] std::filesystem::path photo_file(const std::string& hash) const {
        const auto extension =
            read([&](const Store& store) { return photo_filed_as(store, hash); });
        std::filesystem::path file = photos_.file_of(hash, extension.value_or(""));
        if (!std::filesystem::exists(file))
            throw Error("the photo " + file.string() + " is no longer there");
        return file;
    }

    [[nodiscard]] const PhotoStore& photos() const { return photos_; }
    [[nodiscard]] SQLite::Database& database() const { return database_; }
    [[nodiscard]] Store& store() { return store_; }

    template <class Work>
    auto in_words_of(Work work) const -> decltype(work()) {
        try {
            return work();
        } catch (const SQLite::Exception& exception) {
            throw in_words(exception, folder_, environment_.wait_for_others);
        } catch (const std::filesystem::filesystem_error& failure) {
            throw Error("the journal " + folder_.string() + ": " + failure.what());
        }
    }

    PhotoStore::FiledAs filed_as() const {
        return [this](const std::string& hash) { return photo_filed_as(store_, hash); };
    }

    void refuse_if_reading() const {
        if (access_ == Access::read)
            throw Error("the journal " + folder_.string() + " is open for reading only");
    }

  private:
    SQLite::Database open_database() const {
        const std::filesystem::path file = folder_ / database_name;
        return access_ == Access::write ? open_to_write(file, environment_.wait_for_others)
                                        : open_to_read(file, environment_.wait_for_others);
    }

    void prepare_for_writing() {
        migrate(store_);
        if (!photos_.needs_sweep()) return;
        try {
            const SQLite::Transaction lock(database_, SQLite::TransactionBehavior::IMMEDIATE);
            photos_.sweep(filed_as());
        } catch (const SQLite::Exception&) {
            // Somebody is filing a photo for long; the leftovers can wait for the next opening.
        }
    }

    std::filesystem::path folder_;
    Environment environment_;
    Access access_;
    PhotoStore photos_;
    mutable SQLite::Database database_;  // a read, too, begins a transaction
    Store store_;
};

}  // namespace loafmark::journal
