#include "built_in_models.h"

// The model files' bytes, put among the constants by the assembler.
#define LOAFMARK_BUILT_IN(symbol, file) \
    asm(".section .rodata\n"            \
        ".balign 16\n"                  \
        ".global " #symbol              \
        "\n"                            \
        ".hidden " #symbol "\n" #symbol \
        ":\n"                           \
        ".incbin \"" file               \
        "\"\n"                          \
        ".global " #symbol              \
        "_end\n"                        \
        ".hidden " #symbol "_end\n" #symbol "_end:\n.byte 0\n.previous\n")

LOAFMARK_BUILT_IN(loafmark_crumb_cells, LOAFMARK_CELL_MODEL);
LOAFMARK_BUILT_IN(loafmark_slice_faces, LOAFMARK_FACE_MODEL);

extern "C" {
extern const char loafmark_crumb_cells[];
extern const char loafmark_crumb_cells_end[];
extern const char loafmark_slice_faces[];
extern const char loafmark_slice_faces_end[];
}

namespace loafmark::analysis {

cv::dnn::Net network_of(BuiltInModel model) {
    const bool cells = model == BuiltInModel::crumb_cells;
    const char* from = cells ? loafmark_crumb_cells : loafmark_slice_faces;
    const char* to = cells ? loafmark_crumb_cells_end : loafmark_slice_faces_end;
    cv::dnn::Net net = cv::dnn::readNetFromONNX(from, static_cast<std::size_t>(to - from));
    net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    net.setPreferableTarget(cv::dnn::DNN_TARGET_CPU);
    return net;
}

std::string name_of(BuiltInModel model) {
    return model == BuiltInModel::crumb_cells ? "crumb-cells " LOAFMARK_CELL_MODEL_HASH
                                              : "slice-faces " LOAFMARK_FACE_MODEL_HASH;
}

}  // namespace loafmark::analysis
