#include "journal/photo_store.h"

#include <algorithm>
#include <vector>

#include "arithmetic/numbers.h"
#include "journal/durable_files.h"

namespace loafmark::journal {
namespace {

constexpr std::string_view note_ending = ".filing";

// ".jpg" of "IMG_1.JPG"; nothing that a file name of ours should not hold.
std::string tidy_extension(const std::filesystem::path& photo) {
    const std::string extension = ascii_lower(photo.extension().string());
    const auto plain = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
    const bool good = extension.size() > 1 && extension.size() <= 9 &&
                      std::all_of(extension.begin() + 1, extension.end(), plain);
    return good ? extension : "";
}

void remove_quietly(const std::filesystem::path& file) {
    std::error_code ignored;
    if (!file.empty()) std::filesystem::remove(file, ignored);
}

}  // namespace

PhotoStore::PhotoStore(std::filesystem::path journal_folder)
    : photos_(journal_folder / "photos"), incoming_(journal_folder / "incoming") {}

std::filesystem::path PhotoStore::file_of(const std::string& hash,
                                          const std::string& extension) const {
    return photos_ / hash.substr(0, 2) / (hash + extension);
}

bool PhotoStore::needs_sweep() const {
    std::error_code absent;
    const std::filesystem::directory_iterator first(incoming_, absent);
    return !absent && first != std::filesystem::directory_iterator();
}

void PhotoStore::sweep(const FiledAs& filed_as) const {
    std::vector<std::filesystem::path> leftovers;
    for (const auto& entry : std::filesystem::directory_iterator(incoming_))
        leftovers.push_back(entry.path());
    for (const std::filesystem::path& leftover : leftovers) {
        const std::string name = leftover.filename().string();
        if (name.ends_with(note_ending)) {
            const std::filesystem::path photo = leftover.stem();
            const std::string hash = photo.stem().string();
            if (!filed_as(hash)) remove_quietly(file_of(hash, photo.extension().string()));
        }
        remove_quietly(leftover);
    }
}

PhotoStore::Filing::Filing(const PhotoStore& store, const std::filesystem::path& photo,
                           const std::string& name, const FiledAs& filed_as) {
    std::filesystem::create_directories(store.incoming_);
    const std::filesystem::path staged = store.incoming_ / (name + ".part");
    const CopiedFile copied = copy_durably(photo, staged);
    photo_ = {copied.hash, tidy_extension(photo), copied.size_bytes};
    try {
        put_in_place(store, staged, filed_as);
    } catch (...) {
        remove_quietly(staged);
        remove_quietly(placed_);
        remove_quietly(note_);
        throw;
    }
}

void PhotoStore::Filing::put_in_place(const PhotoStore& store, const std::filesystem::path& staged,
                                      const FiledAs& filed_as) {
    const auto extension = filed_as(photo_.hash);
    if (extension) photo_.extension = *extension;
    const std::filesystem::path place = store.file_of(photo_.hash, photo_.extension);
    std::error_code absent;
    if (std::filesystem::file_size(place, absent) == photo_.size_bytes && !absent)
        return remove_quietly(staged);
    // A filed photo whose file was lost comes back for good; only a new one can be taken back.
    if (extension) return move_durably(staged, place);
    note_ = store.incoming_ / (place.filename().string() + std::string(note_ending));
    write_note(note_);
    placed_ = place;
    move_durably(staged, place);
}

PhotoStore::Filing::~Filing() {
    if (!taken_back_) return;
    remove_quietly(placed_);
    remove_quietly(note_);
}

void PhotoStore::Filing::committed() {
    remove_quietly(note_);
}

}  // namespace loafmark::journal
