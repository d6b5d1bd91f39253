// SPDX-License-Identifier: Apache-2.0
// The arrays of a NetCDF file, by name, and what their attributes say.
#pragma once

#include <gdal_priv.h>

#include <memory>
#include <string>
#include <vector>

#include "gdal_support.hpp"
#include "input_file.hpp"

namespace tidelot::geoio {

/// A variable of a file.
struct MeshArray {
  std::string name;
  std::shared_ptr<GDALMDArray> array;
  std::vector<std::string> dimensions;
  std::vector<std::size_t> sizes;

  /// An attribute's text, "" where it has none.
  [[nodiscard]] std::string text(const std::string& attribute) const;
  /// An attribute's number, NaN where it has none.
  [[nodiscard]] double number(const std::string& attribute) const;
  [[nodiscard]] bool is_whole() const;     ///< of an integer type
  [[nodiscard]] std::size_t size() const;  ///< values
};

/// A file's variables in its order.
class MeshArrays {
 public:
  /// No arrays where the file is no NetCDF.
  explicit MeshArrays(const InputFile& input);

  [[nodiscard]] const std::vector<MeshArray>& all() const { return arrays_; }
  [[nodiscard]] const MeshArray* find(const std::string& name) const;
  /// Physical values in the file's order, NaN where there is none. Throws Error(input).
  [[nodiscard]] std::vector<double> values(const MeshArray& array) const;

 private:
  const InputFile& input_;
  DatasetHandle dataset_;
  std::vector<MeshArray> arrays_;
};

}  // namespace tidelot::geoio
