#include "browser.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <sstream>
#include <stdexcept>

namespace loafmark::end_to_end {
namespace {

using nlohmann::json;

// By which a busy machine's browser has answered.
constexpr int patience_ms = 60'000;

// Everything that a browser does by itself is switched off.
constexpr std::array arguments{"--headless=new",
                               "--remote-debugging-pipe",
                               "--no-sandbox",  // the superuser of a container has none
                               "--disable-gpu",
                               "--disable-background-networking",
                               "--disable-component-update",
                               "--disable-sync",
                               "--disable-extensions",
                               "--disable-dev-shm-usage",
                               "--no-first-run",
                               "--no-default-browser-check",
                               "--hide-scrollbars",
                               "about:blank"};

std::vector<std::uint8_t> from_base64(const std::string& text) {
    constexpr std::string_view alphabet =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::vector<std::uint8_t> bytes;
    std::uint32_t bits = 0;
    int held = 0;
    for (const char c : text) {
        const std::size_t digit = alphabet.find(c);
        if (digit == std::string_view::npos) break;
        bits = bits << 6 | static_cast<std::uint32_t>(digit);
        held += 6;
        if (held < 8) continue;
        held -= 8;
        bytes.push_back(static_cast<std::uint8_t>(bits >> held));
    }
    return bytes;
}

}  // namespace

std::optional<std::filesystem::path> Browser::program() {
    const char* path = ::getenv("PATH");
    std::istringstream folders(path ? path : "/usr/bin:/bin");
    for (std::string folder; std::getline(folders, folder, ':');)
        for (const char* name : {"chromium", "chromium-browser", "google-chrome"}) {
            const std::filesystem::path file = std::filesystem::path(folder) / name;
            if (::access(file.c_str(), X_OK) == 0) return file;
        }
    return std::nullopt;
}

Browser::Browser(const std::filesystem::path& program) {
    std::string name =
        (std::filesystem::temp_directory_path() / "loafmark-browser-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    profile_ = name;
    std::array<int, 2> there{};
    std::array<int, 2> back{};
    if (::pipe2(there.data(), O_CLOEXEC) != 0 || ::pipe2(back.data(), O_CLOEXEC) != 0)
        throw std::runtime_error("no pipe");
    std::vector<std::string> words{program.string(), "--user-data-dir=" + profile_.string()};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    for (std::string& word : words)
        argv.push_back(word.data());
    argv.push_back(nullptr);
    child_ = ::fork();
    if (child_ < 0) throw std::runtime_error("cannot fork");
    if (child_ == 0) {
        ::setpgid(0, 0);
        // The browser reads at 3 and writes at 4; both are moved out of each other's way first.
        const int in = ::fcntl(there[0], F_DUPFD_CLOEXEC, 10);
        const int out = ::fcntl(back[1], F_DUPFD_CLOEXEC, 10);
        ::dup2(in, 3);
        ::dup2(out, 4);
        const int silence = ::open("/dev/null", O_WRONLY);
        ::dup2(silence, STDOUT_FILENO);
        ::dup2(silence, STDERR_FILENO);
        ::execv(program.c_str(), argv.data());
        ::_exit(127);
    }
    ::close(there[0]);
    ::close(back[1]);
    to_child_ = there[1];
    from_child_ = back[0];
    const json target = call("Target.createTarget", {{"url", "about:blank"}});
    session_ =
        call("Target.attachToTarget", {{"targetId", target.at("targetId")}, {"flatten", true}})
            .at("sessionId");
    for (const char* domain : {"Page", "Runtime", "Log", "Network"})
        call(std::string(domain) + ".enable");
}

Browser::~Browser() {
    ::close(to_child_);
    ::close(from_child_);
    if (child_ > 0) {
        ::kill(-child_, SIGKILL);
        ::waitpid(child_, nullptr, 0);
    }
    std::error_code ignored;
    std::filesystem::remove_all(profile_, ignored);
}

json Browser::next_message() {
    for (;;) {
        const std::size_t end = buffer_.find('\0');
        if (end != std::string::npos) {
            json message = json::parse(buffer_.substr(0, end));
            buffer_.erase(0, end + 1);
            return message;
        }
        ::pollfd waiting{from_child_, POLLIN, 0};
        if (::poll(&waiting, 1, patience_ms) <= 0)
            throw std::runtime_error("the browser does not answer");
        std::array<char, 65536> piece{};
        const ::ssize_t got = ::read(from_child_, piece.data(), piece.size());
        if (got <= 0) throw std::runtime_error("the browser has ended");
        buffer_.append(piece.data(), static_cast<std::size_t>(got));
    }
}

void Browser::note(const json& event) {
    const std::string method = event.value("method", "");
    const json& parameters = event.contains("params") ? event["params"] : json::object();
    if (method == "Page.loadEventFired") loaded_ = true;
    if (method == "Runtime.exceptionThrown") complaints_.push_back(parameters.dump());
    if (method == "Runtime.consoleAPICalled" && parameters.value("type", "") == "error")
        complaints_.push_back(parameters.dump());
    if (method == "Log.entryAdded" && parameters["entry"].value("level", "") != "info")
        complaints_.push_back(parameters["entry"].value("text", ""));
    if (method == "Network.requestWillBeSent") {
        const std::string url = parameters["request"].value("url", "");
        if (!url.starts_with("data:")) requests_.push_back(url);
    }
}

json Browser::call(const std::string& method, json parameters) {
    json message{{"id", ++last_id_}, {"method", method}, {"params", std::move(parameters)}};
    if (!session_.empty()) message["sessionId"] = session_;
    const std::string text = message.dump();
    // With the NUL that ends it.
    for (std::size_t sent = 0; sent < text.size() + 1;) {
        const ::ssize_t n = ::write(to_child_, text.c_str() + sent, text.size() + 1 - sent);
        if (n <= 0) throw std::runtime_error("the browser does not listen");
        sent += static_cast<std::size_t>(n);
    }
    for (;;) {
        const json answer = next_message();
        if (answer.value("id", 0) != last_id_) {
            note(answer);
            continue;
        }
        if (answer.contains("error"))
            throw std::runtime_error(method + ": " + answer["error"].dump());
        return answer.value("result", json::object());
    }
}

void Browser::set_window(int width, int height, bool dark) {
    call("Emulation.setDeviceMetricsOverride",
         {{"width", width}, {"height", height}, {"deviceScaleFactor", 1}, {"mobile", width < 600}});
    call("Emulation.setEmulatedMedia",
         {{"features",
           json::array({{{"name", "prefers-color-scheme"}, {"value", dark ? "dark" : "light"}}})}});
}

void Browser::open(const std::string& url) {
    loaded_ = false;
    const json answer = call("Page.navigate", {{"url", url}});
    if (answer.contains("errorText"))
        throw std::runtime_error(url + ": " + answer["errorText"].get<std::string>());
    while (!loaded_)
        note(next_message());
}

json Browser::evaluate(const std::string& expression) {
    const json answer =
        call("Runtime.evaluate", {{"expression", expression}, {"returnByValue", true}});
    if (answer.contains("exceptionDetails"))
        throw std::runtime_error(expression + ": " + answer["exceptionDetails"].dump());
    return answer.at("result").value("value", json());
}

void Browser::click(const std::string& selector) {
    const json middle =
        evaluate("(() => { const e = document.querySelector(" + json(selector).dump() +
                 "); if (!e) return null; e.scrollIntoView({block: 'center'});"
                 "const b = e.getBoundingClientRect();"
                 "return [b.x + b.width / 2, b.y + b.height / 2]; })()");
    if (middle.is_null()) throw std::runtime_error("nothing on the page fits " + selector);
    for (const char* type : {"mousePressed", "mouseReleased"})
        call("Input.dispatchMouseEvent", {{"type", type},
                                          {"x", middle[0]},
                                          {"y", middle[1]},
                                          {"button", "left"},
                                          {"clickCount", 1}});
}

std::vector<std::uint8_t> Browser::jpeg(const Clip& clip, double scale, int quality) {
    const json answer = call("Page.captureScreenshot", {{"format", "jpeg"},
                                                        {"quality", quality},
                                                        {"captureBeyondViewport", true},
                                                        {"clip",
                                                         {{"x", clip.x},
                                                          {"y", clip.y},
                                                          {"width", clip.width},
                                                          {"height", clip.height},
                                                          {"scale", scale}}}});
    return from_base64(answer.at("data"));
}

std::vector<std::uint8_t> Browser::pdf(double width, double height) {
    const json answer =
        call("Page.printToPDF",
             {{"paperWidth", width}, {"paperHeight", height}, {"preferCSSPageSize", false}});
    return from_base64(answer.at("data"));
}

}  // namespace loafmark::end_to_end
