// SPDX-License-Identifier: Apache-2.0
// libpng is asked directly: GDAL's driver leaves every row's filter and the way of packing to
// chance, which costs six times the time for a larger file.
#include <fmt/format.h>
#include <png.h>
#include <zlib.h>

#include <csetjmp>
#include <cstdint>
#include <new>
#include <stdexcept>
#include <string>

#include "map_writer_parts.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::geoio {
namespace {

constexpr int kBitDepth = 8;
constexpr std::size_t kRoom = std::size_t{1} << 16;  ///< bytes of packed data handed on at a time

/// How the rows are made ready, and how they are packed.
struct Packing {
  int colour;
  int filter;
  int level;
  int strategy;
};
// Measured on the maps of a bay of 2000 x 2000 cells. Codes: differences to the row above in runs
// take a sixth of the time of the library's own choice, and 2 % fewer bytes. Painted pictures: as
// they are; a fifth fewer bytes in half the time.
constexpr Packing kGrey{PNG_COLOR_TYPE_GRAY, PNG_FILTER_UP, 6, Z_RLE};
constexpr Packing kPainted{PNG_COLOR_TYPE_RGBA, PNG_FILTER_NONE, 6, Z_DEFAULT_STRATEGY};

/// What the library writes to and what it complains of. It is C and leaves by longjmp, so nothing
/// may be thrown through it.
struct Output {
  std::string bytes;
  std::string trouble = "no reason given";
};

void append(png_structp png, png_bytep bytes, std::size_t count) {
  auto& output = *static_cast<Output*>(png_get_io_ptr(png));
  bool full = false;
  try {
    output.bytes.append(reinterpret_cast<const char*>(bytes), count);
  } catch (const std::bad_alloc&) {
    full = true;
  }
  if (full) {
    png_error(png, "out of memory");
  }
}

void flush(png_structp) {}

[[noreturn]] void leave(png_structp png, png_const_charp what) {
  auto& output = *static_cast<Output*>(png_get_error_ptr(png));
  try {
    output.trouble = what;
  } catch (const std::bad_alloc&) {
  }
  png_longjmp(png, 1);
}

void ignore(png_structp, png_const_charp) {}

struct Encoder {
  explicit Encoder(Output& output)
      : png(png_create_write_struct(PNG_LIBPNG_VER_STRING, &output, leave, ignore)),
        info(png != nullptr ? png_create_info_struct(png) : nullptr) {}
  ~Encoder() { png_destroy_write_struct(&png, &info); }
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;
  png_structp png;
  png_infop info;
};

/// No local of it needs a destructor: the library jumps back into it.
bool encode(const Encoder& to, Output& output, int width, int height, const std::uint8_t* pixels,
            const Packing& packing) {
  if (to.info == nullptr || setjmp(png_jmpbuf(to.png)) != 0) {
    return false;
  }
  png_set_write_fn(to.png, &output, append, flush);
  png_set_IHDR(to.png, to.info, static_cast<png_uint_32>(width), static_cast<png_uint_32>(height),
               kBitDepth, packing.colour, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
               PNG_FILTER_TYPE_DEFAULT);
  png_set_filter(to.png, PNG_FILTER_TYPE_BASE, packing.filter);
  png_set_compression_level(to.png, packing.level);
  png_set_compression_strategy(to.png, packing.strategy);
  png_set_compression_buffer_size(to.png, kRoom);
  png_write_info(to.png, to.info);
  const std::size_t stride = png_get_rowbytes(to.png, to.info);
  for (int row = 0; row < height; ++row) {
    png_write_row(to.png, pixels + static_cast<std::size_t>(row) * stride);
  }
  png_write_end(to.png, nullptr);
  return true;
}

}  // namespace

std::string png_bytes(int width, int height, std::span<const std::uint8_t> pixels) {
  const auto each = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
  if (width < 1 || height < 1 || (pixels.size() != each && pixels.size() != 4 * each)) {
    throw std::invalid_argument("a picture has 1 or 4 * width * height bytes, at least one pixel");
  }
  Output output;
  const Encoder encoder(output);
  if (!encode(encoder, output, width, height, pixels.data(),
              pixels.size() == each ? kGrey : kPainted)) {
    throw Error(Fault::output,
                fmt::format("a picture of the report could not be made ({}); give the run more "
                            "memory, then run again",
                            output.trouble));
  }
  return std::move(output.bytes);
}

}  // namespace tidelot::geoio
