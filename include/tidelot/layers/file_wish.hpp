// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>

#include "tidelot/layers/opener.hpp"

namespace tidelot {

/// A file that an Opener is going to be asked for, and how.
struct FileWish {
  enum class As {
    raster,  ///< open_raster
    depths,  ///< read_scatter, and open_raster where that gives nothing
    shapes,  ///< read_features
  } as = As::raster;
  FileRef file;
  std::string key;
  std::string where{};  ///< from here on as for read_features
  std::string crs{};
  LonLatBox box{};
  FeatureColumns columns{};
};

/// An Opener that gets ready side by side what it would else get ready in turn. What it is asked
/// for later is answered, and refused, as it would be without.
class ForeseeingOpener {
 public:
  virtual ~ForeseeingOpener() = default;
  virtual void expect(std::span<const FileWish> wishes) = 0;
};

}  // namespace tidelot
