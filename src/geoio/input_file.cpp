// SPDX-License-Identifier: Apache-2.0
#include "input_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "gdal_support.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/file_place.hpp"

namespace tidelot::geoio {
namespace {

namespace fs = std::filesystem;

/// "https://...", "NETCDF:...", "/vsicurl/...": GDAL would follow them away from this machine's
/// disk.
bool leads_elsewhere(std::string_view written) {
  if (written.starts_with("/vsi") || written.starts_with("\\\\") ||
      written.find("://") != std::string_view::npos) {
    return true;
  }
  const auto colon = written.find(':');
  const auto prefix = written.substr(0, colon);
  return colon != std::string_view::npos && colon >= 2 &&
         std::all_of(prefix.begin(), prefix.end(), [](char c) {
           return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
         });
}

/// What stands at the path is named for people.
std::string_view kind(fs::file_type type) {
  switch (type) {
    case fs::file_type::directory:
      return "a folder";
    case fs::file_type::fifo:
      return "a pipe";
    case fs::file_type::socket:
      return "a socket";
    case fs::file_type::character:
    case fs::file_type::block:
      return "a device";
    default:
      return "not a file";
  }
}

bool can_hang(fs::file_type type) {
  return type == fs::file_type::fifo || type == fs::file_type::socket ||
         type == fs::file_type::character || type == fs::file_type::block;
}

/// A link beside or in what is opened is opened with it.
void refuse_leaving(const InputFile& input, const fs::directory_entry& entry) {
  std::error_code unseen;
  const std::string fault =
      entry.is_symlink(unseen) ? link_fault(input.file, entry.path()) : std::string();
  if (!fault.empty()) {
    throw input.error(foreign_text(entry.path().filename().string()) + " beside it: " + fault);
  }
}

/// GDAL opens the files of the same stem beside a file (.dbf, .msk, -journal and the like) whatever
/// they are, and waits for ever on a pipe.
void refuse_bad_neighbours(const InputFile& input) {
  const fs::path path(input.path);
  const std::string stem = path.stem().string();
  std::error_code code;
  for (fs::directory_iterator next(path.parent_path(), code), end; !code && next != end;
       next.increment(code)) {
    std::error_code ignored;
    const std::string beside = next->path().filename().string();
    if (beside.starts_with(stem) && can_hang(next->status(ignored).type())) {
      throw input.error(fmt::format("{} beside it is {}; move it away", foreign_text(beside),
                                    kind(next->status(ignored).type())));
    }
    if (beside.starts_with(stem + ".")) {
      refuse_leaving(input, *next);
    }
  }
  for (fs::directory_iterator next(path, code), end; !code && next != end; next.increment(code)) {
    refuse_leaving(input, *next);  // of a folder "*.gdb"
  }
}

}  // namespace

Error InputFile::error(std::string_view what) const {
  return {Fault::input, fmt::format("{}: {}: {}", key, foreign_text(file.written), what)};
}

InputFile find_input(const FileRef& file, const std::string& key, bool folders) {
  InputFile input{key, file, {}, false};
  if (leads_elsewhere(file.written) || leads_elsewhere(file.path.native())) {
    throw input.error(file.remote ? "only a GeoTIFF is read from a server; fetch it first and name "
                                    "the copy"
                                  : "only files on this machine are read; fetch it first and name "
                                    "the copy");
  }
  std::error_code code;
  const fs::path path = fs::canonical(file.path, code);
  if (code) {
    throw input.error(code == std::errc::no_such_file_or_directory
                          ? "does not exist; check the path, which is relative to the plan"
                          : "cannot be reached (" + code.message() + ")");
  }
  const auto type = fs::status(path, code).type();
  const bool good = type == fs::file_type::regular ||
                    (folders && type == fs::file_type::directory && path.extension() == ".gdb");
  if (!good) {
    throw input.error(fmt::format("is {}; name a regular file", kind(type)));
  }
  input.path = path.native();
  if (input.path.starts_with("/vsi") || input.path.find('"') != std::string::npos) {
    throw input.error("lies at a path that GDAL would misread; move it");
  }
  if (const std::string fault = outside_fault(file, path); !fault.empty()) {
    throw input.error(fault);
  }
  refuse_bad_neighbours(input);
  return input;
}

std::string read_text_file(const InputFile& input, std::size_t max_bytes) {
  std::error_code code;
  const auto size = fs::file_size(input.path, code);
  if (code || size > max_bytes) {
    throw input.error(
        fmt::format("is over {} MB, too large for a table; cut out the area and the "
                    "years that are needed",
                    max_bytes / 1'000'000));
  }
  std::ifstream file(input.path, std::ios::binary);
  std::string text(static_cast<std::size_t>(size), '\0');
  file.read(text.data(), static_cast<std::streamsize>(size));
  if (!file) {
    throw input.error("cannot be read; check its permissions and the disk");
  }
  return text;
}

}  // namespace tidelot::geoio
