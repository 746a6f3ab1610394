// The photo files of a journal: DIR/photos/<first two digits>/<hash><extension>, each told by the
// SHA-256 of its content, and DIR/incoming, where a photo lies until it is filed.
//
// A filing that is broken off (a crash, a power cut) leaves nothing half-done: the file is copied
// under incoming/ and flushed; a note, incoming/<hash><extension>.filing, says which file is about
// to appear under photos/; the file is moved there; the rows are committed; the note goes. sweep()
// reads the notes and removes what no row names. Files without a note are never removed, so that a
// lost or older database never costs a photo.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

namespace loafmark::journal {

struct StoredPhoto {
    std::string hash;       // SHA-256, lower-case hexadecimal
    std::string extension;  // ".jpg", lower case; empty: none
    std::uintmax_t size_bytes = 0;
};

class PhotoStore {
  public:
    // The extension in the database's row of the photo with this hash; nothing where no row names
    // it.
    using FiledAs = std::function<std::optional<std::string>(const std::string& hash)>;

    explicit PhotoStore(std::filesystem::path journal_folder);

    // Where that photo lies, whether or not it does.
    [[nodiscard]] std::filesystem::path file_of(const std::string& hash,
                                                const std::string& extension) const;

    // Clears away what broken-off filings left. Call it under the database's write lock, so that no
    // other program is filing. Cheap when there is nothing to do.
    [[nodiscard]] bool needs_sweep() const;
    void sweep(const FiledAs& filed_as) const;

    // One photo on its way into the store, under the database's write lock from the constructor to
    // committed(). Destroyed before about_to_commit(), it takes back what it put there.
    class Filing {
      public:
        // Copies the photo and puts it in its place. `name` is free to use under incoming/. Throws
        // Error when the photo cannot be read or the journal's folder not be written.
        Filing(const PhotoStore& store, const std::filesystem::path& photo, const std::string& name,
               const FiledAs& filed_as);
        ~Filing();
        Filing(const Filing&) = delete;
        Filing& operator=(const Filing&) = delete;

        [[nodiscard]] const StoredPhoto& photo() const { return photo_; }
        // From here on only sweep() takes the file back: whether the rows stand is for it to see.
        void about_to_commit() { taken_back_ = false; }
        // Removes the note.
        void committed();

      private:
        void put_in_place(const PhotoStore& store, const std::filesystem::path& staged,
                          const FiledAs& filed_as);

        StoredPhoto photo_;
        std::filesystem::path note_;    // empty: the file was there before
        std::filesystem::path placed_;  // as above
        bool taken_back_ = true;
    };

  private:
    std::filesystem::path photos_;
    std::filesystem::path incoming_;
};

}  // namespace loafmark::journal
