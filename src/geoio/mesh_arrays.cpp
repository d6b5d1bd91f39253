// SPDX-License-Identifier: Apache-2.0
#include "mesh_arrays.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::size_t kMaxValues = 60'000'000;  // of one array
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

MeshArray described(const std::string& name, std::shared_ptr<GDALMDArray> array) {
  MeshArray out;
  out.name = name;
  for (const auto& dimension : array->GetDimensions()) {
    out.dimensions.push_back(dimension->GetFullName());
    out.sizes.push_back(static_cast<std::size_t>(dimension->GetSize()));
  }
  out.array = std::move(array);
  return out;
}

}  // namespace

std::string MeshArray::text(const std::string& attribute) const {
  const auto found = array->GetAttribute(attribute);
  const char* words = found != nullptr ? found->ReadAsString() : nullptr;
  return words != nullptr ? foreign_text(words) : "";
}

double MeshArray::number(const std::string& attribute) const {
  const auto found = array->GetAttribute(attribute);
  const bool numeric = found != nullptr && found->GetDataType().GetClass() == GEDTC_NUMERIC;
  return numeric ? found->ReadAsDouble() : kNan;
}

bool MeshArray::is_whole() const {
  const auto& type = array->GetDataType();
  return type.GetClass() == GEDTC_NUMERIC && GDALDataTypeIsInteger(type.GetNumericDataType()) != 0;
}

std::size_t MeshArray::size() const {
  return std::accumulate(sizes.begin(), sizes.end(), std::size_t{1}, std::multiplies<>());
}

MeshArrays::MeshArrays(const InputFile& input) : input_(input) {
  const Failures failures;
  constexpr const char* kFormats[] = {"netCDF", nullptr};
  dataset_.reset(GDALDataset::Open(input.path.c_str(), GDAL_OF_MULTIDIM_RASTER | GDAL_OF_READONLY,
                                   kFormats, nullptr, nullptr));
  const auto root = dataset_ != nullptr ? dataset_->GetRootGroup() : nullptr;
  if (root == nullptr) {
    return;
  }
  constexpr const char* kAll[] = {"SHOW_ALL=YES",
                                  nullptr};  // those that only carry attributes, too
  for (const std::string& name : root->GetMDArrayNames(kAll)) {
    if (auto array = root->OpenMDArray(name)) {
      arrays_.push_back(described(name, std::move(array)));
    }
  }
}

const MeshArray* MeshArrays::find(const std::string& name) const {
  const auto found = std::find_if(arrays_.begin(), arrays_.end(),
                                  [&](const MeshArray& a) { return a.name == name; });
  return found == arrays_.end() ? nullptr : &*found;
}

std::vector<double> MeshArrays::values(const MeshArray& array) const {
  if (array.size() > kMaxValues) {
    throw input_.error(
        fmt::format("its variable {} holds {} values, more than the {} that are "
                    "read; cut out the area first",
                    foreign_text(array.name), array.size(), kMaxValues));
  }
  const Failures failures;
  std::vector<double> values(array.size());
  const std::vector<GUInt64> start(array.sizes.size(), 0);
  const bool good = array.array->Read(start.data(), array.sizes.data(), nullptr, nullptr,
                                      GDALExtendedDataType::Create(GDT_Float64), values.data());
  if (!good || failures.any()) {
    throw input_.error(fmt::format("its variable {} cannot be read ({})", foreign_text(array.name),
                                   failures.text()));
  }
  bool has_fill = false;
  const double fill = array.array->GetNoDataValueAsDouble(&has_fill);
  const double missing = array.number("missing_value");
  bool has_scale = false;
  bool has_offset = false;
  const double scale = array.array->GetScale(&has_scale);
  const double offset = array.array->GetOffset(&has_offset);
  for (double& value : values) {
    const bool none =
        (has_fill && value == fill) || static_cast<float>(value) == static_cast<float>(missing);
    value = none ? kNan : value * (has_scale ? scale : 1.0) + (has_offset ? offset : 0.0);
  }
  return values;
}

}  // namespace tidelot::geoio
