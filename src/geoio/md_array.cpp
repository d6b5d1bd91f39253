// SPDX-License-Identifier: Apache-2.0
#include "md_array.hpp"

#include <limits>

#include "gdal_support.hpp"

namespace tidelot::geoio {

MdFile::MdFile(const InputFile& input) {
  constexpr const char* kFormats[] = {"netCDF", nullptr};
  const Failures failures;
  dataset_.reset(GDALDataset::Open(input.path.c_str(), GDAL_OF_MULTIDIM_RASTER | GDAL_OF_READONLY,
                                   kFormats, nullptr, nullptr));
  root_ = dataset_ != nullptr ? dataset_->GetRootGroup() : nullptr;
  if (root_ == nullptr) {
    throw input.error("its axes cannot be read (" + failures.text() + ")");
  }
}

std::vector<std::string> MdFile::names() const {
  const Failures ignored;
  return root_->GetMDArrayNames();
}

ArrayHandle MdFile::find(const std::string& name) const {
  if (name.empty()) {
    return nullptr;
  }
  const Failures ignored;
  return root_->OpenMDArrayFromFullname(name.front() == '/' ? name : "/" + name);
}

std::string attribute(const GDALMDArray& array, const std::string& name) {
  const Failures ignored;
  if (name == "units" && !array.GetUnit().empty()) {
    return array.GetUnit();
  }
  const auto found = array.GetAttribute(name);
  const char* text = found != nullptr ? found->ReadAsString() : nullptr;
  return text != nullptr ? text : "";
}

std::vector<double> numbers(const GDALMDArray& array, std::size_t most) {
  const Failures ignored;
  std::vector<std::size_t> count;
  std::size_t total = 1;
  for (const auto& dimension : array.GetDimensions()) {
    count.push_back(dimension->GetSize());
    if (count.back() == 0 || count.back() > most / total) {
      return {};
    }
    total *= count.back();
  }
  const std::vector<GUInt64> start(count.size(), 0);
  std::vector<double> values(total);
  if (array.GetDataType().GetClass() != GEDTC_NUMERIC ||
      !array.Read(start.data(), count.data(), nullptr, nullptr,
                  GDALExtendedDataType::Create(GDT_Float64), values.data())) {
    return {};
  }
  bool has = false;
  const double fill = array.GetNoDataValueAsDouble(&has);
  const double scale = array.GetScale();
  const double offset = array.GetOffset();
  for (double& value : values) {
    value =
        has && value == fill ? std::numeric_limits<double>::quiet_NaN() : value * scale + offset;
  }
  return values;
}

}  // namespace tidelot::geoio
