#include "commands/left_out.h"

#include <algorithm>

#include "commands/text.h"

namespace loafmark::commands {

std::string left_out_text(const std::vector<journal::BakeEntry>& bakes,
                          const journal::Journal& journal,
                          const std::function<bool(const journal::BakeEntry&)>& matters) {
    const auto set_aside = std::ranges::count_if(bakes, [&](const journal::BakeEntry& bake) {
        return bake.bake.set_aside && matters(bake);
    });
    const auto dropped = journal.bin();
    const auto in_bin = std::ranges::count_if(dropped, [&](const journal::Dropped& one) {
        return one.table == "bake" && matters(journal.bake(journal::BakeId{one.number}));
    });
    if (set_aside + in_bin == 0) return "";
    std::string text = "left out: ";
    if (set_aside > 0) text += counted(set_aside, "bake", "bakes") + " set aside";
    if (set_aside > 0 && in_bin > 0) text += ", ";
    if (in_bin > 0)
        text += (set_aside > 0 ? std::to_string(in_bin) : counted(in_bin, "bake", "bakes")) +
                " in the bin";
    return text;
}

}  // namespace loafmark::commands
