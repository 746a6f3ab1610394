#include "commands/remedies.h"

namespace loafmark::commands {

std::string_view remedy_for(WarningCode code) {
    switch (code) {
        case WarningCode::no_target:
            return "lay the slice on a printed mat or put the strip beside it (loafmark target "
                   "--paper a4 -o mat.pdf), or give one ruled length with --loaf-width 118mm";
        case WarningCode::known_length_only:
            return "a photo on the mat, or with the strip beside the slice, narrows the intervals "
                   "(loafmark target --paper a4 -o mat.pdf)";
        case WarningCode::target_partly_hidden:
            return "take the photo again with every marker in the frame and nothing lying on them";
        case WarningCode::target_conflict:
            return "lay the target flat, show only one, print it at 100 % and give what its 100 mm "
                   "line measures with --print-check 98.7mm";
        case WarningCode::thickness_assumed:
            return "measure the slice's thickness with a ruler and give it with --thickness 15mm";
        case WarningCode::focal_length_assumed:
            return "use the photo as the camera wrote it: messengers and editors remove the lens "
                   "data";
        case WarningCode::cut_by_frame:
            return "take the photo again with the whole slice in the frame";
        case WarningCode::base_in_doubt:
            return "say where the base is: --base bottom where it lies along the photo's lower "
                   "edge, else --base X1,Y1,X2,Y2 in photo pixels";
        case WarningCode::several_slices:
            return "photograph one slice at a time, or name the bake of each in slice add with "
                   "--slices BAKE,BAKE";
        case WarningCode::assumed_width:
            return "give the photo a scale: a printed mat or strip, or --loaf-width 118mm";
        case WarningCode::low_resolution:
            return "go nearer, so that the slice fills most of the frame";
        case WarningCode::no_cells:
            return "light the slice from one side and keep it in focus; if the crumb really is "
                   "that close, there is nothing to do";
        case WarningCode::print_not_checked:
            return "rule the 100 mm line of the printed target once and have it kept: loafmark "
                   "target --paper a4 --print-check 98.7mm (or --paper letter, --paper strip); "
                   "measure "
                   "takes --print-check too";
        case WarningCode::target_mirrored:
            return "use the rear camera, or turn off the setting that mirrors photos, and show the "
                   "target's printed side";
        case WarningCode::target_small:
            return "go nearer, so that the target fills most of the frame";
        case WarningCode::tilted:
            return "hold the phone square above the slice: its back level with the table";
        case WarningCode::glare:
            return "turn the lamp or the mat until nothing shines back, print on matt paper, and "
                   "use no flash";
        case WarningCode::uneven_light:
            return "photograph by a window out of the sun or under two lamps, without the shadow "
                   "of hand or phone";
        case WarningCode::blurred:
            return "tap on the crumb to focus, wipe the lens, and lean the phone on something that "
                   "stands still";
        case WarningCode::overexposed:
            return "tap on the brightest crumb before the photo, or set the exposure lower";
        case WarningCode::underexposed:
            return "add light, or set the exposure higher; no flash";
        case WarningCode::cut_warm:
            return "next time let the loaf cool fully before it is cut: two hours for a small "
                   "wheat loaf, four for a large one, a day for rye";
        case WarningCode::not_yet:
            return "nothing to do: this version does not measure it yet";
    }
    return "";
}

}  // namespace loafmark::commands
