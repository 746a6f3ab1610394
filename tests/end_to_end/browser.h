// A browser without a window, driven through the DevTools protocol over two pipes: nothing but the
// browser itself is needed.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

namespace loafmark::end_to_end {

struct Clip {
    double x = 0, y = 0, width = 0, height = 0;  // of the page, in CSS pixels
};

class Browser {
  public:
    // Chromium or Chrome on the PATH.
    [[nodiscard]] static std::optional<std::filesystem::path> program();

    // Throws std::runtime_error where it does not start; every call does where it hangs or ends.
    explicit Browser(const std::filesystem::path& program);
    ~Browser();
    Browser(const Browser&) = delete;
    Browser& operator=(const Browser&) = delete;

    // Of the window, in CSS pixels; `dark` is what the page is told that its reader likes.
    void set_window(int width, int height, bool dark = false);
    // Returns when all is loaded.
    void open(const std::string& url);
    // What the expression gives, by value.
    [[nodiscard]] nlohmann::json evaluate(const std::string& expression);
    // Scrolls the first element that the selector finds into view and clicks its middle.
    void click(const std::string& selector);
    [[nodiscard]] std::vector<std::uint8_t> jpeg(const Clip& clip, double scale, int quality);
    // A PDF of the whole page on paper of that size, in inches.
    [[nodiscard]] std::vector<std::uint8_t> pdf(double width, double height);

    // What the console was told as an error, and what went wrong in the page.
    [[nodiscard]] const std::vector<std::string>& complaints() const { return complaints_; }
    // Addresses that were asked for, those within the page itself ("data:") left out.
    [[nodiscard]] const std::vector<std::string>& requests() const { return requests_; }

  private:
    nlohmann::json call(const std::string& method,
                        nlohmann::json parameters = nlohmann::json::object());
    nlohmann::json next_message();
    void note(const nlohmann::json& event);

    std::filesystem::path profile_;
    ::pid_t child_ = -1;
    int to_child_ = -1;
    int from_child_ = -1;
    std::string buffer_;
    int last_id_ = 0;
    std::string session_;
    bool loaded_ = false;
    std::vector<std::string> complaints_;
    std::vector<std::string> requests_;
};

}  // namespace loafmark::end_to_end
