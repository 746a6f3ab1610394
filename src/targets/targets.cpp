#include "targets/targets.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <memory>
#include <stdexcept>

#include "targets/draw_target.h"

namespace loafmark::targets {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

constexpr double points_per_mm = 72 / 25.4;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void refuse_failure(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the target could not be drawn: ") +
                                 cairo_status_to_string(status));
}

// Draws the page, with `units_per_mm` of the surface's own units to the millimetre, and finishes
// it.
void draw_page(const Surface& surface, double units_per_mm, TargetKind kind, FieldStyle style) {
    const Context context(cairo_create(surface.get()), cairo_destroy);
    cairo_scale(context.get(), units_per_mm, units_per_mm);
    draw_target(context.get(), kind, style);
    cairo_show_page(context.get());
    refuse_failure(cairo_status(context.get()));
    cairo_surface_finish(surface.get());
    refuse_failure(cairo_surface_status(surface.get()));
}

}  // namespace

std::string target_pdf(TargetKind kind, FieldStyle style) {
    std::string bytes;
    const Page page = page_of(kind);
    const Surface surface(
        cairo_pdf_surface_create_for_stream(append, &bytes, page.width_mm * points_per_mm,
                                            page.height_mm * points_per_mm),
        cairo_surface_destroy);
    // The oldest that cairo writes: printers read PDF too.
    cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_4);
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, "loafmark target");
    // An empty date: the clock must not make two prints of one target differ.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
    draw_page(surface, points_per_mm, kind, style);
    return bytes;
}

std::string target_svg(TargetKind kind, FieldStyle style) {
    std::string text;
    const Page page = page_of(kind);
    const Surface surface(
        cairo_svg_surface_create_for_stream(append, &text, page.width_mm, page.height_mm),
        cairo_surface_destroy);
    cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_MM);
    draw_page(surface, 1, kind, style);
    return text;
}

}  // namespace loafmark::targets
