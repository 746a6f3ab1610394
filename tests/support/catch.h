// The test framework, whichever of its two generations the system has: Debian 12 ships Catch2 2,
// Debian 13 Catch2 3. Tests include this header and nothing of Catch2 themselves.
#pragma once

#ifdef LOAFMARK_CATCH2_V2
#include <catch2/catch.hpp>
#else
#include <catch2/catch_all.hpp>
using Catch::Approx;
#endif
