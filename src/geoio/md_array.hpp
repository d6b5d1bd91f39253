// SPDX-License-Identifier: Apache-2.0
// A NetCDF file by its arrays, for axes and their attributes.
#pragma once

#include <gdal_priv.h>

#include <memory>
#include <string>
#include <vector>

#include "input_file.hpp"

namespace tidelot::geoio {

using ArrayHandle = std::shared_ptr<GDALMDArray>;

class MdFile {
 public:
  /// Throws Error(input) where the file cannot be opened.
  explicit MdFile(const InputFile& input);
  /// Of the arrays outside of any group.
  [[nodiscard]] std::vector<std::string> names() const;
  /// nullptr where there is none of that name. "sst" or, in a group, "model/sst".
  [[nodiscard]] ArrayHandle find(const std::string& name) const;

 private:
  GDALDatasetUniquePtr dataset_;
  std::shared_ptr<GDALGroup> root_;
};

/// An attribute that is text, "" where there is none.
[[nodiscard]] std::string attribute(const GDALMDArray& array, const std::string& name);

/// All values, NaN where they are marked as missing; empty where they cannot be read as numbers or
/// are more than `most`.
[[nodiscard]] std::vector<double> numbers(const GDALMDArray& array, std::size_t most);

}  // namespace tidelot::geoio
