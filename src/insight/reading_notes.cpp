#include "insight/reading_notes.h"

#include "insight/bake_values.h"

namespace loafmark::insight {

void ReadingNotes::add(const journal::BakeEntry& bake) {
    for (const journal::LoafEntry& loaf : bake.loaves)
        for (const journal::SliceEntry& slice : loaf.slices) {
            if (!slice.reading) continue;
            if (is_poor(*slice.reading)) ++poor_;
            ++(slice.reading->scale_source == "none" ? without_scale_ : with_scale_);
            add_version(slice.reading->analysis_version);
        }
}

void ReadingNotes::add_version(const std::string& version) {
    if (!versions_.contains(version)) versions_.insert(version);
}

std::vector<std::string> ReadingNotes::of_versions() const {
    if (versions_.size() < 2) return {};
    return {"read by different versions of the analysis (" +
            joined({versions_.begin(), versions_.end()}) +
            "): loafmark slice remeasure brings them to one"};
}

std::vector<std::string> ReadingNotes::all() const {
    std::vector<std::string> notes = of_versions();
    if (poor_ > 0)
        notes.push_back(std::to_string(poor_) + (poor_ == 1 ? " reading is" : " readings are") +
                        " poor (not sharp, burnt out, too dark, or the target at odds with itself) "
                        "and left out");
    if (without_scale_ > 0 && with_scale_ > 0)
        notes.push_back(std::to_string(without_scale_) +
                        (without_scale_ == 1 ? " slice has" : " slices have") +
                        " no scale and no say in millimetres");
    return notes;
}

std::string joined(const std::vector<std::string>& parts) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i)
        text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return text;
}

}  // namespace loafmark::insight
