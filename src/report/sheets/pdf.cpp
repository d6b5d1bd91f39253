// SPDX-License-Identifier: Apache-2.0
// The sheets as PDF, through a browser that is installed.
#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <system_error>
#include <thread>
#include <vector>

#include "report/folder/os_file.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/report/sheets_pdf.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

constexpr auto kLongest = 120s;
constexpr std::array<std::string_view, 4> kBrowsers{"chromium", "chromium-browser", "google-chrome",
                                                    "google-chrome-stable"};

[[noreturn]] void fail(const fs::path& path, std::string_view what) {
  throw Error(Fault::output, fmt::format("{}: {}", path.string(), what));
}

/// A folder of its own for the browser's profile, gone at the end.
class Profile {
 public:
  Profile() : path_((fs::temp_directory_path() / "tidelot-browser-XXXXXX").string()) {
    if (::mkdtemp(path_.data()) == nullptr) {
      fail(path_, "cannot make a folder for the browser");
    }
  }
  ~Profile() { os::discard(path_); }
  Profile(const Profile&) = delete;
  Profile& operator=(const Profile&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

std::vector<std::string> words_for(const fs::path& browser, const Profile& profile,
                                   const fs::path& html, const fs::path& pdf) {
  std::vector<std::string> words{browser.string(),
                                 "--headless",
                                 "--disable-gpu",
                                 "--no-first-run",
                                 "--disable-background-networking",
                                 "--disable-component-update",
                                 "--disable-sync",
                                 "--host-resolver-rules=MAP * ~NOTFOUND",
                                 "--user-data-dir=" + profile.path(),
                                 "--no-pdf-header-footer",
                                 "--print-to-pdf-no-header",
                                 "--print-to-pdf=" + pdf.string()};
  if (::geteuid() == 0) {
    words.emplace_back("--no-sandbox");  // the browser does not start for root with it
  }
  words.push_back(file_url(html));
  return words;
}

/// Starts a program in a process group of its own, its words unheard.
pid_t start(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  arguments.reserve(words.size() + 1);
  for (const std::string& word : words) {
    arguments.push_back(const_cast<char*>(word.c_str()));
  }
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t files{};
  posix_spawnattr_t attributes{};
  posix_spawn_file_actions_init(&files);
  posix_spawnattr_init(&attributes);
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    posix_spawn_file_actions_addopen(&files, stream, "/dev/null", O_RDWR, 0);
  }
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);
  pid_t child = 0;
  const int error =
      ::posix_spawn(&child, words.front().c_str(), &files, &attributes, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&files);
  posix_spawnattr_destroy(&attributes);
  if (error != 0) {
    fail(words.front(), "cannot be started: " + std::generic_category().message(error));
  }
  return child;
}

/// Ends the child and what it started.
void end(pid_t child) {
  ::kill(-child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
}

/// Waits for the child; false when it took too long and was ended.
bool finished(pid_t child, int& status, const std::atomic<int>* stop) {
  const auto latest = std::chrono::steady_clock::now() + kLongest;
  while (::waitpid(child, &status, WNOHANG) == 0) {
    if (stop != nullptr && stop->load() != 0) {
      end(child);
      throw Interrupted(stop->load());
    }
    if (std::chrono::steady_clock::now() > latest) {
      end(child);
      return false;
    }
    std::this_thread::sleep_for(20ms);
  }
  return true;
}

bool is_pdf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::array<char, 5> head{};
  file.read(head.data(), head.size());
  return file && std::string_view(head.data(), head.size()) == "%PDF-";
}

void print(const fs::path& browser, const fs::path& html, const fs::path& pdf,
           const std::atomic<int>* stop) {
  const Profile profile;
  const std::vector<std::string> words = words_for(browser, profile, html, pdf);
  int status = 0;
  if (!finished(start(words), status, stop)) {
    fail(browser, "took more than two minutes to print the sheets; print sheets.html by hand");
  }
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    fail(browser, "failed to print the sheets; print sheets.html by hand");
  }
  if (!is_pdf(pdf)) {
    fail(pdf, "was not written by " + browser.string() +
                  "; look whether the folder can be written to, or print sheets.html by hand");
  }
}

}  // namespace

std::span<const std::string_view> sheet_browsers() { return kBrowsers; }

std::optional<fs::path> program_on_path(std::span<const std::string_view> names,
                                        std::string_view path) {
  for (const std::string_view name : names) {
    for (std::size_t from = 0; from <= path.size();) {
      const std::size_t to = std::min(path.find(':', from), path.size());
      const fs::path program = fs::path(path.substr(from, to - from)) / name;
      std::error_code error;
      if (program.is_absolute() && fs::is_regular_file(program, error) &&
          ::access(program.c_str(), X_OK) == 0) {
        return program;
      }
      from = to + 1;
    }
  }
  return std::nullopt;
}

std::string file_url(const fs::path& path) {
  std::string url = "file://";
  for (const char c : path.string()) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       std::string_view("/-_.~").find(c) != std::string_view::npos;
    url += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return url;
}

void check_sheets_folder(const fs::path& folder) {
  std::error_code error;
  const fs::file_status there = fs::status(folder, error);
  if (fs::exists(there) && !fs::is_directory(there)) {
    fail(folder, "is no folder; --sheets names a folder for the PDF");
  }
}

std::optional<fs::path> print_sheets_pdf(const fs::path& html, const fs::path& folder,
                                         const std::atomic<int>* stop) {
  const char* path = std::getenv("PATH");
  const auto browser = program_on_path(kBrowsers, path == nullptr ? "" : path);
  if (!browser) {
    return std::nullopt;
  }
  check_sheets_folder(folder);
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) {
    fail(folder, "cannot make the folder: " + error.message());
  }
  const fs::path made = fs::absolute(folder) / fmt::format("sheets-{}.part.pdf", ::getpid());
  try {
    print(*browser, fs::absolute(html), made, stop);
    os::sync(made);
    os::move(made, folder / "sheets.pdf");
    os::sync(folder);
  } catch (...) {
    os::discard(made);
    throw;
  }
  return folder / "sheets.pdf";
}

}  // namespace tidelot
