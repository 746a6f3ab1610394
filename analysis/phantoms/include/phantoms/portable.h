// Marks the functions of the rendering core, which work on plain structs and flat arrays only, so
// that a compiler for graphics cards can take the very same source.
#pragma once

#ifdef __CUDACC__
#define LOAFMARK_DEVICE __host__ __device__
#else
#define LOAFMARK_DEVICE
#endif
