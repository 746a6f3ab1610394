// The whole message with which a call was refused.
#pragma once

#include <string>

#include "analysis/error.h"
#include "codecs.h"

namespace loafmark::analysis {

// "<what> | <remedy>", or "accepted" when nothing was thrown.
template <class Call>
[[nodiscard]] std::string refusal_of(Call call) {
    try {
        (void)call();
    } catch (const Error& error) {
        return std::string(error.what()) + " | " + error.remedy();
    } catch (const DecodeFailure& failure) {
        return failure.what + " | " + failure.remedy;
    }
    return "accepted";
}

}  // namespace loafmark::analysis
