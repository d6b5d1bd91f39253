// SPDX-License-Identifier: Apache-2.0
#include "report/folder/set_aside.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <system_error>

#include "report/folder/folder_owner.hpp"
#include "report/folder/os_file.hpp"
#include "report/folder/output_names.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;

fs::path aside(const fs::path& work) { return work / "old"; }

/// There once all files are set aside: what stands in their places is the new run's from then on.
fs::path all_aside(const fs::path& work) { return work / "all-aside"; }

/// Was there an earlier run, and are its results still aside? run.json goes first and comes back
/// last.
bool had_results(const fs::path& work) { return fs::exists(aside(work) / kRunJson); }

/// One folder holds them all, those of maps/, too.
std::string flat(std::string name) {
  std::replace(name.begin(), name.end(), '/', '_');
  return name;
}

}  // namespace

void sync_folders(const fs::path& folder, const std::vector<std::string>& names) {
  std::set<fs::path> folders{folder};
  for (const std::string& name : names) {
    folders.insert((folder / name).parent_path());
  }
  for (const fs::path& each : folders) {
    if (fs::is_directory(fs::status(each))) {
      os::sync(each);
    }
  }
}

void Moves::make_folder(const fs::path& path) {
  if (os::make_folder(path)) {
    made_.push_back(path);
  }
}

void Moves::move(const fs::path& from, const fs::path& to) {
  os::move(from, to);
  done_.emplace_back(from, to);
}

bool Moves::undo() noexcept {
  for (; !done_.empty(); done_.pop_back()) {
    std::error_code error;
    fs::rename(done_.back().second, done_.back().first, error);
    if (error) {
      return false;
    }
  }
  for (const fs::path& folder : made_) {
    std::error_code ignored;  // one that holds something stays
    fs::remove(folder, ignored);
  }
  return true;
}

void set_aside(const fs::path& folder, const fs::path& work, Moves& moves) {
  os::make_folder(aside(work));
  os::make_folder(work / "moving");
  os::sync(work);
  os::sync(folder);
  const std::vector<std::string> earlier = own_files(folder);
  for (const std::string& name : earlier) {
    moves.move(folder / name, aside(work) / flat(name));
    if (name == kRunJson) {
      os::sync(folder);
    }
  }
  sync_folders(folder, earlier);
  os::sync(aside(work));
  moves.move(work / "moving", all_aside(work));
  os::sync(work);
}

std::string left_behind(const fs::path& folder, const fs::path& work) {
  return had_results(work)
             ? fmt::format("the earlier results lie in {}, and the next run puts them back",
                           work.string())
             : fmt::format("what lies in {} is not whole, and the next run takes it away",
                           folder.string());
}

void bring_back(const fs::path& folder, const fs::path& work) {
  const bool had = had_results(work);
  if (fs::exists(all_aside(work)) || !had) {
    for (const std::string& name : own_files(folder)) {
      os::discard(folder / name);
    }
  }
  if (!had) {
    return;
  }
  // What stands in its place from now on is the earlier run's, should this be cut short, too.
  os::discard(all_aside(work));
  std::vector<std::string> names = own_names();
  std::reverse(names.begin(), names.end());  // run.json last
  for (const std::string& name : names) {
    if (fs::exists(aside(work) / flat(name))) {
      if (name == kRunJson) {
        sync_folders(folder, names);
      }
      os::make_folder((folder / name).parent_path());
      os::move(aside(work) / flat(name), folder / name);
    }
  }
  os::sync(folder);
}

}  // namespace tidelot
