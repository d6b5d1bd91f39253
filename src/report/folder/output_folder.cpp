// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/output_folder.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <system_error>

#include "report/folder/folder_owner.hpp"
#include "report/folder/os_file.hpp"
#include "report/folder/output_names.hpp"
#include "report/folder/set_aside.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;

/// Makes a folder and those above it; gives the uppermost one made, "" when all were there.
fs::path make_folders(const fs::path& folder) {
  fs::path made;
  if (!folder.parent_path().empty() && folder.has_relative_path()) {
    made = make_folders(folder.parent_path());
  }
  const bool fresh = os::make_folder(folder);
  return made.empty() && fresh ? folder : made;
}

/// A new work folder. A run that died may have had the same number.
fs::path make_work_folder(const fs::path& folder) {
  const std::string name = fmt::format("{}{}", kWorkPrefix, ::getpid());
  fs::path work = folder / name;
  for (int again = 1; !os::make_folder(work); ++again) {
    work = folder / fmt::format("{}-{}", name, again);
  }
  return work;
}

/// Removes empty folders from `folder` up to `top`; one that holds something stays, and ends it.
void remove_empty(fs::path folder, const fs::path& top) noexcept {
  std::error_code error;
  while (fs::remove(folder, error) && !error && folder != top) {
    folder = folder.parent_path();
  }
}

}  // namespace

void make_part_folder(const fs::path& folder) {
  const fs::path whole = fs::absolute(folder).lexically_normal();
  check_folder(whole);
  make_folders(whole.has_filename() ? whole : whole.parent_path());
}

OutputFolder::OutputFolder(const fs::path& folder, Unfinished left)
    : folder_(fs::absolute(folder).lexically_normal()) {
  if (!folder_.has_filename()) {
    folder_ = folder_.parent_path();
  }
  check_folder(folder_);
  try {
    made_ = make_folders(folder_);
    work_ = make_work_folder(folder_);
    lock_ = os::lock_new_file(work_ / kLockName);
    sweep_dead_runs(folder_, work_, left);
    os::make_folder(unfinished());
  } catch (...) {
    clean();
    throw;
  }
}

OutputFolder::~OutputFolder() { clean(); }

void OutputFolder::clean() noexcept {
  if (halfway_) {  // the next run brings back what lies there
    os::unlock(lock_);
    return;
  }
  if (leaves_ && !done_) {
    os::discard(work_ / "new");
    os::unlock(lock_);
    return;
  }
  os::discard(work_);
  os::unlock(lock_);
  if (!done_ && !made_.empty()) {
    remove_empty(folder_, made_);
  }
}

fs::path OutputFolder::unfinished() const { return work_ / kUnfinished; }

fs::path OutputFolder::staged(const std::string& name) {
  const fs::path path = work_ / "new" / name;
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  if (error) {
    throw Error(Fault::output, fmt::format("{}: cannot make the folder: {}",
                                           path.parent_path().string(), error.message()));
  }
  if (std::find(names_.begin(), names_.end(), name) == names_.end()) {
    names_.push_back(name);
  }
  return path;
}

void OutputFolder::write(const std::string& name, std::string_view text) {
  os::write_new_file(staged(name), text);
}

void OutputFolder::commit() {
  // run.json last: a folder with a run.json holds all the rest.
  std::stable_partition(names_.begin(), names_.end(),
                        [](const std::string& name) { return name != kRunJson; });
  for (const std::string& name : names_) {
    os::sync(work_ / "new" / name);
  }
  // A name is safe once its folder is: without new/run.json nobody would know what moves came next.
  sync_folders(work_ / "new", names_);
  Moves moves;
  try {
    set_aside(folder_, work_, moves);
    for (const std::string& name : names_) {
      if (name == kRunJson) {
        sync_folders(folder_, names_);
      }
      moves.make_folder((folder_ / name).parent_path());
      moves.move(work_ / "new" / name, folder_ / name);
    }
    sync_folders(folder_, names_);
  } catch (const std::exception& problem) {
    halfway_ = !moves.undo();
    if (halfway_) {
      throw Error(Fault::output, fmt::format("{}; nor can the files moved so far be moved back: {}",
                                             problem.what(), left_behind(folder_, work_)));
    }
    throw;
  }
  done_ = true;
  os::discard(work_);
}

}  // namespace tidelot
