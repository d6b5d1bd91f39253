// SPDX-License-Identifier: Apache-2.0
#include "report/folder/folder_owner.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <system_error>

#include "report/folder/os_file.hpp"
#include "report/folder/output_names.hpp"
#include "report/folder/set_aside.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

namespace fs = std::filesystem;

/// Is it the run.json of a tidelot run: an object whose "program" is "tidelot"?
bool is_run_json(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!fs::is_regular_file(path) || !file) {
    return false;
  }
  const auto json = nlohmann::json::parse(file, nullptr, false);
  return json.is_object() && json.value("program", nlohmann::json()) == "tidelot";
}

std::vector<fs::path> entries(const fs::path& folder) {
  std::vector<fs::path> found;
  std::error_code error;
  for (fs::directory_iterator next(folder, error), end; !error && next != end;
       next.increment(error)) {
    found.push_back(next->path());
  }
  if (error) {
    throw Error(Fault::output,
                fmt::format("{}: cannot read the folder: {}", folder.string(), error.message()));
  }
  return found;
}

bool is_work_folder(const fs::path& path) {
  return path.filename().string().rfind(kWorkPrefix, 0) == 0 &&
         fs::is_directory(fs::symlink_status(path));
}

bool is_part(const fs::path& path) {
  return path.filename().string().rfind(kPartPrefix, 0) == 0 &&
         fs::is_regular_file(fs::symlink_status(path));
}

/// A run stages run.json before it moves anything, so a work folder with one may have moved files.
bool died_while_moving(const fs::path& work) { return is_run_json(work / "new" / kRunJson); }

/// Nothing but what stopped runs left.
bool holds_stopped_runs(const fs::path& folder) {
  const std::vector<fs::path> inside = entries(folder);
  return !inside.empty() && std::all_of(inside.begin(), inside.end(), is_work_folder);
}

/// The runs of a comparison: a folder of that name in which everything is a run's.
bool holds_bays(const fs::path& entry) {
  if (entry.filename() != kBays || !fs::is_directory(fs::symlink_status(entry))) {
    return false;
  }
  const std::vector<fs::path> inside = entries(entry);
  return std::all_of(inside.begin(), inside.end(), [](const fs::path& bay) {
    return is_run_json(bay / kRunJson) || (fs::is_directory(bay) && holds_stopped_runs(bay));
  });
}

/// A comparison that was stopped leaves the runs that it finished, without a run.json of its own.
bool says_tidelot(const fs::path& entry) {
  return is_work_folder(entry)
             ? died_while_moving(entry)
             : (entry.filename() == kRunJson && is_run_json(entry)) || holds_bays(entry);
}

void refuse_other_run(const fs::path& entry) {
  if (is_work_folder(entry) && os::is_locked(entry / kLockName)) {
    throw Error(Fault::output,
                fmt::format("{}: another run is writing to this folder; wait for it or give "
                            "another folder with --out",
                            entry.parent_path().string()));
  }
}

/// Through a link the maps would replace files of the same names somewhere else.
void refuse_linked_maps(const fs::path& folder) {
  const fs::path maps = folder / "maps";
  if (fs::is_symlink(fs::symlink_status(maps))) {
    throw Error(Fault::output, fmt::format("{}: is a link to another folder; remove it or give "
                                           "another folder with --out",
                                           maps.string()));
  }
}

}  // namespace

void check_folder(const fs::path& folder) {
  std::error_code error;
  const fs::file_status status = fs::status(folder, error);
  if (status.type() == fs::file_type::not_found) {
    return;
  }
  if (!fs::is_directory(status)) {
    throw Error(Fault::output, fmt::format("{}: {}; give a folder with --out", folder.string(),
                                           error ? error.message() : "is not a folder"));
  }
  refuse_linked_maps(folder);
  const std::vector<fs::path> inside = entries(folder);
  std::for_each(inside.begin(), inside.end(), refuse_other_run);
  const bool empty = std::all_of(inside.begin(), inside.end(), [](const fs::path& entry) {
    return is_work_folder(entry) || is_part(entry);
  });
  if (!empty && std::none_of(inside.begin(), inside.end(), says_tidelot)) {
    throw Error(Fault::output,
                fmt::format("{}: is not empty and holds no run.json of tidelot, so nothing in it "
                            "is replaced; give another folder with --out",
                            folder.string()));
  }
}

void sweep_dead_runs(const fs::path& folder, const fs::path& work, Unfinished left) {
  for (const fs::path& entry : entries(folder)) {
    if (!is_work_folder(entry) || entry == work) {
      continue;
    }
    // Two that began at once each hold a lock by now, so at least one of them sees the other's.
    refuse_other_run(entry);
    if (died_while_moving(entry) && !fs::exists(folder / kRunJson)) {
      bring_back(folder, entry);
    }
    if (left == Unfinished::take && fs::is_directory(entry / kUnfinished) &&
        !fs::exists(work / kUnfinished)) {
      os::move(entry / kUnfinished, work / kUnfinished);
    }
    os::discard(entry);
  }
}

std::vector<fs::path> part_files(const fs::path& folder) {
  std::vector<fs::path> found;
  if (fs::is_directory(folder)) {
    found = entries(folder);
    std::erase_if(found, [](const fs::path& entry) { return !is_part(entry); });
    std::sort(found.begin(), found.end());
  }
  return found;
}

std::vector<std::string> own_names() {
  std::vector<std::string> names{std::string(kRunJson)};
  for (const std::string_view name : kOutputNames) {
    if (name != kRunJson) {
      names.emplace_back(name);
    }
    if (name.ends_with(".tif") || name.ends_with(".gpkg")) {
      for (const std::string_view end : kSideCars) {
        names.push_back(fmt::format("{}{}", name, end));
      }
    }
  }
  return names;
}

std::vector<std::string> own_files(const fs::path& folder) {
  std::vector<std::string> found = own_names();
  std::erase_if(found, [&](const std::string& name) {
    return !fs::exists(fs::symlink_status(folder / name));
  });
  return found;
}

}  // namespace tidelot
