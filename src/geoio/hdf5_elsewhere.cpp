// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <hdf5.h>

#include <string>

#include "elsewhere.hpp"
#include "gdal_support.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

/// A handle of the library, closed by its own function.
class Handle {
 public:
  Handle(hid_t id, herr_t (*close)(hid_t)) : id_(id), close_(close) {}
  ~Handle() {
    if (id_ >= 0) {
      close_(id_);
    }
  }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  [[nodiscard]] hid_t id() const { return id_; }
  [[nodiscard]] bool good() const { return id_ >= 0; }

 private:
  hid_t id_;
  herr_t (*close_)(hid_t);
};

/// Keeps the name of the first link that leads into another file. 1 ends the walk.
herr_t look_at_link(hid_t /*group*/, const char* name, const H5L_info_t* info, void* found) {
  if (info->type == H5L_TYPE_EXTERNAL) {
    *static_cast<std::string*>(found) = name;
  }
  return info->type == H5L_TYPE_EXTERNAL ? 1 : 0;
}

herr_t look_at_object(hid_t file, const char* name, const H5O_info_t* info, void* found) {
  if (info->type != H5O_TYPE_DATASET) {
    return 0;
  }
  const Handle array(H5Dopen2(file, name, H5P_DEFAULT), H5Dclose);
  const Handle how(array.good() ? H5Dget_create_plist(array.id()) : -1, H5Pclose);
  const bool elsewhere =
      how.good() && (H5Pget_external_count(how.id()) > 0 || H5Pget_layout(how.id()) == H5D_VIRTUAL);
  if (elsewhere) {
    *static_cast<std::string*>(found) = name;
  }
  return elsewhere ? 1 : 0;
}

/// Opened as those do who may have it open already, else the library refuses: NetCDF, then others.
hid_t open_shared(const char* path) {
  for (const H5F_close_degree_t degree : {H5F_CLOSE_SEMI, H5F_CLOSE_WEAK}) {
    const Handle how(H5Pcreate(H5P_FILE_ACCESS), H5Pclose);
    H5Pset_fclose_degree(how.id(), degree);
    if (const hid_t file = H5Fopen(path, H5F_ACC_RDONLY, how.id()); file >= 0) {
      return file;
    }
  }
  return -1;
}

}  // namespace

void refuse_hdf5_elsewhere(const InputFile& input) {
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
  if (H5Fis_hdf5(input.path.c_str()) <= 0) {
    return;
  }
  const Handle file(open_shared(input.path.c_str()), H5Fclose);
  std::string found;
  if (!file.good() ||
      H5Lvisit(file.id(), H5_INDEX_NAME, H5_ITER_NATIVE, look_at_link, &found) != 0 ||
      H5Ovisit(file.id(), H5_INDEX_NAME, H5_ITER_NATIVE, look_at_object, &found) != 0) {
    throw input.error(found.empty()
                          ? std::string("its contents cannot be listed; the file is "
                                        "damaged, get it anew")
                          : fmt::format("its \"{}\" lies in another file; copy the values "
                                        "into a file of their own",
                                        foreign_text(found)));
  }
}

}  // namespace tidelot::geoio
